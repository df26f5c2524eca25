import type { StepKind } from '../../../../grammar';
import { defineCheck } from '../define';
import { loaf } from '../examples';
import { allSteps, HEATS, keywordPlace, methodOf } from '../method';

/** Steps that only make sense beside an oven. */
const AROUND: ReadonlySet<StepKind> = new Set<StepKind>(['preheat', 'score', 'cool', 'slice']);

export const neverBaked = defineCheck({
  code: 'never-baked',
  severity: 'info',
  title: 'A method that leaves out the oven',
  why: 'A method with a preheat or a cooling and no bake in between has lost its most important line.',
  source: 'definition of the language',
  trips: loaf({ steps: ['mix         8 min', 'preheat     45 min at 235 C', '«cool»        2 h'] }),
  passes: loaf({
    steps: ['mix         8 min', 'preheat     45 min at 235 C', 'bake        40 min at 235 C', 'cool        2 h'],
  }),
  find: ({ formula }) => {
    const steps = formula?.kind === 'formula' ? methodOf(formula) : [];
    const last = steps[steps.length - 1];
    const heated = allSteps(formula).some(({ step }) => HEATS.has(step.node.step) || step.node.step === 'do');
    // While a method is being written, its last step is not yet the bake: only what comes after one is told.
    return last === undefined ||
      heated ||
      !AROUND.has(last.node.step) ||
      last.node.step === 'preheat' ||
      last.node.step === 'score'
      ? []
      : [
          {
            place: keywordPlace(last),
            message: `The method ends with ${last.node.step} and never bakes the dough. Add a \`bake\` step with its time and temperature.`,
          },
        ];
  },
});
