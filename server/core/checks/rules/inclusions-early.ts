import { namesOf, shareOf } from '../contents';
import { defineCheck } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { allSteps } from '../method';
import { against, listed, named, percent } from '../words';

/** Small and smooth: they do no harm to gluten. */
const SMALL = new Set([
  'sesame-seeds', 'poppy-seeds', 'flax-seeds', 'chia-seeds', 'hemp-seeds', 'sunflower-seeds', 'caraway-seeds',
  'fennel-seeds', 'pumpkin-seeds',
]);

export const inclusionsEarly = defineCheck({
  code: 'inclusions-early',
  severity: 'info',
  title: 'Nuts and fruit go in before the dough is made',
  why:
    'What no step adds goes in at the first mixing. Nuts cut the gluten as it forms and fruit is torn and smears: they ' +
    'go in ' +
    'when the dough is smooth, at the end of the mixing or with a fold.',
  source: sourcesOf('inclusions-early'),
  limits: THRESHOLDS['inclusions-early'],
  trips: loaf({
    head: ['style     with inclusions'],
    more: ['«300 g»     walnuts'],
    steps: ['mix         8 min, by mixer'],
  }),
  passes: loaf({
    head: ['style     with inclusions'],
    more: ['300 g     walnuts'],
    steps: ['mix         8 min, by mixer', 'mix         2 min, by hand, add walnuts'],
  }),
  find: (context) => {
    const { formula } = context;
    const steps = allSteps(formula);
    const added = steps.some(({ step }) => step.node.details.some(({ kind }) => kind === 'add'));
    const kneaded = steps.some(({ step, part }) => part === undefined && (step.node.step === 'mix' || step.node.step === 'knead'));
    const share = shareOf(
      context,
      ({ line, partIndex }) => partIndex === formula?.dough && line.role === 'inclusion' && !SMALL.has(line.key) && (line.ingredient?.composition.water ?? 0) < 65,
    );
    const limit = context.limits.get('inclusions-early', 'mostPct');
    return share === undefined || share.pct <= limit || added || !kneaded
      ? []
      : [
          {
            place: share.place,
            message:
              `${listed(namesOf(share.leaves).map(named))} (${against(share.pct, limit)} % of the flour, over ` +
              `${percent(limit)}) goes in at the first mixing, and cuts the gluten as it forms. ` +
              'Write `add` in the last mix, or in a fold.',
          },
        ];
  },
});
