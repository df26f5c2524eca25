import { defineCheck } from '../define';
import { doughPlace } from '../dough';
import { loaf } from '../examples';

export const noFlour = defineCheck({
  code: 'no-flour',
  severity: 'error',
  title: 'A dough without flour',
  why:
    'Everything in a formula is reckoned against its flour. Without any there are no percentages, and no bread: a flour ' +
    'is missing, its amount is nothing, or it goes by a name that does not say that it is one.',
  source: 'definition of the language',
  trips: loaf({ doughHead: '«dough»', dough: ['700 g     water', '20 g      salt'] }),
  passes: loaf(),
  find: (context) => {
    const { formula, totals, section } = context;
    const place = doughPlace(context);
    const dough = formula?.dough === undefined ? undefined : formula.parts[formula.dough];
    if (formula === undefined || place === undefined || dough === undefined || dough.lines.length === 0) {
      return [];
    }
    // A line that cannot be read, or whose weight cannot be known, may be the flour.
    const unclear = section.blocks.some(({ problems }) => problems.length > 0) || formula.troubles.some(({ kind }) => kind !== 'makes-disagrees');
    return totals?.flour_g !== 0 || unclear
      ? []
      : [
          {
            place,
            message:
              'There is no flour in this dough, so no share of the flour can be known. Add the flour; if a line here ' +
              'is one, say so: ' +
              '`500 g "our blend" as flour`.',
          },
        ];
  },
});
