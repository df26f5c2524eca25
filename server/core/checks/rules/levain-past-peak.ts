import { defineCheck, type Found } from '../define';
import { block, loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { durationPlace, isKind } from '../method';
import { celsius, named, hours } from '../words';

export const levainPastPeak = defineCheck({
  code: 'levain-past-peak',
  severity: 'warning',
  title: 'A preferment that is past its peak when it is used',
  why:
    'After its peak a preferment sinks, turns sour and loses strength, and the dough it goes into is slow and slack. How ' +
    'long it takes depends on how much starter or yeast it was given and how warm it stands.',
  source: sourcesOf('levain-past-peak'),
  limits: THRESHOLDS['levain-past-peak'],
  trips: loaf({
    before: block('levain', ['150 g     bread flour', '150 g     water', '100 g     starter', 'ripen     «16 h» at 26 C']),
    dough: ['800 g     bread flour', '500 g     water', 'all       levain', '20 g      salt'],
  }),
  passes: loaf({
    before: block('levain', ['190 g     bread flour', '190 g     water', '20 g      starter', 'ripen     8 to 10 h at 24 C']),
    dough: ['800 g     bread flour', '500 g     water', 'all       levain', '20 g      salt'],
  }),
  find: ({ formula, limits, reports }) => {
    const leeway = limits.get('levain-past-peak', 'mostShare');
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
      return ripenedHours.low <= peakHours.high * leeway
        ? []
        : [
            {
              place: durationPlace(step),
              message:
                `${named(part.name)} peaks after about ${hours(peakHours.low, peakHours.high)} at ` +
                `${celsius(ripeningCelsius)} and gets ` +
                `${hours(ripenedHours.low, ripenedHours.high)}: it will be sunk and sour. Shorten it, keep it ` +
                `cooler, or start it with less.`,
            },
          ];
    });
  },
});
