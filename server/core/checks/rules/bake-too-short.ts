import { defineCheck } from '../define';
import { usualBakeMinutes } from '../dough';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { durationPlace, isKind, methodOf, minutesOf } from '../method';
import { grams, minutes } from '../words';

export const bakeTooShort = defineCheck({
  code: 'bake-too-short',
  severity: 'warning',
  title: 'A bake too short for a piece of this weight',
  why:
    'Heat takes its time to the middle: a roll is done in a quarter of an hour, a loaf of two pounds in three ' +
    'quarters. Taken out in half that, it is raw inside.',
  source: sourcesOf('bake-too-short'),
  limits: THRESHOLDS['bake-too-short'],
  trips: loaf({
    head: ['makes     1 loaf of 1720 g'],
    steps: ['preheat     45 min at 240 C', 'bake        «20 min» at 235 C'],
  }),
  passes: loaf({
    head: ['makes     1 loaf of 1720 g'],
    steps: ['preheat     45 min at 240 C', 'bake        55 min at 235 C'],
  }),
  find: ({ formula, limits }) => {
    const steps = formula?.kind === 'formula' ? methodOf(formula) : [];
    const bakes = steps.filter(isKind('bake'));
    const usual = usualBakeMinutes(formula);
    const time = minutesOf(bakes);
    const share = limits.get('bake-too-short', 'leastShare');
    const [first] = bakes;
    const otherHeat = steps.some(isKind('boil', 'steam', 'fry'));
    if (
      usual === undefined ||
      time === undefined ||
      first === undefined ||
      otherHeat ||
      time.high <= 0 ||
      time.high >= usual.minutes * share
    ) {
      return [];
    }
    return [
      {
        place: durationPlace(first),
        message:
          `${minutes(time.high)} in the oven is short for ${grams(usual.pieceGrams)} of dough, where about ` +
          `${minutes(usual.minutes)} is usual: it will be raw inside. ` +
          'Bake it longer, or check the piece weight in `makes`.',
      },
    ];
  },
});
