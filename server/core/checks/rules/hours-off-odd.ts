import { hoursOffText } from '../../timeline/hours-off';
import type { BakeDay } from '../../plan/model';
import { defineCheck, type Found } from '../define';
import { planText } from '../plan';

const MINUTES_IN_DAY = 24 * 60;
const MINUTES_IN_WEEK = 7 * MINUTES_IN_DAY;

export const hoursOffOdd = defineCheck({
  code: 'hours-off-odd',
  severity: 'error',
  title: 'Hours off that leave no time, or take none',
  why:
    'Nothing that needs a hand is put into hours in which everybody sleeps or is away. Where they fill the whole day nothing can be ' +
    'baked; where they begin and end at one time they say nothing.',
  source: 'definition of the language',
  trips: planText({ more: ['asleep    22:00 to 06:00', '«away      05:00 to 23:00»'] }),
  passes: planText({ more: ['asleep    22:00 to 06:00', 'away      09:00 to 17:00'] }),
  find: ({ day }) => {
    const none = (day?.hoursOff ?? []).filter((hours) => hours.fromMinute === hours.toMinute);
    const found = none.map((hours): Found => ({
      place: hours.place,
      message: `${hoursOffText(hours)} begins and ends at the same time, so it keeps nobody off. Write when it ends.`,
    }));
    const last = day && leavesNothing(day) ? day.hoursOff.at(-1) : undefined;
    return last === undefined ? found : [...found, {
      place: last.place,
      message: 'These hours fill every hour of the week, so nothing that needs a hand could ever be done. Leave some in which you work.',
    }];
  },
});

/** Whether no minute of the week is left over. */
function leavesNothing({ hoursOff }: BakeDay): boolean {
  const off = new Uint8Array(MINUTES_IN_WEEK);
  for (const { fromMinute, toMinute, days = [1, 2, 3, 4, 5, 6, 7] } of hoursOff) {
    const length = (toMinute - fromMinute + MINUTES_IN_DAY) % MINUTES_IN_DAY;
    for (const day of days) for (let minute = 0; minute < length; minute++) off[((day - 1) * MINUTES_IN_DAY + fromMinute + minute) % MINUTES_IN_WEEK] = 1;
  }
  return hoursOff.length > 0 && off.every((minute) => minute === 1);
}
