/** Why a day does not fit: a batch that cannot be made at all in its hours, or too much for the room there is; and ways out, each tried. */
import { anchorText, clockText } from '../../timeline/explain';
import { hoursOffText } from '../../timeline/hours-off';
import type { Conditions, HoursOff } from '../../timeline/model';
import { timelineOf } from '../../timeline/timeline';
import type { BakeDay } from '../model';
import type { DayFact, DaySchedule, DayWayOut } from '../schedule-model';
import type { DayTimes } from '../times';
import type { Job, Limits } from './job';
import { placeJob, type Aim } from './place';
import { searchDay, type Steps } from './search';
import { takenOf } from './taken';

type Conflict = Extract<DaySchedule, { readonly kind: 'conflict' }>;
type Scarce = 'oven' | 'hands' | 'mixer' | 'fridge' | 'pots';

const SCARCE: readonly Scarce[] = ['oven', 'hands', 'mixer', 'fridge', 'pots'];
const MS_PER_MINUTE = 60_000;
const FEW_TRIES = 8;
/** How much later than asked is still that day. */
const MOST_LATER_MINUTES = 240;
const LATER_STEP_MINUTES = 30;
const MOST_WAYS = 3;

export interface AloneContext {
  readonly times: DayTimes;
  readonly hoursOff: readonly (HoursOff & { readonly place?: BakeDay['place'] })[];
  readonly conditions: Conditions;
}

/** What keeps a batch from being made even with the bakery to itself; undefined when nothing does. */
export function explainAlone(job: Job, limits: Limits, day: BakeDay, { times, hoursOff, conditions }: AloneContext): Conflict | undefined {
  const aim: Aim = times.anchor.kind === 'ready' ? 'latest-start' : 'earliest-end';
  const fits = (among: Limits): boolean => placeJob(job, { limits: among, taken: takenOf([], among), aim }, { turn: 0, sharing: false }) !== undefined;
  if (fits(limits)) return undefined;
  const name = job.batch.formula.name;
  const order = day.orders[job.batch.order];
  const asked: DayFact = { text: job.batch.label, place: order?.place };
  const scarce = SCARCE.find((kind) => isLimited(limits, kind) && fits(without(limits, kind)));
  if (scarce !== undefined) {
    return {
      kind: 'conflict', message: `${job.batch.label} is too much for ${wordsFor(scarce, limits)} even by itself.`,
      facts: [asked, ...factsFor(scarce, day)], waysOut: [],
    };
  }
  const readyMs = times.readyMs[job.batch.order];
  const timeline = timelineOf(job.batch.formula, {
    anchor: readyMs === undefined ? times.anchor : { kind: 'ready', epochMs: readyMs }, zone: times.zone, hoursOff, conditions,
  });
  if (timeline.kind === 'conflict') {
    return {
      kind: 'conflict', message: `${name}: ${timeline.message}`,
      facts: timeline.facts.map(({ text, place }): DayFact => (place ? { text, place, formula: name } : { text, place: placeInPlan(text, day, times, hoursOff) })),
      waysOut: timeline.waysOut.map(({ text, place, length }) => ({ text: `${name}: ${text}`, place, length, ...(place && { formula: name }) })),
    };
  }
  return {
    kind: 'conflict', message: `${job.batch.label} does not fit between these hours: at this size, what is done piece by piece takes too long.`,
    facts: [asked, ...hoursOff.map((hours): DayFact => ({ text: `${hours.kind} ${hoursOffText(hours)}`, place: hours.place }))], waysOut: [],
  };
}

/** Where in the plan a fact is written that a timeline takes for asked. */
function placeInPlan(text: string, day: BakeDay, times: DayTimes, hoursOff: AloneContext['hoursOff']): BakeDay['place'] | undefined {
  const hours = hoursOff.find((each) => text === `${each.kind} ${hoursOffText(each)}`);
  if (hours) return hours.place;
  return text.startsWith(anchorText(times.anchor, times.zone).slice(0, 5)) ? day.anchor?.place : undefined;
}

export interface TogetherContext {
  readonly times: DayTimes;
  readonly aim: Aim;
  readonly jobsFor: (limits: Limits, moved?: DayTimes) => readonly Job[];
  readonly mayGoOn: () => boolean;
}

