import { rawEggIn } from '../../facts/raw-egg';
import { defineCheck } from '../define';
import { loaf } from '../examples';
import { keywordPlace } from '../method';
import { named } from '../words';

export const eggNotCooked = defineCheck({
  code: 'egg-not-cooked',
  severity: 'warning',
  title: 'Raw egg that goes on after the oven',
  why: 'A custard, filling or glaze with egg that is put on after the last bake is eaten raw unless its own steps cook it.',
  source: 'US federal chart of safe minimum temperatures: egg dishes 160 F (71 C)',
  trips: loaf({
    after: '\ncustard\n  200 g     milk\n  80 g      egg yolks\n  60 g      sugar\n',
    steps: [
      'preheat     45 min at 235 C', 'bake        40 min at 235 C', 'cool        1 h',
      '«fill»        10 min, add custard',
    ],
  }),
  passes: loaf({
    after: '\ncustard\n  200 g     milk\n  80 g      egg yolks\n  60 g      sugar\n  boil      5 min\n',
    steps: [
      'preheat     45 min at 235 C', 'bake        40 min at 235 C', 'cool        1 h',
      'fill        10 min, add custard',
    ],
  }),
  find: ({ formula }) => (formula === undefined ? [] : rawEggIn(formula)).map(({ part, step }) => ({
    place: keywordPlace(step),
    message:
      `${named(part.name)} has raw egg in it and goes on after the last bake, so nothing cooks it. Cook it ` +
      `in its own steps (until 71 C), or take pasteurised egg.`,
  })),
});
