/** The schedule of a plan, with what a command line asks beside it. */
import { scheduleDay } from '../core/plan/schedule/schedule';
import { pastReady } from '../core/plan/times';
import { workOf } from '../core/plan/work';
import { zoneNamed } from '../core/timeline/zone-names';
import type { HoursOff } from '../core/timeline/model';
import type { DayEntry } from '../output/day-words';
import type { ChosenPlan } from './plans';
import { Refusal } from './refusal';
import { askedInstant, momentText, type ScheduleAsked } from './schedule-asked';
import type { Surroundings } from './verb';

/** How long a better day is sought. */
export interface Within {
  readonly seconds: number;
  readonly text: string;
}

/** Nobody at a terminal waits longer without having asked to. */
const USUAL_WITHIN: Within = { seconds: 10, text: '10s' };
const MOST_WITHIN_SECONDS = 3600;

/** @throws Refusal for anything but seconds or minutes, up to an hour */
export function withinOf(value: string | undefined): Within {
  if (value === undefined) return USUAL_WITHIN;
  const [, number, unit] = /^(\d+(?:\.\d+)?)\s*(s|min)?$/.exec(value.trim()) ?? [];
  const seconds = number === undefined ? NaN : Number(number) * (unit === 'min' ? 60 : 1);
  if (seconds > 0 && seconds <= MOST_WITHIN_SECONDS) return { seconds, text: `${number ?? ''}${unit ?? 's'}` };
  throw new Refusal(`--within takes how long a better day is looked for, up to an hour, such as 30s or 2min, not "${value}".`);
}

/**
 * Puts a plan on the clock. What the command line says wins over the plan, and the plan over the settings of the workspace: the
 * time, the room, and the hours off kind by kind.
 * @throws Refusal for what is meant for one dough, and a day has several
 */
export function scheduledDay(plan: ChosenPlan, asked: ScheduleAsked, within: Within, { systemZone, nowMs }: Surroundings, say: (note: string) => void): DayEntry {
  if (asked.conditions.doughCelsius !== undefined) throw new Refusal('--dough is what one dough measures, and a plan has several. Use it with --ready or --start, for one formula.');
  if (asked.pace === 'own') throw new Refusal('--pace own goes by the records of one formula. For a plan give the pace as a number, such as --pace 1.1.');
  const { settings, sectionOf, whereOf } = plan;
  const zone = asked.zone ?? settings.zone ?? systemZone;
  // What stands in the plan keeps its line, so that a conflict can name it.
  const own = plan.day.hoursOff.filter(({ kind }) => asked[kind] === undefined);
  const others = (['asleep', 'away'] as const).flatMap((kind): readonly HoursOff[] => asked[kind] ?? (own.some((hours) => hours.kind === kind) ? [] : settings[kind] ?? []));
  const room = asked.conditions.roomCelsius ?? settings.roomTodayCelsius;
  const ownZone = plan.day.anchor?.zone === undefined ? undefined : zoneNamed(plan.day.anchor.zone);
  const anchor = asked.anchor === undefined ? undefined : askedInstant(asked.anchor.text, ownZone ?? zone);
  if (anchor?.note !== undefined) say(anchor.note);

  const day = { ...plan.day, hoursOff: own, room: asked.conditions.roomCelsius === undefined ? plan.day.room : undefined };
  const untilMs = performance.now() + within.seconds * 1000;
  let wasEnded = false;
  const schedule = scheduleDay(day, {
    zone, mayGoOn: () => !(wasEnded ||= performance.now() >= untilMs),
    ...(asked.anchor !== undefined && anchor !== undefined && { anchor: { kind: asked.anchor.kind, epochMs: anchor.epochMs } }),
    hoursOff: others,
    conditions: { ...(room !== undefined && { roomCelsius: room }), ...(asked.pace !== undefined && { pace: asked.pace }) },
  });
  if (wasEnded && (schedule.kind !== 'scheduled' || !schedule.proven)) say(`"${plan.day.name}": the search ended after ${within.text}. Longer may find ${schedule.kind === 'scheduled' ? 'a better day' : 'a day, or say what is in the way'}: --within 60s.`);
  const past = asked.anchor === undefined ? pastReady(plan.day, nowMs, zone)?.message : undefined;
  if (past !== undefined) say(`"${plan.day.name}": ${past}`);
  else if (anchor !== undefined && anchor.epochMs < nowMs) say(`${momentText(anchor.epochMs, anchor.zone)} has passed. The times are given all the same.`);
  else if (schedule.kind === 'scheduled' && schedule.startMs < nowMs) {
    say(`"${plan.day.name}" would have had to begin at ${momentText(schedule.startMs, schedule.zone)}, which has passed. Choose a later time.`);
  }
  return { day: plan.day, work: workOf(plan.day), schedule, anchor: asked.anchor?.kind ?? plan.day.anchor?.kind ?? 'ready', hoursOff: [...own, ...others], sectionOf, whereOf };
}
