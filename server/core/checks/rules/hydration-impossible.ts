import type { CheckContext } from '../check';
import { defineCheck, readTotals } from '../define';
import { doughPlace, isImpossible } from '../dough';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { grams, named, plain } from '../words';

export const hydrationImpossible = defineCheck({
  code: 'hydration-impossible',
  severity: 'error',
  title: 'A hydration that no dough has',
  why:
    'Under a fifth of its weight in water, flour stays powder; over twice its weight, it is soup. A digit too many or too ' +
    'few, or grams for kilograms.',
  source: sourcesOf('hydration-impossible'),
  limits: THRESHOLDS['hydration-impossible'],
  trips: loaf({ doughHead: '«dough»', dough: ['1000 g    bread flour', '7000 g    water', '20 g      salt'] }),
  passes: loaf(),
  find: (context) => {
    const totals = readTotals(context);
    const place = doughPlace(context);
    const moisture = totals?.effective_hydration_pct ?? totals?.hydration_pct ?? null;
    const flourGrams = totals?.flour_g ?? 0;
    if (place === undefined || moisture === null || flourGrams <= 0 || !isImpossible(context, moisture)) {
      return [];
    }
    const most = context.limits.get('hydration-impossible', 'mostPct');
    const least = context.limits.get('hydration-impossible', 'leastPct');
    const weights = `${grams((flourGrams * moisture) / 100)} of moisture to ${grams(flourGrams)} of flour`;
    const slip = likelySlip(context, moisture, totals?.salt_pct ?? null);
    return [
      {
        place,
        message:
          `The dough has ${weights}, ${plain(moisture)} %: that ` +
          (moisture > most
            ? `is soup (${plain(most)} % at most). ${slip ?? 'Is there a digit too many, or is it a `batter`?'}`
            : `stays powder (${plain(least)} % at least). ${slip ?? 'Is a digit too many in the flour, or is water missing?'}`),
      },
    ];
  },
});

/** What most doughs hold of water and of salt, for a guess at which number is wrong. */
const USUAL_WATER = { least: 45, most: 110 };
const USUAL_SALT = { least: 1, most: 3.5 };

/** The one number that a digit more or less, or a share written as a fraction, would put right; undefined where none does. */
function likelySlip({ formula }: CheckContext, moisturePct: number, saltPct: number | null): string | undefined {
  const dough = formula?.dough === undefined ? undefined : formula.parts[formula.dough];
  const lines = dough?.lines.filter((line) => line.inDough) ?? [];
  const [flour, ...moreFlour] = lines.filter((line) => line.role === 'flour');
  const [water, ...moreWater] = lines.filter((line) => line.ingredient?.isWater === true);
  if (flour === undefined || water === undefined || moreFlour.length > 0 || moreWater.length > 0) {
    return undefined;
  }
  const isUsual = (value: number, { least, most }: typeof USUAL_WATER) => value >= least && value <= most;
  const amount = water.source?.kind === 'ingredient' ? water.source.amount : undefined;
  if (amount?.kind === 'share' && isUsual(moisturePct * 100, USUAL_WATER)) {
    return `Is ${plain((water.pct ?? 0) * 100)} % of ${named(water.name)} meant, written as a fraction?`;
  }
  const factor = [10, 100, 0.1, 0.01].find((each) => isUsual(moisturePct * each, USUAL_WATER));
  if (factor === undefined || flour.grams === null || water.grams === null) {
    return undefined;
  }
  // The salt goes with the one of the two that is right.
  const wrong = saltPct === null || saltPct === 0 || isUsual(saltPct, USUAL_SALT) ? water : isUsual(saltPct * factor, USUAL_SALT) ? flour : undefined;
  if (wrong === undefined) {
    return undefined;
  }
  const meant = wrong === flour ? flour.grams / factor : water.grams * factor;
  return `Is it ${grams(meant)} of ${named(wrong.name)}, not ${grams(wrong.grams ?? 0)}?`;
}
