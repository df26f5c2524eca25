/** Too much salt, too little, none at all. */
import type { Place } from '../../formula/model';
import type { CheckContext } from '../check';
import { defineCheck, soundTotals } from '../define';
import { THRESHOLDS } from '../limits';
import { against, percent, plain } from '../words';

/** Above this a dough hardly rises; a decimal point is more likely than a taste. */
const SLIP_PCT = 3.5;

export const saltHigh = defineCheck({
  code: 'salt-high',
  severity: 'warning',
  title: 'Much salt',
  why:
    'Salt tightens gluten and slows yeast and bacteria. Much above the usual 2 % of the flour the bread tastes of salt first, and rises late. ' +
    'A value several times the usual one is mostly a slipped decimal point or a spoon taken for grams.',
  source: THRESHOLDS['salt-high'].mostPct.source,
  limits: THRESHOLDS['salt-high'],
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  «32 g»      salt
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  find: (context) => {
    const salt = soundTotals(context)?.salt_pct ?? null;
    const limit = context.limits.get('salt-high', 'mostPct');
    const place = saltPlace(context);
    if (salt === null || salt <= limit || place === undefined) {
      return [];
    }
    return [
      {
        place,
        message:
          `Salt is ${against(salt, limit)} % of the flour, over ${percent(limit)}. ` +
          (salt > SLIP_PCT
            ? 'The dough will hardly rise and the bread will be too salty to eat: is a decimal point in the wrong place?'
            : 'The bread will taste salty and rise slowly: take less.'),
      },
    ];
  },
});

export const saltLow = defineCheck({
  code: 'salt-low',
  severity: 'warning',
  title: 'Little salt, or none',
  why:
    'Without enough salt the bread tastes flat, the dough is slack and sticky, and it ferments faster than planned. Sweet doughs take less. ' +
    'No salt at all is mostly a forgotten line, unless the bread is one that is made without.',
  source: THRESHOLDS['salt-low'].leastPct.source,
  limits: THRESHOLDS['salt-low'],
  trips: `formula "Country loaf"

«dough»
  1000 g    bread flour
  700 g     water
  5 g       instant yeast
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  5 g       instant yeast
`,
  find: (context) => {
    const { formula } = context;
    const totals = soundTotals(context);
    const place = saltPlace(context);
    if (formula?.kind !== 'formula' || totals === undefined || totals.salt_pct === null || place === undefined) {
      return [];
    }
    // Salted butter and cheese salt the dough as well; where their salt is not known, nobody can say that there is too little.
    if (totals.hidden_salt_pct === null) {
      return [];
    }
    const salt = totals.salt_pct + totals.hidden_salt_pct;
    const limit = context.limits.get('salt-low', 'leastPct');
    if (salt >= limit) {
      return [];
    }
    return [
      {
        place,
        message:
          salt < 0.05
            ? `There is no salt in this dough. The bread will taste flat and the dough will be slack: about 2 % of the flour is usual.`
            : `Salt is ${against(salt, limit)} % of the flour, under ${percent(limit)}. The bread will taste flat and ferment fast: ${plain(limit)} to 2 % is usual.`,
      },
    ];
  },
});

/** The amount of the dough's largest salt line; the head of the dough where it has none. */
function saltPlace({ formula }: CheckContext): Place | undefined {
  const dough = formula?.dough === undefined ? undefined : formula.parts[formula.dough];
  if (formula === undefined || dough === undefined) {
    return undefined;
  }
  const lines = formula.parts.flatMap((part) => part.lines).filter((line) => line.role === 'salt' && line.inDough && line.grams !== null);
  const largest = lines.reduce<(typeof lines)[number] | undefined>((most, line) => (most === undefined || (line.grams ?? 0) > (most.grams ?? 0) ? line : most), undefined);
  return largest?.amountPlace ?? dough.place;
}