/** Why batches that fit one by one do not fit together; with no time left to find out, only that they do not. */
export function* explainTogether(stuck: Job, jobs: readonly Job[], limits: Limits, day: BakeDay, { times, aim, jobsFor, mayGoOn }: TogetherContext): Steps<Conflict> {
  const fits = function* (among: readonly Job[], limited: Limits): Steps<boolean> {
    if (!mayGoOn()) return false;
    const search = searchDay(among, { limits: limited, aim, mayGoOn, isBest: () => true, tries: FEW_TRIES });
    for (;;) {
      const step = search.next();
      if (step.done) return step.value.kind === 'found';
      if (step.value !== undefined) return true;
      yield;
    }
  };
  let first: Scarce | undefined;
  for (const kind of SCARCE) {
    if (first === undefined && isLimited(limits, kind) && (yield* fits(jobs, without(limits, kind)))) first = kind;
  }
  const order = day.orders[stuck.batch.order];
  const facts: readonly DayFact[] = [
    ...(day.anchor ? [{ text: anchorText(times.anchor, times.zone), place: day.anchor.place }] : []),
    { text: stuck.batch.label, place: order?.place },
    ...(first ? factsFor(first, day) : SCARCE.filter((kind) => isLimited(limits, kind)).flatMap((kind) => factsFor(kind, day))),
  ];
  const ways: DayWayOut[] = [];
  if (first !== undefined && (yield* fits(withMore(jobs, first), more(limits, first)))) {
    ways.push({ text: `have one more: ${oneMore(first, limits)}`, place: factsFor(first, day)[0]?.place, length: undefined });
  }
  if (times.anchor.kind === 'ready') {
    for (let later = LATER_STEP_MINUTES; later <= MOST_LATER_MINUTES; later += LATER_STEP_MINUTES) {
      const moved = movedBy(times, later * MS_PER_MINUTE);
      if (!(yield* fits(jobsFor(limits, moved), limits))) continue;
      ways.push({ text: `ready at ${clockText(moved.anchor.epochMs, times.zone)} instead`, place: day.anchor?.place, length: undefined });
      break;
    }
  }
  const others = jobs.filter(({ batch }) => batch.order !== stuck.batch.order);
  if (others.length > 0 && (yield* fits(others, limits))) ways.push({ text: `leave out ${stuck.batch.formula.name}`, place: order?.place, length: undefined });
  const why = first !== undefined ? `With more than ${wordsFor(first, limits)} it would have.`
    : mayGoOn() ? 'In these hours there is too little room of several things at once.'
    : 'The search ended before it could say what there is too little of: give it longer, or order less.';
  return {
    kind: 'conflict', message: `No day was found that holds it all: ${stuck.batch.label} has no place beside the others. ${why}`,
    facts, waysOut: ways.slice(0, MOST_WAYS),
  };
}

function isLimited(limits: Limits, kind: Scarce): boolean {
  return kind === 'oven' ? limits.chambers > 0 : limits[kind === 'mixer' ? 'mixers' : kind] < Infinity;
}

function without(limits: Limits, kind: Scarce): Limits {
  return kind === 'oven' ? { ...limits, chambers: 0 } : { ...limits, [kind === 'mixer' ? 'mixers' : kind]: Infinity };
}

function more(limits: Limits, kind: Scarce): Limits {
  const name = kind === 'oven' ? 'chambers' : kind === 'mixer' ? 'mixers' : kind;
  return { ...limits, [name]: limits[name] + 1 };
}

/** One more oven is like the first. */
function withMore(jobs: readonly Job[], kind: Scarce): readonly Job[] {
  return kind === 'oven' ? jobs.map((job) => ({ ...job, bakes: job.bakes.map((bake) => ({ ...bake, fills: [...bake.fills, bake.fills[0]] })) })) : jobs;
}

function wordsFor(kind: Scarce, limits: Limits): string {
  switch (kind) {
    case 'oven': return limits.chambers === 1 ? 'one oven' : `${limits.chambers} ovens or decks`;
    case 'hands': return limits.hands === 1 ? 'one pair of hands' : `${limits.hands} people`;
    case 'mixer': return limits.mixers === 1 ? 'one mixer' : `${limits.mixers} mixers`;
    case 'fridge': return 'this fridge';
    case 'pots': return limits.pots === 1 ? 'one pot' : `${limits.pots} pots`;
  }
}

function oneMore(kind: Scarce, limits: Limits): string {
  switch (kind) {
    case 'oven': return 'another oven or deck like the first';
    case 'hands': return `\`hands ${limits.hands + 1}\``;
    case 'mixer': return 'another mixer';
    case 'fridge': return 'another fridge of the same size';
    case 'pots': return `\`pots ${limits.pots + 1}\``;
  }
}

function factsFor(kind: Scarce, day: BakeDay): readonly DayFact[] {
  const lines = (stores: readonly { readonly name: string; readonly place: BakeDay['place'] }[]): readonly DayFact[] => {
    const written = new Map(stores.map((store) => [store.place.start, stores.filter(({ place }) => place.start === store.place.start)]));
    return [...written.values()].flatMap(([first, ...decks]) => (first === undefined ? [] : [{
      text: decks.length === 0 ? first.name : `${first.name.replace(/ 1$/, '')}, ${decks.length + 1} decks`, place: first.place,
    }]));
  };
  switch (kind) {
    case 'oven': return lines(day.chambers);
    case 'hands': return [{ text: `hands ${day.hands}${day.handsPlace ? '' : ', as nothing else is written'}`, place: day.handsPlace }];
    case 'mixer': return lines(day.mixers);
    case 'fridge': return lines(day.fridges);
    case 'pots': return [{ text: `pots ${day.pots ?? ''}`, place: day.potsPlace }];
  }
}

function movedBy(times: DayTimes, ms: number): DayTimes {
  return { ...times, anchor: { ...times.anchor, epochMs: times.anchor.epochMs + ms }, readyMs: times.readyMs.map((ready) => (ready === undefined ? undefined : ready + ms)) };
}
