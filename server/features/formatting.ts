/** The canonical layout, as the smallest edits: what is fine already is not touched, so that cursors and marks stay. */
import type { Range, TextEdit } from 'vscode-languageserver';
import { formatBlocks, parse } from '../../grammar';
import { textEditIn } from '../project/file';
import type { ProjectFile } from '../project/file';

/**
 * Edits that give the file, or the blocks that a range touches, the canonical layout. A block in which something could not
 * be read is left as it is: what is not understood cannot be laid out. On a Markdown page each fence is laid out by itself, and
 * nothing around it; not one whose lines stand left of it, for then nobody can say what is indented.
 */
export function formattingOf(file: ProjectFile, range?: Range): TextEdit[] {
  if (file.tooLarge) return [];
  const from = range === undefined ? 0 : file.lineIndex.offsetAt(range.start);
  const to = range === undefined ? file.text.length : file.lineIndex.offsetAt(range.end);
  const pieces = file.page?.fences.filter(({ ragged }) => !ragged) ?? [{ start: 0, end: file.text.length }];
  return pieces.flatMap(piece => {
    const text = file.text.slice(piece.start, piece.end);
    // Lines that go on with a block of the fence above are out of place by themselves, and so are left as they are.
    const blocks = file.page === undefined ? file.tree.blocks : parse(text).blocks;
    return formatBlocks(text, blocks).flatMap(({ offset, oldText, newText }, index) => {
      const start = piece.start + offset;
      const end = start + oldText.length;
      if (oldText === newText || start > to || end < from || (end === from && from < file.text.length)) return [];
      const block = blocks[index]?.block;
      return block === undefined || block.problems.length > 0 ? [] : edits(oldText, newText).map(edit => {
        // A lone CR in front, which ends a line by itself, would become one with the LF that is put behind it.
        const joins = edit.newText.startsWith('\n') && start + edit.start > piece.start && file.text[start + edit.start - 1] === '\r';
        return joins ? textEditIn(file, start + edit.start - 1, start + edit.end, `\n${edit.newText}`) : textEditIn(file, start + edit.start, start + edit.end, edit.newText);
      });
    });
  });
}

interface Edit {
  readonly start: number;
  readonly end: number;
  readonly newText: string;
}

/** Line by line when no line comes or goes; else one edit from the first line that differs to the last. */
function edits(oldText: string, newText: string): readonly Edit[] {
  const before = linesOf(oldText);
  const after = linesOf(newText);
  if (before.length === after.length) {
    let start = 0;
    return before.flatMap((line, index) => {
      const at = start;
      start += line.length;
      const wanted = after[index] ?? '';
      return line === wanted ? [] : [narrowed(at, line, wanted)];
    });
  }
  let same = 0;
  while (same < Math.min(before.length, after.length) && before[same] === after[same]) same++;
  let tail = 0;
  while (tail < Math.min(before.length, after.length) - same && before.at(-1 - tail) === after.at(-1 - tail)) tail++;
  const start = before.slice(0, same).join('').length;
  const oldMiddle = before.slice(same, before.length - tail).join('');
  return [{ start, end: start + oldMiddle.length, newText: after.slice(same, after.length - tail).join('') }];
}

/** The edit of one line without what both have at its start and end. A pair of surrogates or CR LF is never cut in two. */
function narrowed(start: number, line: string, wanted: string): Edit {
  let head = 0;
  const shortest = Math.min(line.length, wanted.length);
  while (head < shortest && line[head] === wanted[head]) head++;
  let tail = 0;
  while (tail < shortest - head && line.at(-1 - tail) === wanted.at(-1 - tail)) tail++;
  const isHalf = (text: string, at: number): boolean => /[\uD800-\uDBFF\r]/.test(text[at - 1] ?? '') && /[\uDC00-\uDFFF\n]/.test(text[at] ?? '');
  if (isHalf(line, head) || isHalf(wanted, head)) head--;
  if (isHalf(line, line.length - tail) || isHalf(wanted, wanted.length - tail)) tail--;
  return { start: start + head, end: start + line.length - Math.max(0, tail), newText: wanted.slice(head, wanted.length - Math.max(0, tail)) };
}

/** Lines with their line ends. */
function linesOf(text: string): readonly string[] {
  return text.match(/[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+$/g) ?? [];
}
