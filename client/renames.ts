/** Formulas that get another name by our own rename: what is kept of them by their name goes on under the new one. */

export interface Renamed {
  readonly uri: string;
  /** Names of a formula or dish. */
  readonly from: string;
  readonly to: string;
}

/** One edit of a line; characters count from 0, in UTF-16. */
export interface LineEdit {
  readonly start: number;
  readonly end: number;
  readonly newText: string;
}

const HEAD = /^\s*(?:formula|dish)\b[^"“]*["“]([^"”]*)["”]/i;

/** The names in the head of a formula before and after an edit of that line; undefined where it is no head, or keeps its name. */
export function renamedHead(line: string, { start, end, newText }: LineEdit): { readonly from: string; readonly to: string } | undefined {
  const [before, after] = [line, line.slice(0, start) + newText + line.slice(end)].map((text) => HEAD.exec(text)?.[1]?.trim());
  return before === undefined || after === undefined || before === after ? undefined : { from: before, to: after };
}
