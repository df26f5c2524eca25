import { defineCheck, type Found } from '../define';
import { block, loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { durationPlace, isKind } from '../method';
import { celsius, named, hours } from '../words';

export const levainNotRipe = defineCheck({
  code: 'levain-not-ripe',
  severity: 'warning',
  title: 'A preferment that is not ripe when it is used',
  why:
    'A preferment used long before its peak brings few cells and little acid: the dough is slow and the bread bland. How ' +
    'long it takes depends on how much starter or yeast it was given and how warm it stands.',
  source: sourcesOf('levain-not-ripe'),
  limits: THRESHOLDS['levain-not-ripe'],
  trips: loaf({
    before: block('levain', ['195 g     bread flour', '195 g     water', '10 g      starter', 'ripen     «2 h» at 22 C']),
    dough: ['800 g     bread flour', '500 g     water', 'all       levain', '20 g      salt'],
  }),
  passes: loaf({
    before: block('levain', ['150 g     bread flour', '150 g     water', '100 g     starter', 'ripen     3 to 4 h at 26 C']),
    dough: ['800 g     bread flour', '500 g     water', 'all       levain', '20 g      salt'],
  }),
  find: ({ formula, limits, reports }) => {
    const leeway = limits.get('levain-not-ripe', 'leastShare');
    return reports.levains().flatMap((report): readonly Found[] => {
      const { peakHours, ripenedHours, ripeningCelsius } = report;
      const part = formula?.parts[report.part];
      const step = part?.steps.find(isKind('ripen', 'rest', 'bulk', 'proof', 'retard', 'chill'));
      if (
        peakHours === null ||
        ripenedHours === null ||
        ripeningCelsius === null ||
        part === undefined ||
        step === undefined
      ) {
        return [];
      }
      // A ripening of no time at all is another slip, and has its own finding.
      return ripenedHours.high <= 0 || ripenedHours.high >= peakHours.low * leeway
        ? []
        : [
            {
              place: durationPlace(step),
              message:
                `${named(part.name)} peaks after about ${hours(peakHours.low, peakHours.high)} at ` +
                `${celsius(ripeningCelsius)} and gets ` +
                `${hours(ripenedHours.low, ripenedHours.high)}: it will hardly raise the dough. Give it longer, ` +
                `warmer, or more starter.`,
            },
          ];
    });
  },
});
