import { defineCheck, type Found } from '../define';
import { block, loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { allSteps, isKind, temperaturePlace, writtenCelsius } from '../method';
import { celsius } from '../words';

export const cultureTooWarm = defineCheck({
  code: 'culture-too-warm',
  severity: 'warning',
  title: 'A sourdough culture kept too warm for its yeast',
  why:
    'Above 32 C the bacteria of a sourdough go on while its yeast fades, and at 35 C it stops. The culture turns sour and ' +
    'no longer raises, and fed like that again and again it loses its yeast.',
  source: sourcesOf('culture-too-warm'),
  limits: THRESHOLDS['culture-too-warm'],
  trips: loaf({
    before: block('levain', ['180 g     bread flour', '180 g     water', '40 g      starter', 'ripen     4 h at «38 C»']),
    dough: ['800 g     bread flour', '500 g     water', 'all       levain', '20 g      salt'],
  }),
  passes: loaf({
    before: block('levain', ['180 g     bread flour', '180 g     water', '40 g      starter', 'ripen     5 h at 28 C']),
    dough: ['800 g     bread flour', '500 g     water', 'all       levain', '20 g      salt'],
  }),
  find: ({ formula, limits, reports }) => {
    const most = limits.get('culture-too-warm', 'mostCelsius');
    const odd = limits.get('temperature-odd', 'mostRisingCelsius');
    const cultured = new Set(reports.levains().filter(({ raisedBy }) => raisedBy === 'starter' || raisedBy === 'both').map(({ part }) => formula?.parts[part]));
    return allSteps(formula).flatMap(({ step, part }): readonly Found[] => {
      const heat = writtenCelsius(step);
      if (
        part === undefined ||
        !cultured.has(part) ||
        heat === undefined ||
        !isKind('ripen', 'rest', 'bulk', 'proof')(step)
      ) {
        return [];
      }
      return heat.low <= most || heat.low > odd
        ? []
        : [
            {
              place: temperaturePlace(step),
              message:
                `${celsius(heat.low)} is too warm for the yeast of a sourdough (${celsius(most)} at most): the levain ` +
                `will be sour and raise little. ` +
                'Ripen it at 24 to 28 C.',
            },
          ];
    });
  },
});
