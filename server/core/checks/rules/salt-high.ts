import { defineCheck, soundTotals } from '../define';
import { saltPlace } from '../dough';
import { spoonMeant } from '../spoons';
import { THRESHOLDS } from '../limits';
import { against, percent } from '../words';

/** Above this a dough hardly rises; a decimal point is more likely than a taste. */
const SLIP_PCT = 3.5;

export const saltHigh = defineCheck({
  code: 'salt-high',
  severity: 'warning',
  title: 'Much salt',
  why:
    'Salt tightens gluten and slows yeast and bacteria. Much above the usual 2 % of the flour the bread tastes of ' +
    'salt first, and rises late. A value several times the usual one is mostly a slipped decimal point or a spoon ' +
    'taken for grams.',
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
    const totals = soundTotals(context);
    const salt = totals?.salt_pct ?? null;
    const most = context.limits.get('salt-high', 'mostPct');
    // Seeds and fruit want their salt too.
    const limit = most * (1 + (totals?.inclusions_pct ?? 0) / 100);
    const place = saltPlace(context);
    if (salt === null || salt <= limit || place === undefined) {
      return [];
    }
    return [
      {
        place,
        message:
          `Salt is ${against(salt, limit)} % of the flour, over ${percent(limit)}${limit > most * 1.02 ? `, which allows ${percent(most)} for the pieces in it as well` : ''}. ` +
          (salt > SLIP_PCT
            ? `The dough will hardly rise and the bread will be too salty to eat: ${spoonMeant(context, limit / salt) ?? 'is a decimal point in the wrong place?'}`
            : 'The bread will taste salty and rise slowly: take less.'),
      },
    ];
  },
});
