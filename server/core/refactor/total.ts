/** A dough with its preferments as one total list, and back. */
import type { Edit } from '../checks/edits';
import { lineBelow, withoutTail } from '../checks/edits';
import { writtenName } from '../checks/words';
import type { FlourShareLine } from '../../../grammar';
import { placeOf } from '../formula/gather';
import type { ResolvedFormula, ResolvedLine, ResolvedPart } from '../formula/model';
import { needsOf, type Listed } from '../formula/total-formula';
import { isOwnFlour, isSettled, saidGrams, writtenLines, type Refactoring, type Scene, type Written } from './refactoring';
import { amountEdit, inColumns, massText, newLine, shareTexts } from './writing';

/** Less is binary dust, g per g. */
const DUST = 1e-9;
/** Of a weighed part's flour beside flours in shares: what rounding of all the others may move it by. */
const LEEWAY = 3e-5;

export function totalOrDough(scene: Scene): readonly Refactoring[] {
  const { formula, at } = scene;
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  if (dough === undefined || dough.block !== at.block || !isSettled(scene)) return [];
  const found = dough.kind === 'dough' ? asTotal(scene, dough) : dough.kind === 'total formula' ? asDough(scene, dough) : undefined;
  return found === undefined ? [] : [found];
}

// --- dough to total -----------------------------------------------------------------------------------------------------

/** Grams that the parts bring of something that the dough lists too, or not. */
interface Extra extends Listed {
  grams: number;
  /** Only parts that say themselves how much they make bring it. */
  isWeighed: boolean;
}

/** The list of all that goes in: each line of the dough with what the parts bring of it, then what only they bring. */
function asTotal({ section, formula }: Scene, dough: ResolvedPart): Refactoring | undefined {
  const takings = writtenLines(dough).filter(({ line }) => line.part !== undefined);
  if (!takings.some(({ line }) => formula.parts[line.part ?? -1]?.isPreferment === true)) return undefined;
  const lines = writtenLines(dough).filter(({ line }) => line.part === undefined);
  const extras = broughtByParts(formula, dough, lines);
  const placed = lines.map((one) => ({ one, extra: takeExtra(one, extras) }));
  const rest = [...extras.values()].filter(({ grams }) => grams > 0);
  if (placed.some(({ one, extra }) => isRange(one) && (extra > 0 || one.node.amount.kind === 'share'))) return undefined;
  const base =
    placed.reduce((sum, { one, extra }) => sum + (isOwnFlour(one.line) ? saidGrams(one.line) + extra : 0), 0) +
    rest.reduce((sum, { role, grams }) => sum + (role === 'flour' ? grams : 0), 0);
  if (!(base > 0)) return undefined;
  return {
    id: 'as-total', kind: 'rewrite', title: 'Write the dough as a total formula, its preferments counted in',
    edits: () => {
      const shares = lines.every(({ line, node }) => !isOwnFlour(line) || node.amount.kind === 'share');
      const pctOf = (grams: number): number => (100 * grams) / base;
      const all = [
        ...placed.map(({ one, extra }) => ({ pct: pctOf(saidGrams(one.line) + extra), isFlour: isOwnFlour(one.line) })),
        // What only the parts use must be listed in full, so it is never rounded down, and what is called for never up.
        ...rest.map(({ grams, role, isWeighed }) => ({ pct: pctOf(grams) * (isWeighed ? 1 + LEEWAY : 1), isFlour: role === 'flour', way: 'up' as const })),
      ];
      const texts = shareTexts(all, shares);
      const edits = placed.flatMap(({ one, extra }, i) => amountAs(dough, one, saidGrams(one.line) + extra, texts[i] ?? '', extra === 0, false));
      const added = rest.map((extra, i) => ({ extra, text: newLine(dough, shares && !(extra.isWeighed && extra.role !== 'flour') ? (texts[lines.length + i] ?? '') : massText(extra.grams, 'g', 'up'), nameOf(extra, formula)) }));
      return inColumns(section, [
        { place: headKeyword({ section }, dough), newText: 'total formula' },
        ...edits,
        ...takings.flatMap((one) => takingInTotal(formula, dough, one, base)),
        ...below(section, dough, lines, added),
      ]);
    },
  };
}

