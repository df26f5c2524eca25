/** The edits of a base's blocks that the lines of a variant come to. */
import { type Block, type Line, type Name, type StepDetail } from '../../../grammar';
import type { Section } from '../formula/model';
import { foldName } from '../ingredients/names';
import { nameKey } from '../formula/draft';
import type { PlacedChanges, WorkLine } from './changes';
import { lineEndOf, wholeLine, type Cut } from './rewrite';

/** The edits of one block's lines of ingredients. */
export function partCuts(base: Section, block: number, section: Section, { changes, lines }: PlacedChanges): readonly Cut[] {
  const { text = '', lines: written = [], head } = base.blocks[block] ?? {};
  const own = lines.filter((line) => line.part.block === block);
  const cuts = own.flatMap((line): readonly Cut[] => {
    if (line.listed === undefined) return [];
    if (line.dropped !== undefined) return [{ ...wholeLine(text, line.listed.node), newText: '', change: line.dropped }];
    return [...renaming(line, section, changes), ...amounting(text, line, section, changes)];
  });
  const added = own.flatMap((line): readonly Cut[] => {
    const change = line.added === undefined || line.dropped !== undefined ? undefined : changes[line.added];
    if (change?.node.kind !== 'add') return [];
    const { start, end } = change.node.line;
    const newText = textIn(section, change.place.block, { start, end });
    return [{ start: 0, end: 0, newText, own: { block: change.place.block, start, end }, ...(line.added !== undefined && { change: line.added }) }];
  });
  if (added.length === 0) return cuts;
  // Behind the last line of ingredients, as deep as that one.
  const last = written.findLast(({ node }) => node.kind === 'ingredient' || node.kind === 'flour-share' || node.kind === 'uses') ?? head;
  const isHead = last === head;
  const indent = isHead ? '  ' : /[ \t]*$/.exec(text.slice(0, last?.start ?? 0))?.[0] ?? '  ';
  const { end } = wholeLine(text, last ?? { start: 0, end: 0 });
  const isOpen = !text.slice(0, end).endsWith('\n');
  return [...cuts, ...added.flatMap((cut): readonly Cut[] => [
    { start: end, end, newText: isOpen ? `${lineEndOf(text)}${indent}` : indent },
    { ...cut, start: end, end },
    ...(isOpen ? [] : [{ start: end, end, newText: lineEndOf(text) }]),
  ])];
}

function renaming({ listed, renamed }: WorkLine, section: Section, changes: PlacedChanges['changes']): readonly Cut[] {
  const change = renamed === undefined ? undefined : changes[renamed];
  if (listed === undefined || renamed === undefined || change?.node.kind !== 'swap') return [];
  return [nameCut(listed.name, section, change.place.block, change.node.to, renamed)];
}

function nameCut({ start, end }: Name, section: Section, block: number, to: Name, change: number): Cut {
  return { start, end, newText: textIn(section, block, to), own: { block, start: to.start, end: to.end }, change };
}

/** The new amount in the place of the old, with the weight in brackets that may stand behind the name, and the word `of`. */
function amounting(text: string, { listed, amounted }: WorkLine, section: Section, changes: PlacedChanges['changes']): readonly Cut[] {
  const change = amounted === undefined ? undefined : changes[amounted];
  if (listed === undefined || amounted === undefined || change?.node.kind !== 'set') return [];
  const { amount, kind } = listed.node;
  const to = change.node.amount;
  const own = { block: change.place.block, start: to.start, end: to.end };
  const of = kind === 'ingredient' ? /^\s+of(?=\s)/i.exec(text.slice(amount.end))?.[0].length ?? 0 : 0;
  const bracket = 'bracket' in amount && amount.bracket !== undefined && amount.bracket.start > amount.end ? amount.bracket : undefined;
  const closed = bracket && text.indexOf(')', bracket.end) + 1;
  const opened = bracket && text.lastIndexOf('(', bracket.start);
  return [
    { start: amount.start, end: amount.end + of, newText: textIn(section, change.place.block, to), own, change: amounted },
    ...(opened === undefined || !closed ? [] : [{ start: opened - (/\s*$/.exec(text.slice(0, opened))?.[0].length ?? 0), end: closed, newText: '', change: amounted }]),
  ];
}

/** What the steps add follows what is swapped and dropped. */
export function stepCuts(block: Block, section: Section, placed: PlacedChanges): readonly Cut[] {
  if (placed.lines.every(({ renamed, dropped }) => renamed === undefined && dropped === undefined)) return [];
  return linesWithin(block.lines).flatMap(({ node }) => (node.kind !== 'step' ? [] : node.details.flatMap((detail) => (
    detail.kind === 'add' ? addCut(block.text, detail, section, placed) : []
  ))));
}

function addCut(text: string, detail: Extract<StepDetail, { kind: 'add' }>, section: Section, { changes, lines }: PlacedChanges): readonly Cut[] {
  const meant = meantBy(detail.name.text, lines);
  const [first] = meant;
  if (first === undefined) return [];
  if (meant.every(({ dropped }) => dropped !== undefined)) {
    const before = /[ \t]*,?[ \t]*$/.exec(text.slice(0, detail.start))?.[0].length ?? 0;
    return [{ start: detail.start - before, end: detail.end, newText: '', ...(first.dropped !== undefined && { change: first.dropped }) }];
  }
  const left = meant.filter(({ dropped }) => dropped === undefined);
  const renamed = left[0]?.renamed;
  const change = renamed === undefined ? undefined : changes[renamed];
  if (renamed === undefined || change?.node.kind !== 'swap' || left.some((line) => line.renamed === undefined || nameKey(line.name) !== nameKey(left[0]?.name ?? ''))) return [];
  return [nameCut(detail.name, section, change.place.block, change.node.to, renamed)];
}

/** The lines of the base that a step meant by a name, in the way that steps are read. */
function meantBy(name: string, lines: readonly WorkLine[]): readonly WorkLine[] {
  const wanted = nameKey(name);
  const was = lines.filter(({ listed }) => listed !== undefined);
  const named = (test: (own: string) => boolean): readonly WorkLine[] => was.filter(({ listed }) => listed !== undefined && test(listed.name.text));
  const exact = named((own) => nameKey(own) === wanted);
  if (exact.length > 0) return exact;
  const alike = named((own) => foldName(own) === foldName(name));
  if (alike.length > 0) return alike;
  const words = wanted.split(' ');
  return named((own) => words.every((word) => nameKey(own).split(' ').includes(word)));
}

function linesWithin(lines: readonly Line[]): readonly Line[] {
  const found: Line[] = [];
  const waiting = [...lines];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    found.push(next);
    waiting.push(...next.children);
  }
  return found;
}

function textIn({ blocks }: Section, block: number, { start, end }: { readonly start: number; readonly end: number }): string {
  return blocks[block]?.text.slice(start, end) ?? '';
}
