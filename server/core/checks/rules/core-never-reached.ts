import { boilingCelsius } from '../../baking';
import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { allSteps, coreOf } from '../method';
import { celsius, trimmed } from '../words';

export const coreNeverReached = defineCheck({
  code: 'core-never-reached',
  severity: 'warning',
  title: 'A core that no loaf gets to',
  why:
    'Crumb is wet, so its core stops just under the boiling point of water: 100 C at the sea, 95 C at 1500 m. A loaf ' +
    'baked ' +
    '“until core 103 C” is baked until it is dry.',
  source: sourcesOf('core-never-reached'),
  limits: THRESHOLDS['core-never-reached'],
  trips: loaf({
    head: ['altitude  1600 m'],
    steps: ['preheat     45 min at 240 C', 'bake        40 min at 235 C, until core «97 C»'],
  }),
  passes: loaf({
    head: ['altitude  1600 m'],
    steps: ['preheat     45 min at 240 C', 'bake        40 min at 235 C, until core 92 C'],
  }),
  find: ({ formula, limits }) => {
    const height = Math.min(formula?.altitudeMetres ?? 0, limits.get('altitude-odd', 'mostMetres'));
    const boiling = boilingCelsius(height);
    const most = boiling - limits.get('core-never-reached', 'leastUnderBoilingCelsius');
    return allSteps(formula).flatMap(({ step }): readonly Found[] => {
      const core = step.node.step === 'bake' ? coreOf([step]) : undefined;
      return core === undefined || core.celsius <= most
        ? []
        : [
            {
              place: core.place,
              message:
                `No core gets to ${celsius(core.celsius)}: water boils at ${trimmed(boiling, 0)} ` +
                `C${height > 100 ? ' at this height' : ''}, and crumb stays just under that. ` +
                `Bake until ${celsius(Math.floor(most - 2))} at most.`,
            },
          ];
    });
  },
});
