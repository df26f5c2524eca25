import { defineCheck, soundTotals } from '../define';
import { loaf } from '../examples';
import { durationPlace, isKind, keywordPlace, methodOf, minutesOf } from '../method';
import { minutes } from '../words';

const steps = [
  'mix         8 min', 'bulk        «3 h» at 24 C', 'preheat     45 min at 230 C', 'bake        40 min at 230 C',
];

/** Below this a rest is to relax a dough, not to raise it. */
const LEAST_MINUTES = 60;

export const noLeaven = defineCheck({
  code: 'no-leaven',
  severity: 'warning',
  title: 'A dough that rises with nothing to raise it',
  why: 'A bulk or a proof waits for yeast or sourdough to work. Where the dough has neither, a line was mostly forgotten.',
  source: 'common practice, no source',
  trips: loaf({ steps }),
  passes: loaf({ more: ['5 g       instant yeast'], steps: steps.map((step) => step.replace(/[«»]/g, '')) }),
  find: (context) => {
    const { formula, reports } = context;
    const [rise] = formula?.kind === 'formula' ? methodOf(formula).filter(isKind('bulk', 'proof')) : [];
    if (formula === undefined || rise === undefined || soundTotals(context)?.flour_g === undefined) {
      return [];
    }
    const time = minutesOf([rise]);
    // An ingredient that nobody knows may be the leaven, under a name of its own.
    const raised = reports.leaves().some(({ line }) => line.role === 'leaven' || line.starterHydrationPct !== undefined || line.ingredient === undefined);
    return raised ||
      formula.parts.some(({ isPreferment }) => isPreferment) ||
      time === undefined ||
      time.high < LEAST_MINUTES
      ? []
      : [
          {
            place: rise.node.duration === undefined ? keywordPlace(rise) : durationPlace(rise),
            message:
              `The dough is given ${minutes(time.high)} to rise, and has neither yeast nor sourdough in it: nothing ` +
              `will happen. Add the leaven, ` +
              'or call the time a rest.',
          },
        ];
  },
});
