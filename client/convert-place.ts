/** Where a whole formula goes into a text: never into the middle of another one. */

/** Lines that begin something of its own; what stands between them belongs together. */
const OPENS = /^(?:formula|dish|plan|use|ingredient)(?![\p{L}\p{N}-])/iu;

export interface Insertion {
  readonly line: number;
  readonly character: number;
  readonly text: string;
  /** The line that the draft begins in, once it is there. */
  readonly headLine: number;
}

/**
 * The place for a draft near the cursor: in front of the next formula, dish, plan, `use` or `ingredient` below its line, else at the
 * end; with one blank line on either side. Lines and characters from 0.
 *
 * @param lines of the text without their ends; of one that ends with a line end the last is empty
 */
export function insertionAt(lines: readonly string[], cursorLine: number, draft: string): Insertion {
  const isAtTop = lines.slice(0, cursorLine).every(isBlank);
  let line = lines.findIndex((text, index) => (index > cursorLine || (isAtTop && index === cursorLine)) && OPENS.test(text));
  if (line >= 0) {
    // Comments above a block belong to it.
    while (line > cursorLine && lines[line - 1]?.startsWith('#') === true) line -= 1;
    const before = isBlank(lines[line - 1]) ? '' : '\n';
    return { line, character: 0, text: `${before}${draft}\n`, headLine: line + before.length };
  }
  line = Math.max(0, lines.length - 1);
  const last = lines[line] ?? '';
  const before = last === '' ? (isBlank(lines[line - 1]) ? '' : '\n') : isBlank(last) ? '\n' : '\n\n';
  return { line, character: last.length, text: before + draft, headLine: line + before.length };
}

function isBlank(line: string | undefined): boolean {
  return line === undefined || line.trim() === '';
}
