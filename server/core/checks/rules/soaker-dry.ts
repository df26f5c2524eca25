import { ABSORBERS } from '../../formula/absorbers';
import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { grams, named } from '../words';

export const soakerDry = defineCheck({
  code: 'soaker-dry',
  severity: 'info',
  title: 'A soaker with too little to drink',
  why:
    'Seeds and flakes that were not given enough water go on drinking in the dough: the soaker then helps less than it ' +
    'seems to.',
  source: sourcesOf('soaker-dry'),
  limits: THRESHOLDS['soaker-dry'],
  trips: loaf({
    before: 'soaker «"seeds"»\n  100 g     flax seeds\n  30 g      water\n  rest      4 h\n',
    more: ['all       seeds'],
  }),
  passes: loaf({
    before: 'soaker "seeds"\n  150 g     flax seeds\n  225 g     water\n  rest      4 h\n',
    more: ['all       seeds'],
  }),
  find: ({ formula, limits }) => {
    const share = limits.get('soaker-dry', 'leastShare');
    return (formula?.parts ?? []).filter(({ kind }) => kind === 'soaker').flatMap((part): readonly Found[] => {
      if (part.lines.some((line) => line.grams === null || line.part !== undefined)) {
        return [];
      }
      let wants = 0;
      let liquid = 0;
      for (const { ingredient, key, grams: weight } of part.lines) {
        const absorber = ABSORBERS[ingredient?.absorbsAs ?? key];
        wants += (weight ?? 0) * (ingredient?.absorbs ?? absorber?.low ?? 0);
        const water = ingredient?.composition.water ?? 0;
        liquid += water >= 60 ? ((weight ?? 0) * water) / 100 : 0;
      }
      return wants <= 0 || liquid >= wants * share
        ? []
        : [
            {
              place: part.place,
              message:
                `${named(part.name)} has ${grams(liquid)} of water for pieces that drink ${grams(wants)} at least: ` +
                `they will take the rest out of the dough. ` +
                'Give the soaker more water.',
            },
          ];
    });
  },
});
