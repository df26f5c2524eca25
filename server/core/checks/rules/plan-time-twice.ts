import { defineCheck } from '../define';
import { timesOf } from '../../plan/times';
import { planText } from '../plan';

export const planTimeTwice = defineCheck({
  code: 'plan-time-twice',
  severity: 'info',
  title: 'A time that comes twice',
  why:
    'When the clocks go back in autumn, an hour comes twice. The schedule takes the earlier one; an hour before or after leaves no doubt.',
  source: 'IANA time zone database, as the platform ships it',
  trips: planText({ ready: '«ready     2026-10-25 01:30 Europe/Lisbon»' }),
  passes: planText({ ready: 'ready     2026-10-25 02:30 Europe/Lisbon' }),
  find: ({ day, zone }) => {
    const read = day?.anchor && timesOf(day, zone ?? 'UTC');
    return read?.kind === 'times' && day?.anchor ? read.times.notes.map((message) => ({ place: day.anchor?.place ?? day.place, message })) : [];
  },
});
