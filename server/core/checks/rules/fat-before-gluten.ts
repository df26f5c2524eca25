import { namesOf, shareOf } from '../contents';
import { defineCheck } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { allSteps } from '../method';
import { against, listed, named, percent } from '../words';

const dough = (butter: string) => [
  '1000 g    bread flour', '300 g     milk', '250 g     eggs', '20 g      salt', '60 g      sugar',
  `${butter}     butter`, '15 g      instant yeast',
];

export const fatBeforeGluten = defineCheck({
  code: 'fat-before-gluten',
  severity: 'info',
  title: 'Much fat before the gluten is there',
  why:
    'Fat coats flour and keeps water from it, so gluten forms slowly. A dough with much butter is mixed without it first, ' +
    'and takes it in when it is smooth.',
  source: sourcesOf('fat-before-gluten'),
  limits: THRESHOLDS['fat-before-gluten'],
  trips: loaf({ head: ['style     brioche'], dough: dough('«400 g»'), steps: ['mix         10 min, by mixer'] }),
  passes: loaf({
    head: ['style     brioche'],
    dough: dough('400 g'),
    steps: ['mix         8 min, by mixer', 'mix         10 min, by mixer, add butter'],
  }),
  find: (context) => {
    const steps = allSteps(context.formula);
    const limit = context.limits.get('fat-before-gluten', 'mostPct');
    const dough = context.formula?.dough;
    const added = steps.flatMap(({ step }) => step.node.details.flatMap((detail) => (detail.kind === 'add' ? [detail.name.text.toLowerCase()] : [])));
    const isAdded = (name: string) => added.some((one) => name.toLowerCase().includes(one) || one.includes(name.toLowerCase()));
    const share = shareOf(context, ({ line, partIndex }) => line.role === 'fat' && partIndex === dough && !isAdded(line.name));
    const mixes = steps.some(({ step }) => step.node.step === 'mix' || step.node.step === 'knead');
    const laminated = steps.some(({ step }) => step.node.step === 'laminate');
    // Without yeast or sourdough nothing wants gluten: the fat of a scone is rubbed in first.
    const rises = (context.reports.culture()?.organism ?? null) !== null;
    return share === undefined || share.pct <= limit || !mixes || laminated || !rises
      ? []
      : [
          {
            place: share.place,
            message:
              `${listed(namesOf(share.leaves).map(named))} is ${against(share.pct, limit)} % of the flour (over ` +
              `${percent(limit)}) and goes in at the first mixing: ` +
              'the gluten will be slow to form. Mix without it first, and `add` it in a later step.',
          },
        ];
  },
});
