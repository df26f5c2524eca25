import { isYeast, shareOf } from '../contents';
import { defineCheck, soundTotals } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { against, percent } from '../words';

export const sugarSlowsYeast = defineCheck({
  code: 'sugar-slows-yeast',
  severity: 'warning',
  title: 'Much sugar for ordinary yeast',
  why:
    'Sugar draws water out of yeast. From about 5 % of the flour a dough rises more slowly, and past 12 to 16 % ordinary ' +
    'yeast gets little done: a yeast made for sweet doughs (osmotolerant), or a good deal more time, is needed.',
  source: sourcesOf('sugar-slows-yeast'),
  limits: THRESHOLDS['sugar-slows-yeast'],
  trips: loaf({
    head: ['style     enriched'],
    dough: ['1000 g    bread flour', '560 g     water', '18 g      salt', '200 g     sugar', '«15 g»      instant yeast'],
  }),
  passes: loaf({
    head: ['style     enriched'],
    dough: ['1000 g    bread flour', '560 g     water', '18 g      salt', '200 g     sugar', '15 g      osmotolerant yeast'],
  }),
  find: (context) => {
    const sugar = soundTotals(context)?.sugar_pct ?? null;
    const culture = context.reports.culture();
    const limit = context.limits.get('sugar-slows-yeast', 'mostPct');
    const yeast = shareOf(context, isYeast);
    if (
      sugar === null ||
      sugar <= limit ||
      yeast === undefined ||
      culture?.organism !== "baker's yeast" || culture.osmotolerant
    ) {
      return [];
    }
    return [
      {
        place: yeast.place,
        message:
          `Sugar is ${against(sugar, limit)} % of the flour, over ${percent(limit)}: ordinary yeast will be slow in it. ` +
          'Take yeast for sweet dough (osmotolerant), or plan on much more time.',
      },
    ];
  },
});