/** By key: what the parts that the dough takes in hold, a starter as its flour and water unless the dough lists one. */
function broughtByParts(formula: ResolvedFormula, dough: ResolvedPart, lines: readonly Written[]): Map<string, Extra> {
  const inside = formula.parts.flatMap(({ lines: own }) => own).filter(({ part, starterHydrationPct, inDough }) => part === undefined && starterHydrationPct === undefined && inDough);
  const listed: readonly Listed[] = [...lines.map(({ line }) => line), ...inside];
  const extras = new Map<string, Extra>();
  for (const { part, grams, inDough } of dough.lines) {
    if (part === undefined || grams === null || !inDough) continue;
    for (const need of needsOf(formula.parts, part, grams, listed)) {
      const known = extras.get(need.key);
      const isWeighed = isWeighedPart(formula.parts[part]);
      const like = listed.find(({ key }) => key === need.key);
      if (known === undefined) extras.set(need.key, { key: need.key, name: need.name, grams: need.grams, role: like?.role ?? (need.isFlour ? 'flour' : 'other'), inDough: true, isWeighed });
      else extras.set(need.key, { ...known, grams: known.grams + need.grams, isWeighed: known.isWeighed && isWeighed });
    }
  }
  return extras;
}

/** What the first line of an ingredient takes up of what the parts bring of it. */
function takeExtra({ line }: Written, extras: Map<string, Extra>): number {
  const extra = line.inDough ? extras.get(line.key) : undefined;
  if (extra === undefined) return 0;
  const { grams } = extra;
  extra.grams = 0;
  return grams;
}

function nameOf(extra: Extra, formula: ResolvedFormula): string {
  const sources = formula.parts.flatMap(writtenLines);
  const role = sources.find(({ line }) => line.key === extra.key)?.node.role?.role;
  const hydration = extra.key === 'starter' ? sources.find(({ line }) => line.key === 'starter')?.node.hydrationPct : undefined;
  return `${writtenName(extra.name)}${hydration === undefined ? '' : ` at ${hydration.text} % hydration`}${role === undefined ? '' : ` as ${role}`}`;
}

/** New flours stand under the last flour, the rest under the last line that is no part. */
function below(section: Scene['section'], dough: ResolvedPart, lines: readonly Written[], added: readonly { readonly extra: Extra; readonly text: string }[]): readonly Edit[] {
  const flours = lines.filter(({ line }) => isOwnFlour(line));
  const lastOf = (some: readonly Written[]): Written | undefined => some.at(-1) ?? lines.at(-1);
  const grouped = new Map<Written, string[]>();
  for (const { extra, text } of added) {
    const after = lastOf(extra.role === 'flour' ? flours : lines.filter(({ line }) => line.inDough));
    if (after !== undefined) grouped.set(after, [...(grouped.get(after) ?? []), text]);
  }
  return [...grouped].flatMap(([{ node }, texts]) => {
    const line = section.blocks[dough.block]?.lines.find(({ start }) => start === node.start);
    if (line === undefined) return [];
    const edits = texts.map((text) => lineBelow(section, dough.block, line.start, line.end, text));
    return edits.slice(0, 1).map((edit) => ({ ...edit, newText: edits.map(({ newText }) => newText).join('') }));
  });
}

/** `all levain` and grams stay; a share of a preferment says how much of the flour is in it. */
function takingInTotal(formula: ResolvedFormula, dough: ResolvedPart, one: Written, base: number): readonly Edit[] {
  const { line, node } = one;
  if (node.amount.kind !== 'share' || node.amount.bracket !== undefined) return [];
  const isBare = node.temperature === undefined && node.hydrationPct === undefined && node.role === undefined && node.purpose === undefined && node.note === undefined;
  const isPreferment = formula.parts[line.part ?? -1]?.isPreferment === true && line.flourGrams > 0;
  const [text = ''] = shareTexts([{ pct: (100 * (isBare && isPreferment ? line.flourGrams : saidGrams(line))) / base, isFlour: false, way: 'down' }], false);
  const amount = amountEdit(dough, one, text);
  if (!isBare || !isPreferment) return [amount];
  return [amount, { place: { block: dough.block, start: node.name.start, end: node.name.start }, newText: 'of flour in ' }];
}

// --- total to dough -----------------------------------------------------------------------------------------------------

