import { defineCheck, soundTotals } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { celsius, hours } from '../words';

export const riseTooLong = defineCheck({
  code: 'rise-too-long',
  severity: 'warning',
  title: 'Far too much time to rise',
  why:
    'A dough that ferments far longer than its leaven needs runs out of sugar and strength: it collapses at the touch, ' +
    'bakes pale and tastes sour. Less leaven, a cooler place or the fridge stretch the time.',
  source: sourcesOf('rise-too-long'),
  limits: THRESHOLDS['rise-too-long'],
  trips: loaf({
    doughHead: 'dough at 26 C',
    more: ['10 g      instant yeast'],
    steps: [
      'mix         8 min', '«bulk        14 h at 26 C»', 'shape       10 min', 'proof       60 min at 26 C',
      'preheat     45 min at 230 C', 'bake        40 min at 230 C',
    ],
  }),
  passes: loaf({
    doughHead: 'dough at 22 C',
    more: ['0.8 g     instant yeast'],
    steps: [
      'mix         8 min', 'bulk        12 h at 20 C', 'shape       10 min', 'proof       90 min at 22 C',
      'preheat     45 min at 230 C', 'bake        40 min at 230 C',
    ],
  }),
  find: (context) => {
    const pace = soundTotals(context) === undefined ? null : context.reports.pace();
    const share = context.limits.get('rise-too-long', 'mostShare');
    if (pace === null || pace.givenHours.low <= pace.neededHours.high * share) {
      return [];
    }
    const { givenHours, neededHours, raisedBy } = pace;
    return [
      {
        place: pace.place,
        message:
          `From mixer to oven the dough rises as much as ${hours(givenHours.low, givenHours.high)} at ` +
          `${celsius(pace.celsius)} would let it; with this much ${raisedBy} ` +
          `about ${hours(neededHours.low, neededHours.high)} is usual. It will collapse: take less ${raisedBy}, ` +
          `or a cooler place.`,
      },
    ];
  },
});
