/** Keeps the column in which the names of a block stand, as numbers grow and shrink beside it. */
import type { Line } from '../../../grammar';
import { placeOf } from '../formula/gather';
import type { NumberEdit, Scene } from './scene';

/** A section and what has been changed in it so far. */
type Edited = { readonly section: Scene['section']; readonly edits: readonly NumberEdit[] };

interface Row {
  /** Offset in the block's text of the end of the amount, and spaces from there to the name. */
  readonly end: number;
  readonly gap: number;
  /** Columns from the start of the line to the name, before and, with the gap as it is, after. */
  readonly before: number;
  readonly after: number;
}

/**
 * Edits of the spaces between amounts and names. A block has a column when names of it stand after two spaces or more: the one
 * where most of them stand; failing that, where most of what follows the words of its other lines does (`ripen     8 h`), or
 * of the formula's. Names that are in it stay there as long as there is room, and come back to it when a number
 * that was too long for it is shorter again.
 */
export function alignNames(block: number, lines: readonly Line[], scene: Edited): readonly NumberEdit[] {
  const grown = growthIn(block, scene);
  const rows = lines.flatMap((line) => rowOf(line, block, scene, grown) ?? []);
  const column = mostCommon(rows.filter(({ gap }) => gap > 1).map(({ before }) => before)) ?? lostColumn(block, rows, scene);
  if (column === undefined) return [];
  return rows.flatMap(({ end, gap, before, after }) => {
    const isIn = before === column || (before > column && gap === 1);
    const wanted = isIn ? Math.max(1, gap + column - after) : gap;
    return wanted === gap ? [] : [{ place: placeOf(block, { start: end, end: end + gap }), newText: ' '.repeat(wanted) }];
  });
}

/** Where every number has become too long for the column, no name shows it any more, but other lines do. */
function lostColumn(block: number, rows: readonly Row[], scene: Edited): number | undefined {
  const column = wordColumn([block], scene) ?? wordColumn(scene.section.blocks.keys(), scene);
  return column !== undefined && rows.every(({ before }) => before >= column) ? column : undefined;
}

/** Where most lines that hold no amount begin their second word after a gap; undefined where none has a gap. */
function wordColumn(blocks: Iterable<number>, scene: Edited): number | undefined {
  return mostCommon([...blocks].flatMap((index) => {
    const { text = '', lines = [] } = scene.section.blocks[index] ?? {};
    return lines.flatMap(({ node, start, end }) => {
      if (node.kind === 'ingredient' || node.kind === 'uses' || node.kind === 'blank' || node.kind === 'comment') return [];
      const from = text.lastIndexOf('\n', start - 1) + 1;
      const gap = /^\s*[^\s#]+ {2,}(?=[^\s#])/.exec(text.slice(from, end));
      return gap === null ? [] : [gap[0].length];
    });
  }));
}

/** How many characters longer the text between two offsets has become; asked for from the top of the block down. */
function growthIn(block: number, scene: Edited): (start: number, end: number) => number {
  const edits = scene.edits.filter(({ place }) => place.block === block).sort((a, b) => a.place.start - b.place.start);
  let next = 0;
  return (start, end) => {
    let sum = 0;
    for (let edit = edits[next]; edit !== undefined && edit.place.end <= end; edit = edits[++next]) {
      if (edit.place.start >= start) sum += edit.newText.length - (edit.place.end - edit.place.start);
    }
    return sum;
  };
}

function rowOf({ node, start }: Line, block: number, scene: Edited, grown: (start: number, end: number) => number): Row | undefined {
  if (node.kind !== 'ingredient' && node.kind !== 'uses') return undefined;
  const { text } = scene.section.blocks[block] ?? { text: '' };
  const { end } = node.amount;
  const gap = /^ */.exec(text.slice(end, end + 80))?.[0].length ?? 0;
  const next = text[end + gap];
  if (gap === 0 || next === undefined || /[\s#]/.test(next)) return undefined;
  const before = end + gap - (text.lastIndexOf('\n', start - 1) + 1);
  return { end, gap, before, after: before + grown(start, end) };
}

/** Of equals the furthest to the right. */
function mostCommon(columns: readonly number[]): number | undefined {
  const counts = new Map<number, number>();
  for (const column of columns) counts.set(column, (counts.get(column) ?? 0) + 1);
  return [...counts].sort(([a, times], [b, others]) => others - times || b - a)[0]?.[0];
}
