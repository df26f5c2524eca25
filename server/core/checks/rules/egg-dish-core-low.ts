import { defineCheck } from '../define';
import { sourcesOf, THRESHOLDS } from '../limits';
import { allSteps, coreOf } from '../method';
import { celsius } from '../words';

const dish = (core: string) => `dish "Bread pudding"
  serves    4

custard
  4 eggs
  400 ml    milk
  300 g     dinner rolls   # accept unknown-ingredient: yesterday's
  60 g      sugar

steps
  whisk       5 min
  preheat     20 min at 170 C
  bake        40 min at 170 C, until core ${core}
`;

export const eggDishCoreLow = defineCheck({
  code: 'egg-dish-core-low',
  severity: 'warning',
  title: 'A dish with eggs that is not cooked through',
  why:
    'Bread pudding, custard bakes and the like are safe from 71 C (160 F) in the middle by public guidance. A ' +
    'thermometer says ' +
    'so; a set edge does not. Local food rules come first.',
  source: sourcesOf('egg-dish-core-low'),
  limits: THRESHOLDS['egg-dish-core-low'],
  trips: dish('«63 C»'),
  passes: dish('74 C'),
  find: ({ formula, limits }) => {
    if (formula?.kind !== 'dish' || !formula.parts.some((part) => part.lines.some(({ role }) => role === 'egg'))) {
      return [];
    }
    const least = limits.get('egg-dish-core-low', 'leastCelsius');
    const core = coreOf(allSteps(formula).map(({ step }) => step));
    return core === undefined || core.celsius >= least
      ? []
      : [
          {
            place: core.place,
            message:
              `A dish with eggs is safe from ${celsius(least)} in the middle, and this one stops at ` +
              `${celsius(core.celsius)}. Bake it until core ${celsius(74)}, or use pasteurised eggs.`,
          },
        ];
  },
});
