import { isPerishable, warmMinutes } from '../perishable';
import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { listed, minutes, named } from '../words';

export const outOfTheCold = defineCheck({
  code: 'out-of-the-cold',
  severity: 'warning',
  title: 'Eggs, milk or fresh cheese too long out of the cold',
  why:
    'Between 5 and 57 C bacteria grow in egg, milk, custard and fresh cheese. Public guidance for a household is two ' +
    'hours at ' +
    'most, one above 32 C. Local food rules come first. Ripening doughs are not meant here: they are baked through.',
  source: sourcesOf('out-of-the-cold'),
  limits: THRESHOLDS['out-of-the-cold'],
  trips: loaf({
    head: ['room      23 C'],
    after: '\nfilling «"cheese"»\n  300 g     ricotta\n  100 g     eggs\n  rest      5 h at room\n',
  }),
  passes: loaf({
    head: ['room      23 C', 'fridge    4 C'],
    after: '\nfilling "cheese"\n  300 g     ricotta\n  100 g     eggs\n  rest      5 h at fridge\n',
  }),
  find: ({ formula, limits }) => {
    if (formula === undefined) {
      return [];
    }
    const most = limits.get('out-of-the-cold', 'mostHours') * 60;
    const mostHot = limits.get('out-of-the-cold', 'mostHotHours') * 60;
    const cold = limits.get('out-of-the-cold', 'mostColdCelsius');
    return formula.parts.flatMap((part, index): readonly Found[] => {
      // Doughs and preferments ferment, sour and are baked through.
      if (index === formula.dough || part.isPreferment) {
        return [];
      }
      const perishable = part.lines.filter(isPerishable);
      const { warm, hot } = warmMinutes(formula, part, cold);
      return perishable.length === 0 || (warm <= most && hot <= mostHot)
        ? []
        : [
            {
              place: part.place,
              message:
                `${named(part.name)} has ${listed([...new Set(perishable.map(({ name }) => name))])} in it and stands ` +
                `${minutes(warm)} warmer than a fridge; public guidance is ${minutes(warm <= most ? mostHot : most)} ` +
                `at most. ` +
                'Keep it in the fridge, or make it later.',
            },
          ];
    });
  },
});
