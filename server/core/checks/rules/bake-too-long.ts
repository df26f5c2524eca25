import { defineCheck } from '../define';
import { usualBakeMinutes } from '../dough';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { durationPlace, isKind, methodOf, minutesOf } from '../method';
import { grams, minutes } from '../words';

export const bakeTooLong = defineCheck({
  code: 'bake-too-long',
  severity: 'warning',
  title: 'A bake too long for a piece of this weight',
  why:
    'Once the core is done, more time only dries the bread. Twice the usual time and more is mostly a piece weight or ' +
    'a time mistyped.',
  source: sourcesOf('bake-too-long'),
  limits: THRESHOLDS['bake-too-long'],
  trips: loaf({
    head: ['makes     20 rolls of 86 g'],
    steps: ['preheat     45 min at 240 C', 'bake        «45 min» at 230 C'],
  }),
  passes: loaf({
    head: ['makes     20 rolls of 86 g'],
    steps: ['preheat     45 min at 240 C', 'bake        16 min at 230 C'],
  }),
  find: ({ formula, limits }) => {
    const bakes = formula?.kind === 'formula' ? methodOf(formula).filter(isKind('bake')) : [];
    const usual = usualBakeMinutes(formula);
    const time = minutesOf(bakes);
    const share = limits.get('bake-too-long', 'mostShare');
    const [first] = bakes;
    if (
      usual === undefined ||
      time === undefined ||
      first === undefined ||
      time.low <= usual.minutes * share ||
      time.low > limits.get('duration-odd', 'mostDays') * 1440
    ) {
      return [];
    }
    return [
      {
        place: durationPlace(first),
        message:
          `${minutes(time.low)} in the oven is long for ${grams(usual.pieceGrams)} of dough, where about ` +
          `${minutes(usual.minutes)} is usual: it will be dry. ` +
          'Bake it shorter, or check the piece weight in `makes`.',
      },
    ];
  },
});
