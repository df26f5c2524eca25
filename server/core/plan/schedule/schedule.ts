/** The door to the schedule of a bake day: a plan and a moment in, a clock time for everything out. */
import { formatDuration, formatInstant, isInstant, unknownZone } from '../../timeline/clock';
import { conditionNotes } from '../../timeline/conditions';
import type { Conditions, HoursOff } from '../../timeline/model';
import { spanOf } from '../../timeline/choose';
import { windowsOf } from '../../timeline/windows';
import { zoneNamed } from '../../timeline/zone-names';
import { mixableGrams } from '../capacity';
import { MOST_LOADS, READY_EARLY_HOURS } from '../constants';
import type { BakeDay } from '../model';
import type { DayRequest, DaySchedule } from '../schedule-model';
import { timesOf, type DayTimes } from '../times';
import { workOf, type DayWork } from '../work';
import { boundOf } from './bound';
import { explainAlone, explainTogether } from './explain';
import { jobOf, type Job, type Limits } from './job';
import { batchNetwork, type BatchNetwork } from './network';
import type { Aim } from './place';
import { partsOfDay, type DayParts } from './result';
import { relaxed, searchDay, type Day, type Steps } from './search';
import { shareBuilds } from './share';

const MS_PER_MINUTE = 60_000;
const MS_PER_DAY = 24 * 60 * MS_PER_MINUTE;
/** Room for nights, for a week of looking around, and for a day's baking. */
const MARGIN_MS = 60 * MS_PER_DAY;
const LONGEST_WITH_NIGHTS_MS = 400 * MS_PER_DAY;

/**
 * Puts every dough, load and preferment of a plan on the clock, in the room that the plan gives: nobody does two things at once, no mixer,
 * fridge or oven holds more than it does, loads share an oven where they bake alike, and nothing that needs a hand falls into hours off.
 *
 * For a time to be ready, bread is as fresh as can be (done within 3 h of it, else within 6, else within 12) and then the day begins as late as can be
 * found; from a start it is done as soon as can be found. `boundMs` is what no day of these doughs and loads could better. The same plan gives the same day, however often it is asked.
 * Never throws; `conflict` says what cannot all hold.
 */
