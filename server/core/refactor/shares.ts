/** A part in grams or in baker's percentages, and a line of it. */
import { quantityMiddle, type Quantity } from '../../../grammar';
import type { Edit } from '../checks/edits';
import { written, writtenAtLeast } from '../checks/edits';
import { grams as gramsWords } from '../checks/words';
import type { ResolvedFormula, ResolvedLine, ResolvedPart } from '../formula/model';
import { toGrams } from '../units/mass';
import { isAllInParts, isOwnFlour, isSettled, partAt, partWords, saidGrams, writtenLines, type Refactoring, type Scene, type Written } from './refactoring';
import { amountEdit, inColumns, rangeText, shareTexts } from './writing';

/** Rounding to what a scale shows may move a part by this much of it; beyond, shares say better what is meant. */
const MOST_MOVED = 0.005;
/** Two sizes this near are one: what shares size differs by a few times as much where some of it is weighed. */
const SAME_SIZE = 1e-5;
/** What asking for a little too much of a part is let pass. */
const SHORT_BY_GRAMS = 0.04;

export function sharesOrGrams(scene: Scene): readonly Refactoring[] {
  const part = partAt(scene);
  if (part === undefined || !isSettled(scene)) return [];
  return [partInGrams(scene, part), partInShares(scene, part), ...lineAtCursor(scene, part)].filter((one) => one !== undefined);
}

// --- grams ------------------------------------------------------------------------------------------------------------

/** Every share of the part in grams, as a scale shows them; what that rounds away is said in the title. */
function partInGrams({ section, formula }: Scene, part: ResolvedPart): Refactoring | undefined {
  const shares = sharesIn(part);
  // A preferment that holds so much of the flour is built to it, whatever it is rounded to.
  if (shares.length === 0 || takingsOf(formula, part).some(({ source }) => source?.kind === 'flour-share')) return undefined;
  const quantities = shares.map((one) => inGrams(one));
  const missing = missingOf(formula, part, shares, quantities);
  const largest = shares.reduce((most, { line }, i) => (saidGrams(line) > saidGrams(shares[most]?.line ?? line) ? i : most), 0);
  const texts = quantities.map(({ written: text, middle }, i) => (i === largest && missing > 0 ? `${written(middle + missing, 'g')} g` : text));
  const moved = quantities.reduce((sum, { middle }, i) => sum + (shares[i]?.line.inDough === true ? middle - saidGrams(shares[i].line) : 0), missing);
  if (Math.abs(moved) > MOST_MOVED * (part.grams ?? 0)) return undefined;
  const rounding = Math.abs(moved) < 0.5 ? '' : `: rounding makes it ${gramsWords(Math.abs(moved))} ${moved > 0 ? 'more' : 'less'}`;
  return {
    id: 'part-in-grams', kind: 'rewrite', title: `Write ${partWords(part)} in grams${rounding}`,
    edits: () => inColumns(section, shares.map((one, i) => amountEdit(part, one, texts[i] ?? ''))),
  };
}

function sharesIn(part: ResolvedPart): readonly Written[] {
  return writtenLines(part).filter(({ node: { amount } }) => amount.kind === 'share' && amount.bracket === undefined);
}

interface InGrams {
  readonly written: string;
  /** Of the rounded weight, g. */
  readonly middle: number;
}

function inGrams({ line, node }: Written): InGrams {
  const quantity = node.amount.kind === 'share' ? node.amount.quantity : undefined;
  const share = quantity === undefined ? 0 : quantityMiddle(quantity);
  const gramsOf = (pct: number): string => (share === 0 ? '0' : (isAllInParts(line) ? writtenAtLeast : written)((saidGrams(line) * pct) / share, 'g'));
  const low = Number(gramsOf(quantity?.low.value ?? 0));
  const high = Number(gramsOf((quantity?.high ?? quantity?.low)?.value ?? 0));
  return { written: `${quantity === undefined ? '0' : rangeText(quantity, gramsOf)} g`, middle: (low + high) / 2 };
}

/** A part that is built to what is called for makes, once it is weighed, what it makes: that must suffice. */
function missingOf(formula: ResolvedFormula, part: ResolvedPart, shares: readonly Written[], quantities: readonly InGrams[]): number {
  if (part.block === formula.parts[formula.dough ?? -1]?.block) return 0;
  const moved = quantities.reduce((sum, { middle }, i) => sum + (shares[i]?.line.inDough === true ? middle - saidGrams(shares[i].line) : 0), 0);
  return moved < -SHORT_BY_GRAMS ? Math.ceil(-moved) : 0;
}

// --- shares -----------------------------------------------------------------------------------------------------------

/**
 * Every weight of the part as a share of its flour. Where nothing else says how much there is, the largest flour keeps
 * its weight.
 */
