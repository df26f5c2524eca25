/** A preferment taken out of a dough: the same flour, water and leaven in all, some of it mixed the evening before. */
import { type Edit, lineBelow, lineEnd, written } from '../checks/edits';
import { writtenName } from '../checks/words';
import type { ResolvedPart, Section } from '../formula/model';
import { linesNamed } from '../formula/named';
import { PREFERMENT_MIXES, PREFERMENTED_PCT, type PrefermentMix } from './preferments';
import { isOwnFlour, isSettled, saidGrams, writtenLines, type Refactoring, type Scene, type Written } from './refactoring';
import { amountEdit, inColumns, massText, newLine, shareTexts, short } from './writing';

/** What is taken of a line of the dough, g. */
interface Taken {
  readonly from: Written;
  readonly grams: number;
}

interface Plan {
  readonly mix: PrefermentMix;
  readonly flour: Taken;
  readonly water: Taken;
  readonly leaven: Taken;
}

/** One for each kind of preferment that the dough has enough flour, water and leaven for. */
export function prefermentsToTakeOut(scene: Scene): readonly Refactoring[] {
  const { formula, section, at } = scene;
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  if (dough === undefined || dough.block !== at.block || (dough.kind !== 'dough' && dough.kind !== 'total formula') || !isSettled(scene)) return [];
  return PREFERMENT_MIXES.flatMap((mix): readonly Refactoring[] => {
    if (formula.parts.some((part) => part.key === mix.kind) || section.blocks[0]?.head.node.kind !== 'formula') return [];
    // A total list counts the culture as the flour and water that it is: whose flour, only the baker knows.
    if (dough.kind === 'total formula' && mix.yeastPct === undefined) return [];
    const plan = planFor(scene, dough, mix);
    if (plan === undefined) return [];
    return [{
      id: `extract-${mix.kind}`, kind: 'extract', title: `Make ${PREFERMENTED_PCT} % of the flour into a ${mix.kind}`,
      edits: () => (dough.kind === 'total formula' ? inTotal(section, dough, plan) : inDough(section, dough, plan)),
    }];
  });
}

function planFor(scene: Scene, dough: ResolvedPart, mix: PrefermentMix): Plan | undefined {
  const lines = writtenLines(dough).filter(({ line, node }) => line.inDough && line.part === undefined && (node.amount.kind === 'mass' || node.amount.kind === 'share') && isOneNumber(node));
  const flourGrams = writtenLines(dough).reduce((sum, { line }) => sum + (isOwnFlour(line) ? (line.grams ?? 0) : 0), 0);
  const flour = largest(lines.filter(({ line }) => isOwnFlour(line)));
  const water = largest(lines.filter(({ line }) => line.ingredient?.isWater === true));
  const leaven = largest(lines.filter(({ line }) => (mix.yeastPct === undefined ? line.starterHydrationPct !== undefined : mix.yeastPct[line.key] !== undefined)));
  if (flour === undefined || water === undefined || leaven === undefined) return undefined;
  // Weights go over in whole grams, shares as they come.
  const isWeighed = [flour, water, leaven].every(({ node }) => node.amount.kind === 'mass');
  const asWeighed = (grams: number): number => (isWeighed ? Number(written(grams, 'g')) : grams);
  const flourTaken = asWeighed((flourGrams * PREFERMENTED_PCT) / 100);
  const waterTaken = asWeighed((flourTaken * mix.waterPct) / 100);
  const leavenTaken = mix.yeastPct === undefined ? (leaven.line.grams ?? 0) : asWeighed((flourTaken * (mix.yeastPct[leaven.line.key] ?? 0)) / 100);
  const taken: readonly Taken[] = [{ from: flour, grams: flourTaken }, { from: water, grams: waterTaken }, { from: leaven, grams: leavenTaken }];
  const isEnough = taken.every(({ from, grams }, i) => grams > 0 && (from.line.grams ?? 0) >= grams * (i < 2 ? 1 + 1e-9 : 1));
  if (!isEnough || taken.some(({ from }) => isAddedByWeight(scene, dough, from))) return undefined;
  return { mix, flour: { from: flour, grams: flourTaken }, water: { from: water, grams: waterTaken }, leaven: { from: leaven, grams: leavenTaken } };
}

function isOneNumber({ amount }: Written['node']): boolean {
  return amount.kind !== 'all' && amount.quantity?.high === undefined && (amount.kind !== 'share' || amount.bracket === undefined);
}

function largest(lines: readonly Written[]): Written | undefined {
  return lines.reduce<Written | undefined>((most, one) => (most === undefined || (one.line.grams ?? 0) > (most.line.grams ?? 0) ? one : most), undefined);
}

/** A step that adds so many grams of a line goes by what the line has now. */
function isAddedByWeight({ formula }: Scene, dough: ResolvedPart, { line }: Written): boolean {
  const steps = [...formula.method, ...dough.steps].flatMap((step) => [step, ...step.children]);
  return steps.some(({ node }) => node.details.some((detail) => detail.kind === 'add' && linesNamed(detail.name.text, dough.lines, formula.parts).includes(line)));
}

