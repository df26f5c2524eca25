/** What a variant changes, and what that does to the totals. */
import { resolve } from '../../core/formula/resolve';
import type { Place, ResolvedFormula, ResolvedLine, ResolvedPart, Totals } from '../../core/formula/model';
import { totalsOf } from '../../core/formula/totals';
import type { Change, Variant } from '../../core/variant/model';
import { changeAt } from '../../core/variant/places';
import { writtenOut } from '../../core/variant/write-out';
import type { PlacedSection } from '../../project/file';
import { changedTotals, type ChangedTotal } from '../../output/variant-totals';
import { escaped, gramsOrNothing, paragraphs, percentOrNothing } from './markdown';

/** The change whose line holds a place of the section's own text; undefined where there is none. */
export function changeHolding({ analysis: { section: { variant } } }: PlacedSection, block: number, at: number): { readonly change: Change; readonly index: number; readonly variant: Variant } | undefined {
  const index = variant?.changes.findIndex(({ place }) => place.block === block && place.start <= at && at <= place.end) ?? -1;
  const change = variant?.changes[index];
  return variant === undefined || change === undefined ? undefined : { change, index, variant };
}

/** What the base had, what it becomes, and the totals that are others by it. */
export function changeWords(placed: PlacedSection, { change, index, variant }: NonNullable<ReturnType<typeof changeHolding>>): string {
  const { section, formula, totals } = placed.analysis;
  if (formula === undefined || totals === undefined) return '';
  const base = baseFormula(placed, variant);
  const had = change.lines.flatMap(place => lineAt(base, place) ?? []);
  const has = formula.parts.flatMap(part => part.lines.filter(line => changeAt(section, line.place) === change).map(line => ({ part, line })));
  const name = escaped(variant.base.name);
  const before = had.length === 0 ? undefined : `**${name}** has ${had.map(lineWords).join(' and ')}.`;
  const after = has.length === 0 ? (change.node.kind === 'drop' && had.length > 0 ? 'Here there is none.' : undefined) : `Here: ${has.map(lineWords).join(' and ')}.`;
  if (before === undefined && after === undefined) return 'It changes nothing.';
  const others = changedTotals(totalsWithout(placed, index), totals);
  return paragraphs(before, after, others.length === 0 ? 'The totals stay as they are without this line.' : changesTable(others, 'without this line', 'with it'));
}

/** How a variant's totals differ from those of its base, as a table; a sentence where they do not. Empty for what is no variant. */
export function variantWords(placed: PlacedSection): string {
  const differing = fromBase(placed);
  if (differing === undefined) return '';
  const { base, totals } = differing;
  return totals.length === 0 ? `A variant of **${escaped(base)}**, with the same totals.` : paragraphs(`A variant of **${escaped(base)}**:`, changesTable(totals, escaped(base), 'here'));
}

/** `Rye and: hydration 70.4 → 72.5 %`, for one line. Undefined for what is no variant. */
export function variantLine(placed: PlacedSection): string | undefined {
  const differing = fromBase(placed);
  if (differing === undefined) return undefined;
  const { base, totals } = differing;
  const shown = totals.slice(0, MOST_IN_A_LINE).map(({ label, before, after }) => `${label} ${before} → ${after}`);
  return `from “${base}”: ${totals.length === 0 ? 'the same totals' : shown.join(', ')}`;
}

/** A line above a formula has room for no more. */
const MOST_IN_A_LINE = 4;

function fromBase(placed: PlacedSection): { readonly base: string; readonly totals: readonly ChangedTotal[] } | undefined {
  const { section: { variant }, totals } = placed.analysis;
  if (variant === undefined || totals === undefined) return undefined;
  return { base: variant.base.name, totals: changedTotals(totalsOf(baseFormula(placed, variant)), totals) };
}

function baseFormula({ environment }: PlacedSection, { base }: Variant): ResolvedFormula {
  return resolve(base, environment);
}

function totalsWithout({ section, environment }: PlacedSection, change: number): Totals {
  const without = writtenOut(section, { catalogue: environment.catalogue, formulaNamed: name => environment.formulas.get(name) }, change);
  return totalsOf(resolve(without, environment));
}

interface InPart {
  readonly part: ResolvedPart;
  readonly line: ResolvedLine;
}

function lineAt({ parts }: ResolvedFormula, { block, start }: Place): InPart | undefined {
  for (const part of parts) {
    const line = part.lines.find(({ source, place }) => source !== undefined && place.block === block && place.start === start);
    if (line !== undefined) return { part, line };
  }
  return undefined;
}

/** `600 g of water in dough, 68.2 %`. */
function lineWords({ part, line }: InPart): string {
  const { grams, pct } = line.listed ?? line;
  const share = line.inDough && part.flourGrams !== null && part.flourGrams > 0 ? percentOrNothing(pct) : undefined;
  return `${gramsOrNothing(grams) ?? 'an unknown weight'} of ${escaped(line.name)} in ${escaped(part.name)}${share === undefined ? '' : `, ${share}`}`;
}

function changesTable(totals: readonly ChangedTotal[], before: string, after: string): string {
  return [`| | ${before} | ${after} |`, '|:---|---:|---:|', ...totals.map(one => `| ${one.label} | ${one.before} | ${one.after} |`)].join('\n');
}
