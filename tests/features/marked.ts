/** Small texts with the cursor marked in them: `600 g wa┆ter`. One place that touches the API, for all feature tests. */
import { expect } from 'vitest';
import type { Range, TextEdit } from 'vscode-languageserver';
import { LARGEST_TEXT } from '../../server/project/file';
import type { ProjectFile } from '../../server/project/file';
import { lineIndexOf } from '../../server/project/lines';
import { Project } from '../../server/project/project';

export const ROOT = 'file:///stall';
export const MARK = '┆';

export const uriOf = (name: string): string => `${ROOT}/${name}`;

export interface Marked {
  readonly file: ProjectFile;
  readonly project: Project;
  /** Offset of the first mark; of the end of the text when there is none. */
  readonly offset: number;
  /** Offsets of all marks. */
  readonly offsets: readonly number[];
}

/** Takes the marks out of a text. */
export function unmarked(text: string): { readonly text: string; readonly offsets: readonly number[] } {
  const parts = text.split(MARK);
  const offsets: number[] = [];
  let length = 0;
  for (const part of parts.slice(0, -1)) offsets.push((length += part.length));
  return { text: parts.join(''), offsets };
}

/** A project with the marked text as `main.bake` and other files beside it. Faults are thrown. */
export async function marked(source: string, others: Readonly<Record<string, string>> = {}): Promise<Marked> {
  const { text, offsets } = unmarked(source);
  const project = new Project({
    reader: { read: uri => Promise.resolve(others[decodeURIComponent(uri.slice(ROOT.length + 1))]) },
    roots: [ROOT],
    onFault: (code, fault) => {
      throw new Error(`fault in ${code}`, { cause: fault });
    },
  });
  project.update(uriOf('main.bake'), text);
  const file = await project.prepare(uriOf('main.bake'));
  if (file === undefined || text.length > LARGEST_TEXT) throw new Error('no such text');
  return { file, project, offset: offsets[0] ?? text.length, offsets };
}

/** The text that a range covers. */
export function textIn(text: string, range: Range): string {
  const index = lineIndexOf(text);
  return text.slice(index.offsetAt(range.start), index.offsetAt(range.end));
}

/** The text after edits, which may not overlap. */
export function edited(text: string, edits: readonly TextEdit[]): string {
  const index = lineIndexOf(text);
  const spans = edits
    .map(({ range, newText }) => ({ start: index.offsetAt(range.start), end: index.offsetAt(range.end), newText }))
    .sort((a, b) => a.start - b.start || a.end - b.end);
  let result = '';
  let at = 0;
  for (const { start, end, newText } of spans) {
    expect(start, 'edits overlap').toBeGreaterThanOrEqual(at);
    result += text.slice(at, start) + newText;
    at = end;
  }
  return result + text.slice(at);
}

export const RYE = `formula "Fig and walnut rye"
  makes     2 loaves of 970 g
  style     hearth, with inclusions
  room      23 C
  loses     12 % in the oven

levain
  60 g      dark rye flour
  60 g      water at 28 C
  12 g      starter
  ripen     8 h at 24 C

soaker "figs"
  150 g     dried figs, quartered
  40 g      water at 90 C
  rest      1 h

dough at 25 C
  700 g     bread flour
  180 g     whole wheat flour
  600 g     water
  all       levain
  18 g      salt
  120 g     walnuts, toasted
  all       figs
  20 g      rice flour for dusting

steps
  mix         8 min, by hand
  rest        40 min
  bulk        3 h 30 min at 24 C
    fold      at 30 min
    fold      at 60 min, add half of walnuts
    fold      at 90 min, add rest of walnuts, add figs
    coil fold at 120 min
  preshape    5 min
  rest        25 min
  shape       10 min
  retard      10 to 16 h at 4 C
  preheat     60 min at 240 C
  score       2 min
  bake        25 min at 240 C, lid on
  bake        18 to 22 min at 215 C, lid off, until core 97 C
  cool        2 h
`;
