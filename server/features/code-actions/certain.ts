/** Repairs that are right without reading them: all of a file, all of a kind, all of a selection. */
import type { TextEdit } from 'vscode-languageserver';
import type { Finding, Fix } from '../../core/checks/check';
import { lineIndexOf } from '../../project/lines';
import type { PlacedSection, ProjectFile } from '../../project/file';
import { textEdit } from './options';

/** A finding and the one repair of it that is certain. */
export interface Certain {
  readonly section: PlacedSection;
  readonly finding: Finding;
  readonly fix: Fix;
}

export function certainIn(file: ProjectFile): readonly Certain[] {
  return file.sections.flatMap(section => section.analysis.findings.flatMap((finding): readonly Certain[] => {
    const fix = finding.fixes.find(one => one.certain);
    return fix === undefined ? [] : [{ section, finding, fix }];
  }));
}

/** The edits of as many as touch nothing that another one touches, in the order of the text. */
export function editsOfAll(file: ProjectFile, all: readonly Certain[]): readonly TextEdit[] {
  const taken: { readonly start: number; readonly end: number }[] = [];
  const edits: TextEdit[] = [];
  for (const { section, fix } of all) {
    const spans = fix.edits.map(({ place }) => section.offsetsOf(place));
    if (spans.some(span => taken.some(other => span.start <= other.end && other.start <= span.end))) continue;
    taken.push(...spans);
    edits.push(...fix.edits.map(edit => textEdit(file, section, edit)));
  }
  return edits;
}

/** More rounds than any repair has led to another. */
const MOST_ROUNDS = 20;

/**
 * The edits after which nothing with a certain repair is left: a repair may show what could not be read before, and two at
 * one place are made one after the other.
 *
 * @param supposing the file as it would be with another text
 */
export function everyCertainEdit(file: ProjectFile, supposing: (text: string) => ProjectFile | undefined): readonly TextEdit[] {
  const source = sourceOf(file);
  let pieces: readonly Piece[] = [{ start: 0, end: source.length }];
  let now: ProjectFile | undefined = file;
  let text = source;
  for (let round = 0; round < MOST_ROUNDS && now !== undefined; round++) {
    const index = lineIndexOf(text);
    const edits = editsOfAll(now, certainIn(now)).map(({ range, newText }) => ({ start: index.offsetAt(range.start), end: index.offsetAt(range.end), newText }));
    if (edits.length === 0) break;
    for (const { start, end, newText } of [...edits].sort((a, b) => b.start - a.start || b.end - a.end)) pieces = replaced(pieces, start, end, newText);
    text = textOf(pieces, source);
    now = supposing(text);
  }
  return editsFrom(pieces, source);
}

/** What the editor holds: of a Markdown page, all of it. */
function sourceOf({ page, text }: ProjectFile): string {
  return page?.source ?? text;
}

/** A stretch of the first text that is kept, or a text that is new. */
type Piece = { readonly start: number; readonly end: number } | { readonly newText: string };

function lengthOf(piece: Piece): number {
  return 'newText' in piece ? piece.newText.length : piece.end - piece.start;
}

function part(piece: Piece, from: number, to: number): readonly Piece[] {
  if (to <= from) return [];
  return ['newText' in piece ? { newText: piece.newText.slice(from, to) } : { start: piece.start + from, end: piece.start + to }];
}

/** The pieces with `newText` in the place of what stands from `start` to `end`. */
function replaced(pieces: readonly Piece[], start: number, end: number, newText: string): readonly Piece[] {
  const before: Piece[] = [];
  const after: Piece[] = [];
  let at = 0;
  for (const piece of pieces) {
    const length = lengthOf(piece);
    before.push(...part(piece, 0, Math.min(length, start - at)));
    after.push(...part(piece, Math.max(0, end - at), length));
    at += length;
  }
  return [...before, ...(newText === '' ? [] : [{ newText }]), ...after];
}

function textOf(pieces: readonly Piece[], source: string): string {
  return pieces.map(piece => ('newText' in piece ? piece.newText : source.slice(piece.start, piece.end))).join('');
}

/** One edit for each stretch of the first text that is gone or has something new in it. */
function editsFrom(pieces: readonly Piece[], source: string): readonly TextEdit[] {
  const index = lineIndexOf(source);
  const edits: TextEdit[] = [];
  let at = 0;
  let newText = '';
  const close = (upTo: number): void => {
    if (upTo > at || newText !== '') edits.push({ range: index.rangeOf(at, upTo), newText });
    newText = '';
  };
  for (const piece of pieces) {
    if ('newText' in piece) newText += piece.newText;
    else {
      close(piece.start);
      at = piece.end;
    }
  }
  close(source.length);
  return edits;
}
