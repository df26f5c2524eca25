import { ambientOf } from '../../timeline/ambient';
import { isButter, shareOf } from '../contents';
import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { isKind, methodOf, temperaturePlace } from '../method';
import { celsius, percent } from '../words';

const dough = [
  '1000 g    bread flour', '300 g     milk', '250 g     eggs', '20 g      salt', '60 g      sugar',
  '180 g     butter', '25 g      osmotolerant yeast',
];

export const butterMelts = defineCheck({
  code: 'butter-melts',
  severity: 'warning',
  title: 'A buttery dough that rises too warm',
  why: 'Butter runs at 32 to 35 C. A dough full of it that proofs so warm weeps fat, and comes out greasy and flat.',
  source: sourcesOf('butter-melts'),
  limits: THRESHOLDS['butter-melts'],
  trips: loaf({ head: ['style     brioche'], dough, steps: ['mix         10 min', 'proof       90 min at «35 C»'] }),
  passes: loaf({ head: ['style     brioche'], dough, steps: ['mix         10 min', 'proof       90 min at 27 C'] }),
  find: (context) => {
    const { formula, limits } = context;
    const most = limits.get('butter-melts', 'mostCelsius');
    const odd = limits.get('temperature-odd', 'mostRisingCelsius');
    const share = shareOf(context, isButter);
    if (formula?.kind !== 'formula' || share === undefined || share.pct <= limits.get('butter-melts', 'mostButterPct')) {
      return [];
    }
    return methodOf(formula).filter(isKind('bulk', 'proof', 'rest')).flatMap((step): readonly Found[] => {
      const warm = ambientOf(step, undefined, formula, undefined);
      return warm === null || warm <= most || warm > odd
        ? []
        : [
            {
              place: temperaturePlace(step),
              message:
                `With butter at ${percent(share.pct)} of the flour, ${celsius(warm)} is too warm (${celsius(most)} at ` +
                `most): the butter runs out of the dough. Let it rise at 24 to 28 C, longer.`,
            },
          ];
    });
  },
});
