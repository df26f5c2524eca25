import { defineCheck, soundTotals } from '../define';
import { isPastry, saltPlace } from '../dough';
import { THRESHOLDS } from '../limits';
import { against, percent, plain } from '../words';

export const saltLow = defineCheck({
  code: 'salt-low',
  severity: 'warning',
  title: 'Little salt, or none',
  why:
    'Without enough salt the bread tastes flat, the dough is slack and sticky, and it ferments faster than planned. ' +
    'Sweet doughs take less. No salt at all is mostly a forgotten line, unless the bread is one that is made ' +
    'without.',
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
    if (formula?.kind !== 'formula' || totals === undefined || totals.salt_pct === null || place === undefined || isPastry(context)) {
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
            ? 'There is no salt in this dough. The bread will taste flat and the dough will be slack: about 2 % of ' +
              'the flour is usual.'
            : `Salt is ${against(salt, limit)} % of the flour, under ${percent(limit)}. The bread will taste flat and ` +
              `ferment fast: ${plain(limit)} to 2 % is usual.`,
      },
    ];
  },
});