/** What is left to weigh of each line once the preferments are made; what they hold whole goes out of the list. */
function asDough({ section, formula }: Scene, dough: ResolvedPart): Refactoring | undefined {
  const lines = writtenLines(dough).filter(({ line }) => line.part === undefined);
  const takings = dough.lines.filter((line) => line.part !== undefined);
  const base = lines.reduce((sum, { line }) => sum + (isOwnFlour(line) ? (line.grams ?? 0) : 0), 0);
  const isChanged = (one: Written): boolean => Math.abs((one.line.grams ?? 0) - saidGrams(one.line)) > DUST * saidGrams(one.line);
  if (!(base > 0) || lines.some((one) => isRange(one) && (isChanged(one) || one.node.amount.kind === 'share'))) return undefined;
  const gone = lines.filter((one) => isChanged(one) && one.line.grams === 0);
  const left = lines.filter((one) => !gone.includes(one));
  const flours = left.filter(({ line }) => isOwnFlour(line));
  const isWeighed = flours.some(({ node }) => node.amount.kind !== 'share');
  // Without a weight of flour, `makes` must say how much there is; a preferment in grams says it of a total formula only.
  const inGrams = !isWeighed && formula.makes?.node.each?.kind !== 'mass' && !formula.yield.tinFactorAssumed;
  return {
    id: 'as-dough', kind: 'rewrite', title: 'Write the total formula as a dough, its preferments taken out',
    edits: () => {
      const texts = shareTexts(left.map(({ line }) => ({ pct: (100 * (line.grams ?? 0)) / base, isFlour: isOwnFlour(line) })), !isWeighed);
      return inColumns(section, [
        { place: headKeyword({ section }, dough), newText: 'dough' },
        ...left.flatMap((one, i) => amountAs(dough, one, one.line.grams ?? 0, texts[i] ?? '', !isChanged(one), inGrams)),
        ...gone.map(({ node }) => lineOut(section, dough.block, node.start)),
        ...takings.flatMap((line) => takingInDough(formula, dough, line, base, inGrams)),
      ]);
    },
  };
}

/** Out with a line; a comment on it stays, on a line of its own. */
function lineOut(section: Scene['section'], block: number, start: number): Edit {
  const line = section.blocks[block]?.lines.find((one) => one.start === start);
  if (line?.comment === undefined) return withoutTail(section, { block, start, end: line?.end ?? start });
  return { place: { block, start, end: line.comment.start }, newText: '' };
}

function takingInDough(formula: ResolvedFormula, dough: ResolvedPart, line: ResolvedLine, base: number, inGrams: boolean): readonly Edit[] {
  const { source, grams } = line;
  if (source === undefined || source.kind === 'uses' || grams === null || source.amount.kind !== 'share') return [];
  const [share = ''] = shareTexts([{ pct: (100 * grams) / base, isFlour: false }], false);
  const part = formula.parts[line.part ?? -1];
  const isWhole = part?.leftOverGrams === 0 && isWeighedPart(part);
  const text = isWhole ? 'all' : inGrams ? massText(grams) : share;
  if (source.kind === 'ingredient') return [{ place: placeOf(dough.block, source.amount), newText: text }];
  return [flourShareOut(dough, source, text)];
}

/** `12 % of flour in levain` becomes `18 % levain`. */
function flourShareOut(dough: ResolvedPart, { amount, part }: FlourShareLine, text: string): Edit {
  return { place: { block: dough.block, start: amount.start, end: part.start }, newText: newLine(dough, text, '') };
}

/** A part that says itself how much it makes. */
function isWeighedPart(part: ResolvedPart | undefined): boolean {
  return part !== undefined && part.lines.every(({ source }) => source?.kind === 'ingredient' && !(source.amount.kind === 'share' && source.amount.bracket === undefined));
}

// --- both -----------------------------------------------------------------------------------------------------------------

/** A range would have to be a range of other numbers, and those are the baker's to say. */
function isRange({ node: { amount } }: Written): boolean {
  return amount.kind !== 'all' && amount.quantity?.high !== undefined;
}

/** A line of a list for other grams: a share as a share, a weight in its own unit, a measure or a count by weight if it changes at all. */
function amountAs(part: ResolvedPart, one: Written, grams: number, shareText: string, isSame: boolean, inGrams: boolean): readonly Edit[] {
  const { amount } = one.node;
  if (amount.kind === 'share' && amount.bracket === undefined) {
    return [amountEdit(part, one, inGrams ? massText(grams) : shareText)];
  }
  if (isSame) return [];
  return [amountEdit(part, one, amount.kind === 'mass' ? massText(grams, amount.unit) : massText(grams))];
}

function headKeyword({ section }: Pick<Scene, 'section'>, dough: ResolvedPart) {
  const node = section.blocks[dough.block]?.head.node;
  return placeOf(dough.block, node?.kind === 'part' ? node.keyword : dough.place);
}
