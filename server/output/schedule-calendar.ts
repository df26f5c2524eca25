/** Timelines as a calendar file: an event a step, with an alarm where a hand is needed. */
import { formatInstant } from '../core/timeline/clock';
import type { TimelineStep } from '../core/timeline/model';
import { calendarText, type CalendarAlarm, type CalendarEvent } from './calendar';
import { titleOf } from './entry';
import type { ScheduledEntry } from './schedule-json';
import { handMoments, handPhrase, lengthText, partName, slackText, stepWords, type Entry, type Placed } from './schedule-words';

/**
 * One calendar of all timelines that have times. Instants are in UTC; the clock times in the descriptions are those of the
 * timeline's zone. The same step of the same formula on the same day has the same UID, so that a second file brings the first up
 * to date. `stampMs`: when it is written. `others` go into the same file.
 */
export function scheduleCalendar(scheduled: readonly ScheduledEntry[], stampMs: number, others: readonly CalendarEvent[] = []): string {
  const counts = new Map<string, number>();
  const events = scheduled.flatMap(({ entry, timeline }): readonly CalendarEvent[] => {
    if (timeline.kind !== 'placed') return [];
    const title = titleOf(entry.formula);
    // Two formulas of one name in the same run are two bakes.
    const count = (counts.get(title) ?? 0) + 1;
    counts.set(title, count);
    const bake = [formatInstant(timeline.readyMs, timeline.zone).date, title, String(count)].join('\n');
    return timeline.steps.map((step) => eventOf(entry, timeline, step, title, bake));
  });
  return calendarText([...events, ...others], stampMs);
}

function eventOf(entry: Entry, timeline: Placed, step: TimelineStep, title: string, bake: string): CalendarEvent {
  const { zone } = timeline;
  const words = stepWords(entry, step);
  const part = partName(entry, step);
  const slack = slackText(timeline, step);
  return {
    uid: uidOf(`${bake}\n${step.id}`),
    summary: `${title}: ${words}`,
    description: [
      [part, lengthText(step)].filter((text) => text !== '').join(', '),
      step.handsOn ? 'Needs hands.' : handPhrase(timeline, step) === '' ? '' : `By hand: ${handPhrase(timeline, step)}.`,
      slack === undefined ? '' : `${capital(slack)}.`,
      step.adapted?.why ?? '',
      `Times are those of ${zone}.`,
    ].filter((line) => line !== '').join('\n'),
    startMs: step.startMs,
    endMs: step.endMs,
    busy: step.handsOn,
    alarms: alarmsOf(timeline, step, `${title}: ${words}`, title),
  };
}

function alarmsOf(timeline: Placed, step: TimelineStep, summary: string, title: string): readonly CalendarAlarm[] {
  if (step.handsOn) return [{ at: 'start', text: summary }];
  return handMoments(timeline, step).map(({ at, text }) => ({ at, text: text === undefined ? summary : `${title}: ${text}` }));
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A UID from whatever tells an event from all others: 64 bits of it as 16 letters (FNV-1a), the same on every machine. */
export function uidOf(identity: string): string {
  let hash = 0xcbf29ce484222325n;
  for (const byte of new TextEncoder().encode(identity)) hash = BigInt.asUintN(64, (hash ^ BigInt(byte)) * 0x100000001b3n);
  return `${hash.toString(16).padStart(16, '0')}@proofsheet`;
}
