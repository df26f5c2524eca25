import { defineCheck } from '../define';
import { timesOf } from '../../plan/times';
import { planText } from '../plan';

export const planTimeWrong = defineCheck({
  code: 'plan-time-wrong',
  severity: 'error',
  title: 'A time that there is not',
  why:
    'A time zone must be one that exists, and in spring the clocks skip an hour: nothing can be ready in it. A date without a time of ' +
    'day is no time either.',
  source: 'IANA time zone database, as the platform ships it',
  trips: planText({ ready: '«ready     2026-03-29 01:30 Europe/Lisbon»' }),
  passes: planText({ ready: 'ready     2026-03-29 02:30 Europe/Lisbon' }),
  find: ({ day, zone }) => {
    // Without a zone only what is wrong in any zone can be known.
    const read = day?.anchor && timesOf(day, zone ?? 'UTC');
    return read?.kind === 'bad' && read.of ? [{ place: read.of.place, message: read.message }] : [];
  },
});