// --- the text -----------------------------------------------------------------------------------------------------------

/** A total formula lists everything already: it only says how much of the flour goes in. */
function inTotal(section: Section, dough: ResolvedPart, plan: Plan): readonly Edit[] {
  const { mix, flour } = plan;
  const [share = ''] = shareTexts([{ pct: (100 * flour.grams) / (dough.baseGrams ?? Number.NaN), isFlour: false }], false);
  return [...prefermentBlock(section, dough, plan, true), newLast(section, dough, newLine(dough, share, `of flour in ${mix.kind}`))];
}

function inDough(section: Section, dough: ResolvedPart, plan: Plan): readonly Edit[] {
  const { mix, flour, water, leaven } = plan;
  const taken = new Map([flour, water, leaven].map(({ from, grams }) => [from.node, grams] as const));
  const base = (dough.baseGrams ?? 0) - flour.grams;
  const lines = writtenLines(dough);
  // Shares are of the flour that is left in the dough: all of them change.
  const shares = lines.filter(({ node }) => node.amount.kind === 'share' && node.amount.bracket === undefined);
  const leftOf = ({ line, node }: Written): number => saidGrams(line) - (taken.get(node) ?? 0);
  const floursAreWhole = lines.every(({ line, node }) => !isOwnFlour(line) || node.amount.kind === 'share');
  const texts = shareTexts(shares.map((one) => ({ pct: (100 * leftOf(one)) / base, isFlour: isOwnFlour(one.line) })), floursAreWhole);
  const whole = flour.grams + water.grams + leaven.grams;
  const isElastic = flour.from.node.amount.kind === 'share';
  const [share = ''] = shareTexts([{ pct: (100 * whole) / base, isFlour: false }], false);
  const gone = lines.filter((one) => leftOf(one) <= 1e-9 * saidGrams(one.line) && taken.has(one.node));
  const edits = lines.flatMap((one): readonly Edit[] => {
    if (gone.includes(one)) return [];
    const text = texts[shares.indexOf(one)];
    if (text !== undefined) return [amountEdit(dough, one, text)];
    const { amount } = one.node;
    return taken.has(one.node) && amount.kind === 'mass' ? [amountEdit(dough, one, massText(leftOf(one), amount.unit))] : [];
  });
  // The culture that went into the levain leaves its line to it.
  const taking = newLine(dough, isElastic ? share : 'all', mix.kind);
  const [first] = gone;
  const placed = first === undefined
    ? newBelow(section, dough, water.from, taking)
    : { place: { block: dough.block, start: first.node.start, end: first.node.end }, newText: taking };
  return inColumns(section, [...prefermentBlock(section, dough, plan, isElastic), ...edits, placed]);
}

function newBelow(section: Section, dough: ResolvedPart, { node }: Written, text: string): Edit {
  const line = section.blocks[dough.block]?.lines.find(({ start }) => start === node.start);
  return lineBelow(section, dough.block, node.start, line?.end ?? node.end, text);
}

function newLast(section: Section, dough: ResolvedPart, text: string): Edit {
  const last = section.blocks[dough.block]?.lines.findLast(({ node }) => node.kind === 'ingredient' || node.kind === 'flour-share');
  const at = last ?? section.blocks[dough.block]?.head ?? { start: 0, end: 0 };
  return lineBelow(section, dough.block, at.start, at.end, text);
}

/** The block of the preferment, above that of the dough. */
function prefermentBlock(section: Section, dough: ResolvedPart, { mix, flour, water, leaven }: Plan, inShares: boolean): readonly Edit[] {
  const text = section.blocks[dough.block]?.text ?? '';
  const end = lineEnd(section, dough.block);
  const indent = /^[ \t]+/m.exec(text.slice(section.blocks[dough.block]?.head.end ?? 0))?.[0] ?? '  ';
  const amountOf = ({ grams }: Taken): string => (inShares ? `${short((100 * grams) / flour.grams)} %` : massText(grams));
  const nameOf = ({ from: { node } }: Taken): string =>
    `${writtenName(node.name.text)}${node.hydrationPct === undefined ? '' : ` at ${node.hydrationPct.text} % hydration`}${node.role === undefined ? '' : ` as ${node.role.role}`}`;
  const leavenPct = (100 * leaven.grams) / flour.grams;
  const lines = [
    ...[flour, water, leaven].map((taken) => newLine(dough, amountOf(taken), nameOf(taken))),
    newLine(dough, 'ripen', mix.ripen(leavenPct)),
  ];
  const block = [mix.kind, ...lines.map((line) => `${indent}${line}`)].map((line) => `${line}${end}`).join('');
  // Blank lines above the dough stay between the two.
  const startsBlank = /^[ \t]*\r?\n/.test(text);
  return [{ place: { block: dough.block, start: 0, end: 0 }, newText: startsBlank ? `${end}${block}` : block }];
}