export function scheduleDay(day: BakeDay, request: DayRequest): DaySchedule {
  const steps = scheduleSteps(day, request, false);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/**
 * The same in short steps, for whoever must not be kept waiting: `undefined` after each, with `showsFirst` also the first day that stands where a
 * better one is looked for, and at the end what `scheduleDay` gives. No step places more than one batch.
 */
export function* scheduleSteps(day: BakeDay, request: DayRequest, showsFirst = true): Steps<DaySchedule, DaySchedule> {
  const read = timesFor(day, request);
  if (read.kind === 'bad') return { kind: 'conflict', message: read.message, facts: read.of ? [{ text: `${read.of.kind} ${read.of.date} ${read.of.time ?? ''}`.trim(), place: read.of.place }] : [], waysOut: [] };
  const { times } = read;
  const work = workOf(day);
  if (work.tooMany !== undefined) {
    const order = day.orders[work.tooMany];
    const message = `This plan makes more than ${MOST_LOADS.value} loads, and no day is planned for so many. Order less, or divide the plan.`;
    return { kind: 'conflict', message, facts: order ? [{ text: order.name, place: order.place }] : [], waysOut: [] };
  }
  const conditions: Conditions = { ...request.conditions, ...(day.room && { roomCelsius: day.room.celsius }) };
  const networks: { readonly index: number; readonly of: BatchNetwork }[] = [];
  for (const [index, batch] of work.batches.entries()) {
    yield;
    const built = batchNetwork(batch, conditions);
    if (built.kind === 'conflict') return conflictIn(batch.formula.name, built.conflict);
    if (built.kind === 'network') networks.push({ index, of: built.of });
  }
  if (networks.length === 0) return { kind: 'empty' };

  const longMs = Math.max(...networks.map(({ of }) => spanOf(of.network)));
  if (!isInstant(times.anchor.epochMs - 2 * longMs - MARGIN_MS) || !isInstant(times.anchor.epochMs + 2 * longMs + MARGIN_MS)) {
    return { kind: 'conflict', message: 'These steps would begin or end where no calendar reaches.', facts: [], waysOut: [] };
  }
  // Over years there is a night for everything; and a list of all of them would be long.
  const hoursOff = longMs > LONGEST_WITH_NIGHTS_MS ? [] : [...day.hoursOff, ...(request.hoursOff ?? [])];
  const aim: Aim = times.anchor.kind === 'ready' ? 'latest-start' : 'earliest-end';
  const jobsFor = (limits: Limits, moved: DayTimes = times, earlyHours = READY_EARLY_HOURS.most.value): readonly Job[] => jobsOf(day, work, networks, moved, limits, earlyHours);
  const range = rangeOf(networks, times, hoursOff);
  const limits = limitsOf(day, work, windowsOf(hoursOff, times.zone, range.fromMs - MS_PER_DAY, range.toMs + MS_PER_DAY));
  const most = jobsFor(limits);
  for (const job of most) {
    yield;
    const alone = explainAlone(job, limits, day, { times, hoursOff, conditions });
    if (alone) return alone;
  }
  const mayGoOn = request.mayGoOn ?? (() => true);
  const finished = function* (found: Day, boundMs: number): Steps<DaySchedule> {
    return scheduled(yield* relaxed(found, limits), { day, work, times, aim, boundMs, conditions, hoursOff: limits.hoursOff });
  };
  let stuck: Job | undefined;
  for (const hours of aim === 'latest-start' ? EARLY_HOURS : [READY_EARLY_HOURS.most.value]) {
    const jobs = jobsFor(limits, times, hours);
    const boundMs = yield* boundOf(jobs, limits, aim);
    const isBest = ({ startMs, doneMs }: Day): boolean => (aim === 'latest-start' ? startMs >= boundMs : doneMs <= boundMs);
    const search = searchDay(jobs, { limits, aim, mayGoOn, isBest });
    for (;;) {
      const step = search.next();
      if (step.done) {
        if (step.value.kind === 'found') return yield* finished(step.value.day, boundMs);
        stuck = step.value.job;
        break;
      }
      yield showsFirst && step.value && !isBest(step.value) && mayGoOn() ? yield* finished(step.value, boundMs) : undefined;
    }
  }
  return stuck === undefined ? { kind: 'empty' } : yield* explainTogether(stuck, most, limits, day, { times, aim, jobsFor, mayGoOn });
}

/** Bread that waits as short a time as can be. */
const EARLY_HOURS = [READY_EARLY_HOURS.fresh.value, READY_EARLY_HOURS.sameDay.value, READY_EARLY_HOURS.most.value];

interface Asked {
  readonly day: BakeDay;
  readonly work: DayWork;
  readonly times: DayTimes;
  readonly aim: Aim;
  readonly boundMs: number;
  readonly conditions: Conditions;
  readonly hoursOff: Limits['hoursOff'];
}

/** A day that stands, given out to hands and ovens. */
function scheduled(found: Day, { day, work, times, aim, boundMs, conditions, hoursOff }: Asked): DaySchedule {
  const shared = shareBuilds(work.builds, found.placements, work.batches);
  const parts = partsOfDay(found, day, work, shared, times.anchor.epochMs);
  const workedFromMs = Math.min(...parts.batches.map((batch) => batch.startMs), ...parts.builds.map((build) => build.startMs));
  const startMs = Math.min(workedFromMs, ...parts.heatings.map((heating) => heating.startMs));
  const readyMs = Math.max(...parts.batches.map((batch) => batch.readyMs));
  const gapMinutes = Math.max(0, Math.round((aim === 'latest-start' ? boundMs - workedFromMs : readyMs - boundMs) / MS_PER_MINUTE));
  return {
    kind: 'scheduled', startMs, readyMs, zone: times.zone, ...parts, boundMs, gapMinutes, proven: gapMinutes === 0,
    notes: [...asleepHeatings(parts, hoursOff, times.zone), ...notesOf(work, times, conditions, shared.length > 0 ? shared.map(({ build, portions }) => ({ name: work.builds[build]?.name ?? '', count: portions.length, of: work.builds[build]?.portions.length ?? 0 })) : [], parts.batches)],
  };
}

function timesFor(day: BakeDay, { anchor, zone }: DayRequest): ReturnType<typeof timesOf> {
  if (anchor === undefined) return timesOf(day, zone);
  const known = zoneNamed(zone);
  if (known === undefined) return { kind: 'bad', message: unknownZone(zone), of: undefined };
  // Another time than the plan's: what orders say of their own still holds.
  const own = day.anchor && timesOf(day, zone);
  const readyMs = day.orders.map((_, index) => {
    const at = own?.kind === 'times' && day.orders[index]?.ready ? own.times.readyMs[index] : undefined;
    return at ?? (anchor.kind === 'ready' ? anchor.epochMs : undefined);
  });
  return { kind: 'times', times: { anchor, zone: own?.kind === 'times' ? own.times.zone : known, readyMs, notes: [] } };
}

/** From the first moment that is looked at to the last. */
function rangeOf(networks: readonly { readonly of: BatchNetwork }[], { anchor, readyMs }: DayTimes, hoursOff: readonly HoursOff[]): { readonly fromMs: number; readonly toMs: number } {
  const longest = Math.max(...networks.map(({ of }) => spanOf(of.network)));
  const baked = networks.reduce((sum, { of }) => sum + of.bakes.reduce((own, { stages }) => own + stages.reduce((ms, { highMs }) => ms + highMs, 0), 0), 0);
  const spanMs = longest + baked + (hoursOff.length > 0 ? 7 : 1) * MS_PER_DAY;
  const ready = readyMs.flatMap((ms) => ms ?? []);
  return anchor.kind === 'ready'
    ? { fromMs: Math.min(anchor.epochMs, ...ready) - spanMs, toMs: Math.max(anchor.epochMs, ...ready) }
    : { fromMs: anchor.epochMs, toMs: Math.max(anchor.epochMs + spanMs, ...ready) };
}

function jobsOf(day: BakeDay, work: DayWork, networks: readonly { readonly index: number; readonly of: BatchNetwork }[], times: DayTimes, limits: Limits, earlyHours: number): readonly Job[] {
  const range = rangeOf(networks, times, [...day.hoursOff]);
  return networks.flatMap(({ index, of }): readonly Job[] => {
    const batch = work.batches[index];
    if (!batch) return [];
    const readyMs = times.readyMs[batch.order];
    const isReadyBy = readyMs !== undefined;
    return [jobOf(index, batch, of, day, limits, { fromMs: range.fromMs, toMs: readyMs ?? range.toMs, isReadyBy, earlyHours })];
  });
}

function limitsOf(day: BakeDay, work: DayWork, hoursOff: Limits['hoursOff']): Limits {
  // A mixer that is too small for every dough of the day is none.
  const mixers = day.mixers.filter((mixer) => work.batches.some(({ order, doughGrams }) => {
    const of = day.orders[order];
    return of !== undefined && doughGrams !== null && mixableGrams([mixer], of) >= doughGrams - 1e-6;
  }));
  return {
    hands: day.hands, mixers: mixers.length === 0 ? Infinity : mixers.length, fridge: day.fridges.length === 0 ? Infinity : 1,
    pots: day.pots ?? Infinity, chambers: day.chambers.length, hoursOff,
  };
}

function conflictIn(formula: string, { message, facts }: { readonly message: string; readonly facts: readonly { readonly text: string; readonly place: BakeDay['place'] }[] }): DaySchedule {
  return { kind: 'conflict', message: `${formula}: ${message}`, facts: facts.map(({ text, place }) => ({ text, place, formula })), waysOut: [] };
}

/** Where no formula says how long the oven heats, nobody was asked to be there for it. */
function asleepHeatings({ heatings, ovenLoads }: DayParts, hoursOff: Limits['hoursOff'], zone: string): readonly string[] {
  return heatings.flatMap(({ oven, startMs, endMs }): readonly string[] => {
    if (!hoursOff.some((window) => window.startMs < startMs && startMs < window.endMs)) return [];
    const names = new Set(ovenLoads.filter((load) => load.oven === oven && load.startMs === endMs).flatMap(({ what }) => what.map(({ formula }) => formula)));
    return [`To be hot at ${clock(endMs, zone)}, ${oven} is switched on at ${clock(startMs, zone)}, in hours off: set a timer, or write a \`preheat\` line in ${[...names].join(' and ')}, and the day is planned so that somebody is there for it.`];
  });
}

interface BuiltTogether {
  readonly name: string;
  readonly count: number;
  readonly of: number;
}

function notesOf(
  work: DayWork, times: DayTimes, conditions: Conditions, shared: readonly BuiltTogether[],
  batches: readonly { readonly order: number; readonly readyMs: number; readonly label: string }[],
): readonly string[] {
  const notes = [...times.notes, ...work.notes];
  for (const { name, count, of } of shared) {
    if (count > 1 && count === of) notes.push(`The ${name} for ${count} doughs is built once.`);
  }
  const apart = new Set(shared.filter(({ count, of }) => count < of).map(({ name }) => name));
  for (const name of apart) notes.push(`The ${name} is built more than once: its doughs are mixed further apart than its ripening gives.`);
  const sized = new Set(work.batches.filter(({ factor, pieces }) => pieces !== null && Math.abs(factor - 1) > 0.01).map(({ formula }) => formula.name));
  if (sized.size > 0) notes.push('Dividing, shaping, scoring and the like are reckoned piece by piece: twice the pieces take twice as long.');
  const early = batches.filter(({ order, readyMs }) => (times.readyMs[order] ?? readyMs) - readyMs >= MS_PER_MINUTE);
  if (early.length > 0) {
    const [first] = [...early].sort((a, b) => a.readyMs - b.readyMs);
    if (first) notes.push(`${early.length === 1 ? 'One dough is' : `${early.length} doughs are`} ready before the time, the first (${first.label}) at ${clock(first.readyMs, times.zone)}, ${formatDuration(((times.readyMs[first.order] ?? 0) - first.readyMs) / MS_PER_MINUTE)} early.`);
  }
  const formulas = new Map(work.batches.map(({ formula }) => [formula.name, formula]));
  for (const [name, formula] of formulas) notes.push(...conditionNotes(formula, conditions).map((note) => `${name}: ${note}`));
  return [...new Set(notes)];
}

function clock(epochMs: number, zone: string): string {
  const { weekday, time } = formatInstant(epochMs, zone);
  return `${weekday} ${time}`;
}
