/**
 * Findings for a reader: `path:line:column: severity: message (code)`, which editors and terminals turn into a link, and
 * under it the line with the place marked.
 */
import { summaryOf, type CheckedFile, type FindingsForm, type PlacedFinding } from './findings';
import { plain, type Paint } from './paint';
import { charactersOf, printable, widthOf } from './width';

export interface FindingsTextOptions {
  /** Columns that a source line may take; a longer one is shown around its mark. */
  readonly width: number;
  readonly paint: Paint;
}

/** All findings, a blank line between them, and one line that counts them; nothing where no file was read. */
export function findingsText(options: FindingsTextOptions = { width: 100, paint: plain }): FindingsForm {
  return {
    begin: '',
    file: (file) => file.findings.map((finding) => `${findingBlock(file, finding, options)}\n`).join(''),
    end: (all) => (all.files === 0 ? '' : `${summaryOf(all)}\n`),
  };
}

function findingBlock(file: CheckedFile, finding: PlacedFinding, { width, paint }: FindingsTextOptions): string {
  const { severity, code } = finding;
  const where = `${printable(file.path)}:${String(finding.line)}:${String(finding.column)}:`;
  const head = `${paint.strong(where)} ${paint.severity(severity, `${severity}:`)} ${printable(finding.message)} ${paint.quiet(`(${code})`)}`;
  const number = String(finding.line);
  const gutter = ' '.repeat(number.length);
  const source = finding.lineText;
  const end = finding.endLine > finding.line ? source.length : finding.endColumn - 1;
  const excerpt = mark(source, finding.column - 1, end, width - number.length - 6);
  return [
    head,
    `  ${paint.quiet(`${number} |`)} ${excerpt.source}`,
    `  ${paint.quiet(`${gutter} |`)} ${paint.severity(severity, excerpt.mark)}`,
    ...finding.related.map(({ elsewhere, line, message }) => `  ${gutter}   ${elsewhere === undefined ? '' : `${printable(elsewhere.path)}, `}line ${String(line)}: ${printable(message)}`),
    ...finding.fixes.map(({ title }) => `  ${gutter}   fix: ${printable(title)}`),
  ].map((line) => `${line.trimEnd()}\n`).join('');
}

/** A source line cut to `width` around the marked range (UTF-16 offsets), tabs as two spaces, and the carets that go under it. */
function mark(source: string, start: number, end: number, width: number): { readonly source: string; readonly mark: string } {
  const characters = charactersOf(source).map((character) => {
    const text = character.text === '\t' ? '  ' : printable(character.text);
    return { offset: character.offset, end: character.offset + character.text.length, text, width: widthOf(text) };
  });
  const isMarked = (character: { readonly offset: number; readonly end: number }): boolean =>
    character.offset < Math.max(end, start + 1) && character.end > start;
  let from = 0;
  const total = characters.reduce((sum, character) => sum + character.width, 0);
  if (total > width) {
    // A third of the room goes to what stands before the mark.
    let before = Math.floor(width / 3);
    from = characters.findIndex(isMarked);
    if (from < 0) from = characters.length;
    while (from > 0 && before > 0) before -= characters[(from -= 1)]?.width ?? 0;
  }
  let line = from > 0 ? '…' : '';
  let carets = from > 0 ? ' ' : '';
  let marked = false;
  for (const character of characters.slice(from)) {
    if (widthOf(line) + character.width > width) {
      line += '…';
      break;
    }
    line += character.text;
    carets += (isMarked(character) ? '^' : ' ').repeat(character.width);
    marked ||= isMarked(character);
  }
  // A place at the end of its line, where something is missing.
  return { source: line, mark: marked ? carets.trimEnd() : `${' '.repeat(widthOf(line))}^` };
}