function partInShares({ section, formula }: Scene, part: ResolvedPart): Refactoring | undefined {
  const base = part.baseGrams ?? 0;
  const lines = writtenLines(part);
  const flours = lines.filter(({ line }) => isOwnFlour(line));
  const masses = lines.filter(({ line, node }) => node.amount.kind === 'mass' && line.inDough && !(formula.isTotalFormula && part.block === doughBlock(formula) && line.part !== undefined));
  if (base <= 0 || flours.length === 0 || masses.length === 0) return undefined;
  const isMeasured = flours.some(({ node: { amount } }) => amount.kind !== 'mass' && !(amount.kind === 'share' && amount.bracket === undefined));
  const isSized = part.block === doughBlock(formula) ? isSizedByMakes(formula, part) : isSizedByOthers(formula, part);
  const kept = isSized || isMeasured ? undefined : largestOf(masses.filter(({ line }) => isOwnFlour(line)));
  if (!isSized && !isMeasured && kept === undefined) return undefined;
  const changed = masses.filter((one) => one !== kept);
  if (changed.length === 0) return undefined;
  return {
    id: 'part-in-shares', kind: 'rewrite',
    title: `Write ${partWords(part)} in baker's percentages${kept === undefined ? '' : `; ${kept.line.name} keeps its weight`}`,
    edits: () => inColumns(section, asShares(part, changed, base, isSized && !isMeasured && flours.every((one) => changed.includes(one)))),
  };
}

function asShares(part: ResolvedPart, changed: readonly Written[], base: number, floursAreWhole: boolean): readonly Edit[] {
  const pctOf = (grams: number): number => (100 * grams) / base;
  const texts = shareTexts(changed.map(({ line }) => ({ pct: pctOf(saidGrams(line)), isFlour: isOwnFlour(line), ...roundedUp(line) })), floursAreWhole);
  return changed.map((one, i) => {
    const { amount } = one.node;
    const range = amount.kind === 'mass' && amount.quantity.high !== undefined ? amount : undefined;
    return amountEdit(part, one, range === undefined ? (texts[i] ?? '') : rangeShare(range.quantity, pctOf(toGrams(range)) / quantityMiddle(range.quantity)));
  });
}

function roundedUp(line: Written['line']): { readonly way?: 'up' } {
  return isAllInParts(line) ? { way: 'up' } : {};
}

function rangeShare(quantity: Quantity, pctPerUnit: number): string {
  const text = rangeText(quantity, (value) => shareTexts([{ pct: value * pctPerUnit, isFlour: false }], false)[0]?.replace(' %', '') ?? '');
  return `${text} %`;
}

function largestOf(lines: readonly Written[]): Written | undefined {
  return lines.reduce<Written | undefined>((most, one) => (most === undefined || saidGrams(one.line) > saidGrams(most.line) ? one : most), undefined);
}

function doughBlock({ parts, dough }: ResolvedFormula): number | undefined {
  return dough === undefined ? undefined : parts[dough]?.block;
}

/** `makes` says the very weight that the dough has. */
function isSizedByMakes({ makes, benchLoss, parts, isTotalFormula, dough }: ResolvedFormula, part: ResolvedPart): boolean {
  const node = makes?.node;
  if (node?.each?.kind !== 'mass' || dough === undefined) return false;
  const wanted = ((node.pieces === undefined ? 1 : quantityMiddle(node.pieces)) * toGrams(node.each)) / (1 - benchLoss);
  const made = isTotalFormula ? (parts[dough]?.yieldGrams ?? 0) : (part.grams ?? 0);
  return Math.abs(wanted - made) <= SAME_SIZE * made;
}

function takingsOf({ parts }: ResolvedFormula, part: ResolvedPart): readonly ResolvedLine[] {
  const index = parts.indexOf(part);
  return parts.flatMap(({ lines }) => lines).filter((line) => line.part === index);
}

/** Whatever takes the part in says how much, and that is all there is of it. */
function isSizedByOthers(formula: ResolvedFormula, part: ResolvedPart): boolean {
  const takings = takingsOf(formula, part);
  const { grams, yieldGrams, calledForGrams, keepGrams } = part;
  if (takings.length === 0 || grams === null || yieldGrams !== grams || calledForGrams === null) return false;
  const saysHowMuch = takings.every(({ source }) => source?.kind === 'ingredient' && (source.amount.kind === 'mass' || source.amount.kind === 'share'));
  return saysHowMuch && Math.abs(calledForGrams + keepGrams - grams) <= SAME_SIZE * grams;
}

// --- one line -----------------------------------------------------------------------------------------------------------

/** The line at the cursor, as a share or as a weight. Flours say what 100 % is, so they change only with their part. */
function lineAtCursor({ section, at }: Scene, part: ResolvedPart): readonly Refactoring[] {
  const one = writtenLines(part).find(({ node }) => at.start >= node.start && at.end <= node.end);
  if (one === undefined || isOwnFlour(one.line) || !one.line.inDough || !writtenLines(part).some(({ line }) => isOwnFlour(line))) return [];
  const { amount } = one.node;
  if (amount.kind === 'share' && amount.bracket === undefined && one.line.part === undefined) {
    const { written: text } = inGrams(one);
    return [{ id: 'line-in-grams', kind: 'rewrite', title: `Write ${text} ${one.line.name}`, edits: () => inColumns(section, [amountEdit(part, one, text)]) }];
  }
  if (amount.kind !== 'mass' || amount.quantity.high !== undefined || one.line.part !== undefined || !(part.baseGrams !== null && part.baseGrams > 0)) return [];
  const [text = ''] = shareTexts([{ pct: (100 * saidGrams(one.line)) / part.baseGrams, isFlour: false, ...roundedUp(one.line) }], false);
  return [{ id: 'line-in-shares', kind: 'rewrite', title: `Write ${text} ${one.line.name}`, edits: () => inColumns(section, [amountEdit(part, one, text)]) }];
}
