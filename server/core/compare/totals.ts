/** Allergens, which come first of all, and the totals: hydration, salt, weights, cost, the temperature of the dough. */
import { allergensOf, costReport } from '../facts';
import { weighedOf } from '../facts/allergens';
import type { ResolvedFormula, Totals } from '../formula/model';
import type { Change, ComparedSection, Fact, Unit } from './model';
import { LEAST_CELSIUS, LEAST_MONEY, worthTellingGrams, worthTellingPct } from './thresholds';

/** Allergens that came or went, each with what brings it. */
export function compareAllergens(before: ComparedSection, after: ComparedSection): readonly Change[] {
  const [was, is] = [listed(before), listed(after)];
  return [
    ...[...is].filter(([id]) => !was.has(id)).map(([, fact]): Change => ({ what: 'allergen', before: undefined, after: fact })),
    ...[...was].filter(([id]) => !is.has(id)).map(([, fact]): Change => ({ what: 'allergen', before: fact, after: undefined })),
  ];
}

function listed({ analysis: { formula } }: ComparedSection): ReadonlyMap<string, Fact> {
  const found = new Map<string, Fact>();
  if (formula === undefined) return found;
  const { eu, us, checkLabel } = allergensOf(formula);
  const lines = weighedOf(formula);
  const add = (list: 'eu' | 'us' | 'check', ids: readonly string[]): void => {
    for (const id of ids) {
      const bringing = lines.filter(({ ingredient }) => (list === 'check' ? ingredient?.allergens.checkLabel : ingredient?.allergens[list])?.includes(id));
      const text = [...new Set(bringing.map(({ name }) => name))].join(', ');
      found.set(`${list} ${id}`, { name: id, list, ...(text !== '' && { text }) });
    }
  };
  add('eu', eu);
  add('us', us);
  add('check', checkLabel);
  return found;
}

interface Total {
  readonly name: string;
  readonly unit: Unit;
  readonly value: number | null;
  readonly currency?: string;
}

/** Totals that differ by as much as is worth telling, in the order of a sheet. */
export function compareTotals(before: ComparedSection, after: ComparedSection): readonly Change[] {
  const [was, is] = [totalsOf(before), totalsOf(after)];
  return was.flatMap((total, index): readonly Change[] => {
    const now = is[index];
    return now === undefined || !isWorthTelling(total, now) ? [] : [{ what: 'total', before: total, after: now }];
  });
}

function isWorthTelling(before: Total, after: Total): boolean {
  if (before.value === null || after.value === null) return before.value !== after.value;
  if (before.currency !== after.currency) return true;
  switch (before.unit) {
    case '%':
      return worthTellingPct(before.value, after.value);
    case 'g':
      return worthTellingGrams(before.value, after.value);
    case 'C':
      return Math.abs(after.value - before.value) >= LEAST_CELSIUS;
    case 'money':
      return Math.abs(after.value - before.value) >= LEAST_MONEY;
    case 'pieces':
      return Math.abs(after.value - before.value) > 1e-6;
  }
}

/** What the totals table of a change has, in its order. */
const PER_CENT = [
  'hydration_pct', 'salt_pct', 'sugar_pct', 'fat_pct', 'prefermented_flour_pct', 'inoculation_pct', 'inclusions_pct',
] as const satisfies readonly (keyof Totals)[];
const GRAMS = ['flour_g', 'dough_g', 'piece_g'] as const satisfies readonly (keyof Totals)[];

/** Always the same totals in the same order. */
function totalsOf({ analysis: { formula, totals } }: ComparedSection): readonly Total[] {
  const cost = formula === undefined ? undefined : costReport(formula);
  const money = (name: string, value: number | null | undefined): Total => ({ name, unit: 'money', value: value ?? null, ...(cost?.currency && { currency: cost.currency }) });
  return [
    ...PER_CENT.map((name): Total => ({ name, unit: '%', value: totals?.[name] ?? null })),
    ...GRAMS.map((name): Total => ({ name, unit: 'g', value: totals?.[name] ?? null })),
    { name: 'pieces', unit: 'pieces', value: formula?.yield.pieces ?? null },
    { name: 'dough_c', unit: 'C', value: desiredCelsius(formula) },
    money('cost', cost?.amount),
    money('cost_per_piece', cost?.perPiece),
  ];
}

function desiredCelsius(formula: ResolvedFormula | undefined): number | null {
  return formula?.dough === undefined ? null : (formula.parts[formula.dough]?.desiredCelsius ?? null);
}
