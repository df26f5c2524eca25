/**
 * Where a Markdown page has its ```bake fences, by the rules of CommonMark as far as fences go: backticks or tildes, three or
 * more; up to three spaces in front, and in a list what stands under its text; words after the name; a fence that nobody
 * closes runs to the end of its list item, or of the page. Fences of other languages, comments of HTML and text set four
 * spaces in are looked through, so that a fence that is only shown in them is not taken for one. Quoted lines (`>`) are not
 * read.
 */

/** A line of a fence, in the page. */
export interface FenceLine {
  /** From 0. */
  readonly line: number;
  /** Offset of what the line says, the fence's indent left out, and where it ends before its line break. */
  readonly start: number;
  readonly end: number;
  /** Offset of the next line. */
  readonly next: number;
  /** How many characters of indent are left out; a line may have less than its fence. */
  readonly indent: number;
}

export interface Fence {
  /** What goes in front of each line of it. */
  readonly indent: string;
  readonly lines: readonly FenceLine[];
  /** The line that ends it, which is not in it; undefined when the page ends first. */
  readonly endLine: number | undefined;
}

interface Row {
  readonly line: number;
  readonly start: number;
  /** Of the first character that is no space or tab. */
  readonly first: number;
  readonly end: number;
  readonly next: number;
  /** Columns of indent, a tab going to the next multiple of four. */
  readonly column: number;
}

/** A fence of any language that is not closed yet. */
interface OpenFence {
  readonly mark: string;
  readonly column: number;
  /** Column of the text of the list item that it stands in: with less indent, a line ends the item and the fence. */
  readonly base: number;
  readonly indent: string;
  /** Undefined when it is of another language. */
  readonly lines: FenceLine[] | undefined;
}

const MAY_HAVE_ONE = /(?:`{3}|~{3})[ \t]*bake/i;
const IS_BAKE = /^[ \t]*bake(?:$|[\s:,{?])/i;
const FENCE = /^(?:(`{3,})([^`]*)|(~{3,})(.*))$/;
const LIST_MARK = /^([-*+]|\d{1,9}[.)])([ \t]+)(?=\S)/;
const TAB_COLUMNS = 4;

/** The ```bake fences of a page, in order. Reads the page once; one without a fence is only searched for the word. */
export function fencesIn(page: string): readonly Fence[] {
  if (!MAY_HAVE_ONE.test(page)) return [];
  const fences: Fence[] = [];
  /** Columns of the text of the list items that the line in hand may stand in, outermost first. */
  const items: number[] = [];
  let open: OpenFence | undefined;
  let inComment = false;
  const close = (endLine: number | undefined): void => {
    if (open?.lines !== undefined) fences.push({ indent: open.indent, lines: open.lines, endLine });
    open = undefined;
  };

  for (const row of rowsOf(page)) {
    const isBlank = row.first >= row.end;
    if (open !== undefined) {
      const leavesItem = !isBlank && row.column < open.base;
      if (!leavesItem && !closes(page, row, open)) {
        open.lines?.push(lineOf(page, row, open.column));
        continue;
      }
      close(row.line);
      if (!leavesItem) continue;
    }
    if (inComment) {
      inComment = !page.slice(row.start, row.end).includes('-->');
      continue;
    }
    if (isBlank) continue;
    while ((items.at(-1) ?? 0) > row.column) items.pop();
    if (row.column - (items.at(-1) ?? 0) > 3) continue; // code by its indent, or a paragraph that goes on
    const { rest, column } = afterListMarks(page, row, items);
    if (rest.startsWith('<!--')) inComment = !rest.includes('-->');
    else open = opened(page, row, rest, column, items.at(-1) ?? 0);
  }
  close(undefined);
  return fences;
}

function opened(page: string, row: Row, rest: string, column: number, base: number): OpenFence | undefined {
  const match = FENCE.exec(rest);
  if (match === null) return undefined;
  const [, ticks, afterTicks, tildes, afterTildes] = match;
  const isBake = IS_BAKE.test(afterTicks ?? afterTildes ?? '');
  // A fence on the line of its list mark stands as deep as the text of the item.
  const indent = column === row.column ? page.slice(row.start, row.first) : ' '.repeat(column);
  return { mark: ticks ?? tildes ?? '', column, base, indent, lines: isBake ? [] : undefined };
}

function closes(page: string, row: Row, { mark, base }: OpenFence): boolean {
  if (row.column - base > 3) return false;
  const text = page.slice(row.first, row.end).trimEnd();
  return text.length >= mark.length && text.startsWith(mark) && [...text].every(sign => sign === mark[0]);
}

/** What a line says after the marks of the lists that it opens, which are added to `items`, and the column where it begins. */
function afterListMarks(page: string, row: Row, items: number[]): { readonly rest: string; readonly column: number } {
  let rest = page.slice(row.first, row.end);
  let { column } = row;
  for (let match = LIST_MARK.exec(rest); match !== null; match = LIST_MARK.exec(rest)) {
    const [whole, mark = '', spaces = ''] = match;
    const marked = column + mark.length;
    const text = columnAfter(spaces, marked);
    if (text - marked > TAB_COLUMNS) return { rest: '', column }; // code by its indent, in a list
    items.push(text);
    column = text;
    rest = rest.slice(whole.length);
  }
  return { rest, column };
}

function columnAfter(spaces: string, from: number): number {
  let column = from;
  for (const space of spaces) column = space === '\t' ? column + TAB_COLUMNS - (column % TAB_COLUMNS) : column + 1;
  return column;
}

/** A line without as much of its indent as its fence has. A tab that reaches further stays. */
function lineOf(page: string, { line, start, first, end, next }: Row, column: number): FenceLine {
  let indent = 0;
  while (start + indent < first && columnAfter(page.slice(start, start + indent + 1), 0) <= column) indent++;
  return { line, start: start + indent, end, next, indent };
}

/** Every line, the empty one behind a last line break too. LF, CRLF and a lone CR each end a line. */
function* rowsOf(page: string): Generator<Row> {
  let start = 0;
  for (let line = 0; ; line++) {
    let first = start;
    while (page[first] === ' ' || page[first] === '\t') first++;
    let end = first;
    while (end < page.length && page[end] !== '\n' && page[end] !== '\r') end++;
    const next = page.startsWith('\r\n', end) ? end + 2 : Math.min(end + 1, page.length);
    yield { line, start, first, end, next, column: columnAfter(page.slice(start, first), 0) };
    if (end >= page.length) return;
    start = next;
  }
}
