/** Two versions of one formula or dish. */
import { compareAllergens, compareTotals } from './totals';
import { weighed } from './entries';
import { compareFindings } from './findings';
import { isSameSize } from './factor';
import { compareWeights } from './ingredients';
import { pairParts } from './likeness';
import type { Change, ComparedSection, Fact, SectionChanges, SectionName } from './model';
import { compareLines, compareRecords, meaningOfBlock, type BlockSide } from './properties';
import { compareSteps, type StepContext } from './steps';

/** Where a section stands. */
export function nameOf({ section, lineOf }: ComparedSection, path: string): SectionName {
  const head = section.blocks[0]?.head;
  const start = head?.start ?? 0;
  const name = head?.node.kind === 'use' ? (head.node.path?.text ?? '') : section.name;
  return { kind: section.kind, name, path, line: lineOf({ block: 0, start, end: start }) };
}

/** One that came or went, as a whole: its allergens and its weight are told, and nothing else. */
export function onlyOneSide(one: ComparedSection, path: string, side: 'before' | 'after'): SectionChanges {
  const name = nameOf(one, path);
  const totals = one.analysis.totals;
  const fact: Fact = { name: name.name, line: name.line, ...(totals !== undefined && { grams: totals.dough_g }) };
  const nothing: ComparedSection = { ...one, analysis: { section: one.section, formula: undefined, totals: undefined, sheet: undefined, findings: [] } };
  const change = (other: Change['what']): Change => ({ what: other, before: side === 'before' ? fact : undefined, after: side === 'after' ? fact : undefined });
  const [was, is] = side === 'before' ? [one, nothing] : [nothing, one];
  const changes = [change(whatOf(one)), ...compareAllergens(was, is), ...compareFindings(was, is, new Map())];
  return { before: side === 'before' ? name : undefined, after: side === 'after' ? name : undefined, factor: 1, changes };
}

function whatOf({ section: { kind } }: ComparedSection): Change['what'] {
  switch (kind) {
    case 'formula':
    case 'dish':
      return 'formula';
    case 'plan':
      return 'plan';
    case 'ingredient':
      return 'own-ingredient';
    case 'use':
      return 'use';
    case 'stray':
      return 'other-lines';
  }
}

/** All changes between two versions of one section; of a formula or a dish in baker's terms, of any other line by line. */
export function compareSections(before: ComparedSection, after: ComparedSection, paths: { readonly before: string; readonly after: string }): SectionChanges {
  const names = { before: nameOf(before, paths.before), after: nameOf(after, paths.after) };
  const identity = identityChanges(before, after, names);
  // What is not known is neither lost nor gained: an allergen least of all.
  const baseless = compareBaseless(before, after, names);
  if (baseless.length > 0) {
    const changes = [...identity, ...baseless, ...blockChanges(before, after, 1), ...unreadChanges(before, after), ...compareFindings(before, after, new Map())];
    return { ...names, factor: 1, changes };
  }
  const areLists = [before, after].every(({ analysis: { formula } }) => formula?.isTotalFormula === true);
  const [a, b] = [weighed(before, areLists), weighed(after, areLists)];
  if (a === undefined || b === undefined) {
    const changes = [...identity, ...blockChanges(before, after, 1), ...unreadChanges(before, after), ...compareFindings(before, after, new Map())];
    return { ...names, factor: 1, changes: withLayout(changes, before, after) };
  }
  const paired = pairParts(a, b);
  const { factor, changes: weights, renamed } = compareWeights(a, b, paired);
  const context: StepContext = { before, after, factor, renamed };
  const steps = [
    ...paired.pairs.flatMap(([i, j]) => {
      const [was, is] = [a.formula.parts[i], b.formula.parts[j]];
      return was === undefined || is === undefined ? [] : compareSteps(was.steps, is.steps, { before: was.name, after: is.name }, context);
    }),
    ...compareSteps(a.formula.method, b.formula.method, undefined, context),
  ];
  const partLines = paired.pairs.flatMap(([i, j]) => {
    const [was, is] = [a.formula.parts[i], b.formula.parts[j]];
    if (was === undefined || is === undefined) return [];
    const heads = i === a.formula.dough && j === b.formula.dough ? [] : partTemperature(was.desiredCelsius, is.desiredCelsius, was.name, is.name);
    // What a dish uses stands in its head, which is told once.
    if (was.block === headBlock(before) && is.block === headBlock(after)) return heads;
    return [...heads, ...compareLines(blockSide(before, was.block), blockSide(after, is.block), factor, 'property', { before: was.name, after: is.name })];
  });
  const scaled: readonly Change[] = isSameSize(factor) ? [] : [{
    what: 'scaled',
    before: { name: before.section.name, line: names.before.line, grams: before.analysis.totals?.dough_g ?? null },
    after: { name: after.section.name, line: names.after.line, grams: after.analysis.totals?.dough_g ?? null },
  }];
  const changes = [
    ...compareAllergens(before, after),
    ...identity,
    ...scaled,
    ...compareTotals(before, after),
    ...weights,
    ...steps,
    ...headChanges(before, after, factor),
    ...partLines,
    ...recordChanges(before, after),
    ...unreadChanges(before, after),
    ...compareFindings(before, after, renamed),
  ];
  return { ...names, factor, changes: withLayout(changes, before, after) };
}

