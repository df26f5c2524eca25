/** A bake day as calendar events: one for each piece of work, with an alarm, and the steps that go on by themselves. */
import type { DayStep, ScheduledBatch, ScheduledDay } from '../core/plan/schedule-model';
import { formatInstant } from '../core/timeline/clock';
import type { CalendarAlarm, CalendarEvent } from './calendar';
import { counted, dayStepWords, momentsOf, type DayEntry } from './day-words';
import { ovenCelsius } from './numbers';
import { uidOf } from './schedule-calendar';
import { lengthText } from './schedule-words';

/** The events of a day that has times; none of another. */
export function dayEvents(entry: DayEntry): readonly CalendarEvent[] {
  const { day, schedule } = entry;
  if (schedule.kind !== 'scheduled') return [];
  const bake = `plan ${day.name}\n${formatInstant(schedule.readyMs, schedule.zone).date}`;
  const moment = (uid: string, summary: string, startMs: number): CalendarEvent => ({
    uid: uidOf(`${bake}\n${uid}`), summary: `${day.name}: ${summary}`, description: timesOf(schedule), startMs, endMs: startMs, busy: true, alarms: [{ at: 'start', text: summary }],
  });
  return [
    ...schedule.builds.map(({ build, name, startMs }) => moment(`build ${String(build)}`, `mix the ${name}`, startMs)),
    ...schedule.heatings.map(({ oven, startMs, celsius }, index) => moment(`heating ${String(index)}`, `${oven} on${celsius === null ? '' : `, to ${ovenCelsius(celsius)}`}`, startMs)),
    ...schedule.batches.flatMap((batch) => batch.steps.map((step) => stepEvent(entry, schedule, batch, step, bake))),
  ];
}

function stepEvent(entry: DayEntry, schedule: ScheduledDay, batch: ScheduledBatch, step: DayStep, bake: string): CalendarEvent {
  const words = dayStepWords(entry, batch, step);
  const summary = `${batch.label}: ${words}`;
  const alarms: readonly CalendarAlarm[] = step.handsOn
    ? [{ at: 'start', text: summary }]
    : momentsOf(batch, step).map(({ at, text }) => ({ at, text: text === undefined ? summary : `${batch.label}: ${text}` }));
  return {
    uid: uidOf(`${bake}\n${batch.label}\n${String(step.load ?? '')}\n${step.id}`),
    summary,
    description: [
      [step.pieces === null ? '' : counted(step.pieces, batch.noun), lengthText(step), step.taken?.name ?? '', step.person === undefined ? '' : `person ${String(step.person)}`]
        .filter((text) => text !== '').join(', '),
      timesOf(schedule),
    ].filter((line) => line !== '').join('\n'),
    startMs: step.startMs,
    endMs: step.endMs,
    busy: step.handsOn,
    alarms,
  };
}

function timesOf({ zone }: ScheduledDay): string {
  return `Planned on the clock of ${zone}.`;
}
