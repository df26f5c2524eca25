import { defineCheck, soundTotals } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { celsius, hours } from '../words';

export const riseTooShort = defineCheck({
  code: 'rise-too-short',
  severity: 'warning',
  title: 'Far too little time to rise',
  why:
    'From the mixer to the oven a dough needs a time that depends on its leaven and on how warm it is. With less than ' +
    'half of it the loaf is dense, pale and splits where it likes.',
  source: sourcesOf('rise-too-short'),
  limits: THRESHOLDS['rise-too-short'],
  trips: loaf({
    doughHead: 'dough at 24 C',
    more: ['3 g       instant yeast'],
    steps: [
      'mix         8 min', '«bulk        30 min at 24 C»', 'shape       10 min', 'proof       20 min at 24 C',
      'preheat     45 min at 230 C', 'bake        40 min at 230 C',
    ],
  }),
  passes: loaf({
    doughHead: 'dough at 24 C',
    more: ['3 g       instant yeast'],
    steps: [
      'mix         8 min', 'bulk        3 h at 24 C', 'shape       10 min', 'proof       75 min at 24 C',
      'preheat     45 min at 230 C', 'bake        40 min at 230 C',
    ],
  }),
  find: (context) => {
    const pace = soundTotals(context) === undefined ? null : context.reports.pace();
    const share = context.limits.get('rise-too-short', 'leastShare');
    if (pace === null || pace.givenHours.high >= pace.neededHours.low * share) {
      return [];
    }
    const { givenHours, neededHours, raisedBy } = pace;
    return [
      {
        place: pace.place,
        message:
          `From mixer to oven the dough rises as much as ${hours(givenHours.low, givenHours.high)} at ` +
          `${celsius(pace.celsius)} would let it; with this much ${raisedBy} ` +
          `about ${hours(neededHours.low, neededHours.high)} is usual. The loaf will be dense: give it more time, ` +
          `warmth or ${raisedBy}.`,
      },
    ];
  },
});