function identityChanges(before: ComparedSection, after: ComparedSection, names: { readonly before: SectionName; readonly after: SectionName }): readonly Change[] {
  const fact = (side: SectionName, text: string): Fact => ({ name: side.name, line: side.line, ...(text !== '' && { text }) });
  const [was, is] = [names.before, names.after];
  return [
    ...(was.kind === is.kind ? [] : [{ what: 'formula-kind', before: fact(was, was.kind), after: fact(is, is.kind) } as const]),
    ...(before.section.name === after.section.name ? [] : [{ what: 'formula-name', before: fact(was, ''), after: fact(is, '') } as const]),
    ...(was.path === is.path ? [] : [{ what: 'formula-file', before: fact(was, was.path), after: fact(is, is.path) } as const]),
  ];
}

/** Where one version of a variant has its base and the other has not. */
function compareBaseless(before: ComparedSection, after: ComparedSection, names: { readonly before: SectionName; readonly after: SectionName }): readonly Change[] {
  const baseless = ({ analysis: { formula } }: ComparedSection, { line }: SectionName): Fact | undefined => {
    const based = formula?.lacksBase === true ? formula.deltas.map(({ node }) => node).find((node) => node.kind === 'based-on') : undefined;
    return based && { name: based.base?.text ?? '', line };
  };
  const [was, is] = [baseless(before, names.before), baseless(after, names.after)];
  return (was === undefined) === (is === undefined) ? [] : [{ what: 'base-missing', before: was, after: is }];
}

function partTemperature(was: number | null, is: number | null, nameBefore: string, nameAfter: string): readonly Change[] {
  const fact = (value: number | null, part: string): Fact | undefined => (value === null ? undefined : { name: 'temperature wanted', part, text: `${String(Number(value.toFixed(1)))} °C` });
  return was === is ? [] : [{ what: 'property', before: fact(was, nameBefore), after: fact(is, nameAfter) }];
}

/** The block that opens the formula; undefined for parts that no formula opens. */
function headBlock({ section: { blocks } }: ComparedSection): number | undefined {
  const kind = blocks[0]?.head.node.kind;
  return kind === 'formula' || kind === 'dish' ? 0 : undefined;
}

/** The lines by which a variant differs from its base are told as what they do; where nothing could be made of them, as they stand. */
function headChanges(before: ComparedSection, after: ComparedSection, factor: number): readonly Change[] {
  const isWrittenOut = ({ analysis: { formula } }: ComparedSection): boolean => formula === undefined || formula.parts.length > 0;
  const changes = compareLines(blockSide(before, headBlock(before)), blockSide(after, headBlock(after)), factor);
  return isWrittenOut(before) && isWrittenOut(after) ? changes.filter((change) => !DELTAS.has((change.after ?? change.before)?.name ?? '')) : changes;
}

