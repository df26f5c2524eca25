import { defineCheck, isMisread, type Found } from '../define';
import { loaf } from '../examples';
import { allSteps, durationPlace } from '../method';

export const durationZero = defineCheck({
  code: 'duration-zero',
  severity: 'warning',
  title: 'A step that takes no time',
  why:
    'A step of no length does nothing and pulls everything after it forward. It is a number to be filled in, or a step ' +
    'to be taken out.',
  source: 'definition of the language',
  trips: loaf({ steps: ['mix         «0 min»'] }),
  passes: loaf({ steps: ['mix         8 min'] }),
  find: ({ section, formula }) =>
    allSteps(formula).flatMap(({ step }): readonly Found[] =>
      step.node.duration === undefined || step.node.duration.highMinutes > 0 || isMisread(section, durationPlace(step))
        ? []
        : [
            {
              place: durationPlace(step),
              message: `This ${step.node.step} takes no time at all. Write how long it takes, or leave the time out.`,
            },
          ],
    ),
});
