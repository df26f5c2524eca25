/** After a line end, the indent of the new line. Nothing else is touched while somebody types. */
import type { FormattingOptions, Position, TextEdit } from 'vscode-languageserver';
import { isPartWord } from '../../grammar';
import type { ProjectFile } from '../project/file';

/** Words that open a block with lines of its own, besides those of parts. */
const OPENS_LINES = /^(?:formula|dish|steps|ingredient|record|plan)\b/i;

/**
 * Under a head one step deeper, under a line as deep as it; an indent that is there already, or a text behind the cursor, is
 * left alone, and so is the line under an empty one.
 *
 * @param position just behind the line end
 */
export function indentOnNewLine(file: ProjectFile, { line }: Position, { insertSpaces, tabSize }: Pick<FormattingOptions, 'insertSpaces' | 'tabSize'>): TextEdit[] {
  if (line === 0) return [];
  const own = file.lineIndex.lineAt(line);
  const above = file.lineIndex.lineAt(line - 1);
  if (file.text.slice(own.start, own.end).trim() !== '' || above.end === above.start) return [];
  const written = file.text.slice(above.start, above.end);
  const wanted = indentUnder(written, insertSpaces ? ' '.repeat(Math.min(tabSize, 8)) : '\t');
  if (wanted === '' || file.text.slice(own.start, own.end) !== '') return [];
  // On a page the fence has an indent of its own, which the new line may lack.
  const inFence = file.lineIndex.positionAt(above.start).character;
  const at = file.lineIndex.positionAt(own.start);
  return [{ range: { start: at, end: at }, newText: ' '.repeat(Math.max(0, inFence - at.character)) + wanted }];
}

function indentUnder(line: string, deeper: string): string {
  const text = line.replace(/^\uFEFF/, '');
  if (text.trim() === '') return '';
  const indent = /^[ \t]*/.exec(text)?.[0] ?? '';
  if (indent !== '') return indent;
  const [first = '', second = ''] = text.toLowerCase().split(/[\s"“„«#]+/);
  return OPENS_LINES.test(text) || isPartWord(first) || isPartWord(`${first} ${second}`) ? deeper : '';
}
