import { isYeast, shareOf } from '../contents';
import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { durationPlace, isKind, methodOf, minutesOf } from '../method';
import { against, minutes, percent } from '../words';

export const retardWithYeast = defineCheck({
  code: 'retard-with-yeast',
  severity: 'info',
  title: 'Yeast in a dough that waits long in the cold',
  why:
    'A dough takes hours to cool down, and yeast makes use of them. With more than about 0.3 % instant yeast, a night in ' +
    'the fridge is enough to overproof a lean dough.',
  source: sourcesOf('retard-with-yeast'),
  limits: THRESHOLDS['retard-with-yeast'],
  trips: loaf({ more: ['10 g      instant yeast'], steps: ['mix         8 min', 'retard      «16 to 20 h» at 4 C'] }),
  passes: loaf({ more: ['2 g       instant yeast'], steps: ['mix         8 min', 'retard      16 to 20 h at 4 C'] }),
  find: (context) => {
    const { formula, limits, reports } = context;
    const fresh = reports.culture()?.freshYeastPct ?? null;
    const mostPct = limits.get('retard-with-yeast', 'mostFreshPct');
    const most = limits.get('retard-with-yeast', 'mostHours') * 60;
    if (formula?.kind !== 'formula' || fresh === null || fresh <= mostPct || shareOf(context, isYeast) === undefined) {
      return [];
    }
    return methodOf(formula).filter(isKind('retard', 'chill')).flatMap((step): readonly Found[] => {
      const time = minutesOf([step]);
      return time === undefined || time.low <= most
        ? []
        : [
            {
              place: durationPlace(step),
              message:
                `With yeast worth ${against(fresh, mostPct)} % of fresh (over ${percent(mostPct)}), ` +
                `${minutes(time.low)} in the cold is long (${minutes(most)} at most): ` +
                'the dough may overproof before it is cold. Take less yeast, or cool it quickly in small pieces.',
            },
          ];
    });
  },
});