const DELTAS: ReadonlySet<string> = new Set(['swap', 'set', 'add', 'drop']);

function blockSide({ analysis: { section }, lineOf }: ComparedSection, index: number | undefined): BlockSide | undefined {
  const block = index === undefined ? undefined : section.blocks[index];
  return block === undefined || index === undefined ? undefined : { block, lineAt: (offset) => lineOf({ block: index, start: offset, end: offset }) };
}

// --- records ----------------------------------------------------------------------------------------------------------

function recordChanges(before: ComparedSection, after: ComparedSection): readonly Change[] {
  const there = new Map<string, number[]>();
  for (const [date, index] of recordsOf(after)) there.set(date, [...(there.get(date) ?? []), index]);
  const changes: Change[] = [];
  const whole = (side: ComparedSection, date: string, index: number): Fact => ({ name: date, line: blockSide(side, index)?.lineAt(side.section.blocks[index]?.head.start ?? 0) ?? 0 });
  for (const [date, index] of recordsOf(before)) {
    const other = there.get(date)?.shift();
    const [was, is] = [blockSide(before, index), blockSide(after, other)];
    if (other === undefined || was === undefined || is === undefined) changes.push({ what: 'record', before: whole(before, date, index), after: undefined });
    else {
      const change = compareRecords(was, is, date);
      if (change !== undefined) changes.push(change);
    }
  }
  for (const [date, indexes] of there) for (const index of indexes) changes.push({ what: 'record', before: undefined, after: whole(after, date, index) });
  return changes;
}

/** Each record's date, as written, and its block. */
function recordsOf({ section: { blocks } }: ComparedSection): readonly (readonly [string, number])[] {
  return blocks.flatMap(({ head: { node } }, index): (readonly [string, number])[] => (node.kind === 'record' ? [[node.date ?? '', index]] : []));
}

/** Blocks that are none: their lines count nowhere, and yet somebody wrote them. */
function unreadChanges(before: ComparedSection, after: ComparedSection): readonly Change[] {
  const unread = (side: ComparedSection): readonly Fact[] => side.section.blocks.flatMap(({ head, text }, index): readonly Fact[] => (head.node.kind === 'unknown'
    ? [{ name: 'a block that is not understood', text: text.trim().replace(/\s+/g, ' '), line: side.lineOf({ block: index, start: head.start, end: head.end }) }]
    : []));
  const [was, is] = [unread(before), unread(after)];
  const without = (list: readonly Fact[], other: readonly Fact[]): readonly Fact[] => {
    const there = new Set(other.map(({ text }) => text));
    return list.filter(({ text }) => !there.has(text));
  };
  return [
    ...without(was, is).map((fact): Change => ({ what: 'property', before: fact, after: undefined })),
    ...without(is, was).map((fact): Change => ({ what: 'property', before: undefined, after: fact })),
  ];
}

// --- other sections, and what is no change ----------------------------------------------------------------------------

function blockChanges(before: ComparedSection, after: ComparedSection, factor: number): readonly Change[] {
  const count = Math.max(before.section.blocks.length, after.section.blocks.length);
  return Array.from({ length: count }, (_, index) => compareLines(blockSide(before, index), blockSide(after, index), factor)).flat();
}

/** Where nothing is told of two texts that differ: the same in other words, or only laid out another way. */
function withLayout(changes: readonly Change[], before: ComparedSection, after: ComparedSection): readonly Change[] {
  const text = ({ section }: ComparedSection): string => section.blocks.map((block) => block.text).join('');
  if (changes.length > 0 || text(before) === text(after)) return changes;
  const meaning = ({ section }: ComparedSection): string => section.blocks.map(meaningOfBlock).join('\n');
  const fact = (side: ComparedSection): Fact => ({ name: side.section.name, line: nameOf(side, '').line });
  return [{ what: meaning(before) === meaning(after) ? 'layout' : 'rewritten', before: fact(before), after: fact(after) }];
}
