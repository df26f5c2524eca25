import { defineCheck } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { HEATS, isKind, keywordPlace, minutesOf } from '../method';
import { minutes } from '../words';

/** Smaller pieces cool faster, by their mass to the power 2/3. */
const LOAF_GRAMS = 700;

export const coolTooShort = defineCheck({
  code: 'cool-too-short',
  severity: 'info',
  title: 'Bread that is sliced warm',
  why:
    'Warm crumb smears under the knife and dries out cut. A loaf is sliced when its core is down to about 35 C, which ' +
    'takes ' +
    'one or two hours; rye sets overnight.',
  source: sourcesOf('cool-too-short'),
  limits: THRESHOLDS['cool-too-short'],
  trips: loaf({
    head: ['style     hearth'],
    steps: ['preheat     45 min at 240 C', 'bake        40 min at 235 C', 'cool        20 min', '«slice»       5 min'],
  }),
  passes: loaf({
    head: ['style     hearth'],
    steps: ['preheat     45 min at 240 C', 'bake        40 min at 235 C', 'cool        2 h', 'slice       5 min'],
  }),
  find: ({ formula, limits }) => {
    const steps = formula?.kind === 'formula' ? formula.method : [];
    const lastHeat = steps.reduce((last, { node }, index) => (HEATS.has(node.step) ? index : last), -1);
    const at = steps.findIndex((step, index) => index > lastHeat && step.node.step === 'slice');
    const slice = steps[at];
    if (lastHeat < 0 || slice === undefined) {
      return [];
    }
    const waits = steps.slice(lastHeat + 1, at).filter(isKind('cool', 'rest', 'chill', 'do', 'freeze'));
    const time = minutesOf(waits);
    const scale = Math.min(1, ((formula?.yield.pieceGrams ?? LOAF_GRAMS) / LOAF_GRAMS) ** (2 / 3));
    const least = limits.get('cool-too-short', 'leastHours') * 60 * scale;
    return time === undefined || time.high >= least
      ? []
      : [
          {
            place: keywordPlace(slice),
            message:
              `The bread is sliced ${time.high > 0 ? `${minutes(time.high)} after` : 'straight from'} the oven; a ` +
              `piece like this takes ${minutes(least)} at least to cool and set. ` +
              'The crumb will smear and dry: let it cool longer.',
          },
        ];
  },
});
