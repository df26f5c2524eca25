import type { StepKind } from '../../../../grammar';
import { defineCheck } from '../define';
import { loaf } from '../examples';
import { HEATS, keywordPlace, methodOf } from '../method';

/** What is done to a raw dough. */
const RAW: ReadonlySet<StepKind> = new Set<StepKind>([
  'bulk', 'proof', 'retard', 'autolyse', 'preshape', 'shape', 'score', 'preheat',
]);

export const stepsOutOfOrder = defineCheck({
  code: 'steps-out-of-order',
  severity: 'warning',
  title: 'A step for raw dough after the last bake',
  why:
    'Steps follow one another in the order they are written. A proof or a score behind the last bake has nothing left ' +
    'to be done to.',
  source: 'definition of the language',
  trips: loaf({ steps: ['preheat     45 min at 235 C', 'bake        40 min at 235 C', '«score»       2 min'] }),
  passes: loaf({ steps: ['preheat     45 min at 235 C', 'score       2 min', 'bake        40 min at 235 C'] }),
  find: ({ formula }) => {
    const steps = formula?.kind === 'formula' ? methodOf(formula) : [];
    const last = steps.reduce((at, { node }, index) => (HEATS.has(node.step) ? index : at), -1);
    const first = last < 0 ? undefined : steps.slice(last + 1).find(({ node }) => RAW.has(node.step));
    return first === undefined
      ? []
      : [
          {
            place: keywordPlace(first),
            message:
              `This ${first.node.step} comes after the last bake, when there is no raw dough left. Move it up to where ` +
              `it is done.`,
          },
        ];
  },
});
