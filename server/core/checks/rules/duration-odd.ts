import type { StepKind } from '../../../../grammar';
import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { allSteps, durationPlace } from '../method';
import { trimmed } from '../words';

const BY_HAND: ReadonlySet<StepKind> = new Set<StepKind>([
  'mix', 'knead', 'divide', 'preshape', 'shape', 'score', 'slice', 'glaze', 'fill', 'whisk',
]);
const RISING: ReadonlySet<StepKind> = new Set<StepKind>(['bulk', 'proof', 'rest', 'autolyse']);

export const durationOdd = defineCheck({
  code: 'duration-odd',
  severity: 'warning',
  title: 'A step of days, or of years',
  why: 'A bulk of 90 days is one of 90 minutes with the wrong unit. The whole schedule hangs on it.',
  source: sourcesOf('duration-odd'),
  limits: THRESHOLDS['duration-odd'],
  trips: loaf({ more: ['5 g       instant yeast'], steps: ['mix         8 min', 'bulk        «90 d» at 24 C'] }),
  passes: loaf({ more: ['5 g       instant yeast'], steps: ['mix         8 min', 'bulk        90 min at 24 C'] }),
  find: ({ formula, limits }) => {
    const get = (name: string) => limits.get('duration-odd', name);
    return allSteps(formula).flatMap(({ step }): readonly Found[] => {
      const kind = step.node.step;
      const time = step.node.duration?.highMinutes ?? 0;
      const most = BY_HAND.has(kind) ? get('mostHandMinutes') : (RISING.has(kind) ? get('mostRisingDays') : get('mostDays')) * 1440;
      return time <= most
        ? []
        : [
            {
              place: durationPlace(step),
              message: `${inWords(time)} is too long for this ${kind} (${inWords(most)} at most). Is another unit meant?`,
            },
          ];
    });
  },
});

function inWords(time: number): string {
  return time < 60 * 48 ? `${trimmed(time / 60, 1)} h` : time < 1440 * 366 ? `${trimmed(time / 1440, 0)} days` : `${trimmed(Math.min(time / 525_960, 1e6), 0)} years`;
}
