import { defineCheck, type Found } from '../define';
import { block, loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { durationPlace, isKind, minutesOf } from '../method';
import { celsius, minutes } from '../words';

export const prefermentWarm = defineCheck({
  code: 'preferment-warm',
  severity: 'info',
  title: 'A preferment without salt, long in the warm',
  why:
    'Without salt nothing slows the enzymes of the flour. After most of a day in the warm a preferment is thin, sour and ' +
    'eats its gluten.',
  source: sourcesOf('preferment-warm'),
  limits: THRESHOLDS['preferment-warm'],
  trips: loaf({
    before: block('biga', ['300 g     bread flour', '150 g     water', '0.1 g     instant yeast', 'ripen     «20 h» at 26 C']),
    dough: ['700 g     bread flour', '550 g     water', 'all       biga', '20 g      salt'],
  }),
  passes: loaf({
    before: block('biga', ['300 g     bread flour', '150 g     water', '0.5 g     instant yeast', 'ripen     20 h at 16 C']),
    dough: ['700 g     bread flour', '550 g     water', 'all       biga', '20 g      salt'],
  }),
  find: ({ formula, limits, reports }) => {
    const mostHours = limits.get('preferment-warm', 'mostHours');
    const mostCelsius = limits.get('preferment-warm', 'mostCelsius');
    return reports.levains().flatMap((report): readonly Found[] => {
      const part = formula?.parts[report.part];
      const steps = part?.steps.filter(isKind('ripen', 'bulk', 'rest', 'proof')) ?? [];
      const time = minutesOf(steps);
      const [first] = steps;
      const { ripeningCelsius: warm } = report;
      // A ripe levain past its peak is told by its own check.
      if (
        part === undefined ||
        first === undefined ||
        time === undefined ||
        warm === null ||
        report.raisedBy === 'starter'
      ) {
        return [];
      }
      if (part.lines.some(({ role }) => role === 'salt') || time.low <= mostHours * 60 || warm <= mostCelsius) {
        return [];
      }
      return [
        {
          place: durationPlace(first),
          message:
            `${minutes(time.low)} at ${celsius(warm)} is long for a preferment without salt ` +
            `(${minutes(mostHours * 60)} above ${celsius(mostCelsius)} is the ` +
            'most): it goes thin and sour. Ripen it cooler, shorter, or with the salt in it.',
        },
      ];
    });
  },
});
