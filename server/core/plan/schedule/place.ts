/**
 * Places one batch among what is taken already: as late as can be for a day that is ready by a time, else done as soon as can be.
 *
 * What others take up are windows that a stretch must stay out of, so the solver of timelines finds the best there is by itself. Where two
 * stretches of the batch itself want the same hands or oven, one is put after the other, whichever way is better.
 */
import { boundedNet, distancesOf, endPoint, startPoint, type Box, type Pin } from '../../timeline/net';
import { earliestTimes, latestTimes, type Distance, type KeepOut } from '../../timeline/solve';
import { DUST, SHARED_MINUTES, SHARING_GIVES_MINUTES } from '../constants';
import { roomOf, type Job, type Limits, type Need } from './job';
import { bakeAlike, betweenMs, fullWindows, ovenWindows, type OvenUse, type Taken, type Taking, type Use } from './taken';

export interface Placement {
  readonly job: Job;
  /** By point of the network. */
  readonly timesMs: readonly number[];
  /** The oven of each bake; undefined where the day names none. */
  readonly chambers: readonly (number | undefined)[];
  readonly joins: readonly (Join | undefined)[];
  /** What of the batch's own had to be put after what. */
  readonly orders: readonly Distance[];
  readonly taking: Taking;
  readonly startMs: number;
  readonly doneMs: number;
}

/** A load that goes in with others. */
export interface Join {
  readonly chamber: number;
  readonly startMs: number;
  readonly endMs: number;
}

export interface Choice {
  /** Turns the ovens: which of them a first load is put into. */
  readonly turn: number;
  /** Goes in with others where that costs little, and not only where it is better. */
  readonly sharing: boolean;
}

/** A day that is ready by a time begins as late as can be; one that has a start is over as soon as can be. */
export type Aim = 'latest-start' | 'earliest-end';

/** What a placing may lean on beside what is written. */
export interface Around {
  readonly limits: Limits;
  readonly taken: Taken;
  readonly aim: Aim;
}

const MS_PER_MINUTE = 60_000;
/** Beyond this many of its own clashes a batch is given up. */
const MOST_ORDERS = 80;

/** The batch in its place; undefined where it finds none. */
export function placeJob(job: Job, around: Around, { turn, sharing }: Choice): Placement | undefined {
  const uses = around.taken.oven;
  const fitting = (fills: readonly (number | undefined)[]): readonly number[] => fills.flatMap((fill, chamber) => (fill === undefined ? [] : [chamber]));
  if (around.limits.chambers > 0 && job.bakes.some(({ fills }) => fitting(fills).length === 0)) return undefined;
  if (job.needs.some(({ kind, amount }) => amount > roomOf(around.limits, kind) + DUST)) return undefined;
  const start = job.bakes.map(({ fills }, index): Spot => {
    const chambers = around.limits.chambers === 0 ? [] : fitting(fills);
    return { chamber: chambers[(turn + index) % Math.max(1, chambers.length)], join: undefined };
  });
  let best = settled(job, around, start);
  if (around.limits.chambers === 0) return best;
  // As good as with ovens without end: no other of them is better.
  const free = settled(job, around, job.bakes.map((): Spot => ({ chamber: undefined, join: undefined })));
  const isAsGoodAsFree = (found: Placement | undefined): boolean => found !== undefined && free !== undefined && !isBetter(free, found, around.aim);
  let spots: readonly Spot[] = start;
  job.bakes.forEach(({ fills, stay }, index) => {
    const others = fitting(fills).filter((chamber) => chamber !== spots[index]?.chamber).map((chamber): Spot => ({ chamber, join: undefined }));
    const joins = joinsFor(stay.stages, fills, uses).map((join): Spot => ({ chamber: join.chamber, join }));
    for (const spot of [...joins, ...others]) {
      if (spot.join === undefined && isAsGoodAsFree(best)) break;
      if (best?.joins[index] !== undefined && spot.join === undefined && sharing) continue;
      const tried = spots.map((old, at) => (at === index ? spot : old));
      const found = settled(job, around, tried);
      const shares = sharing && spot.join !== undefined && best?.joins[index] === undefined;
      if (found && (best === undefined || isBetter(found, best, around.aim) || (shares && costMs(found, best, around.aim) <= SHARING_GIVES_MINUTES.value * MS_PER_MINUTE))) {
        best = found;
        spots = tried;
      }
    }
  });
  return best;
}

/** Whether one placing of a batch, or of a day, is better than another. */
export function isBetter(one: { readonly startMs: number; readonly doneMs: number }, other: { readonly startMs: number; readonly doneMs: number }, aim: Aim): boolean {
  return aim === 'latest-start'
    ? one.startMs > other.startMs || (one.startMs === other.startMs && one.doneMs > other.doneMs)
    : one.doneMs < other.doneMs || (one.doneMs === other.doneMs && one.startMs > other.startMs);
}

function costMs(one: Placement, other: Placement, aim: Aim): number {
  return aim === 'latest-start' ? other.startMs - one.startMs : one.doneMs - other.doneMs;
}

/** Loads that this one may go in with. */
function joinsFor(stages: OvenUse['stages'], fills: readonly (number | undefined)[], uses: readonly OvenUse[]): readonly Join[] {
  const joins = new Map<string, Join>();
  for (const { chamber, startMs } of uses) {
    const key = `${chamber} ${startMs}`;
    const fill = fills[chamber];
    if (joins.has(key) || fill === undefined) continue;
    const together = uses.filter((use) => use.chamber === chamber && use.startMs === startMs);
    if (together.reduce((sum, use) => sum + use.amount, fill) > 1 + DUST) continue;
    if (together.every((use) => bakeAlike(use.stages, stages))) joins.set(key, { chamber, startMs, endMs: Math.max(...together.map((use) => use.endMs)) });
  }
  return [...joins.values()];
}

interface Spot {
  readonly chamber: number | undefined;
  readonly join: Join | undefined;
}

/** The same in these ovens, with its own clashes put in order; undefined where that cannot be. */
function settled(job: Job, around: Around, spots: readonly Spot[]): Placement | undefined {
  return settledWithin(job, around, spots, []);
}

function settledWithin(job: Job, around: Around, spots: readonly Spot[], given: readonly Distance[]): Placement | undefined {
  const keepOuts = keepOutsFor(job, around, spots);
  const pins = pinsFor(job, spots);
  const attempt = (orders: readonly Distance[]): Placement | undefined => {
    const timesMs = solved(job, around.aim, [...job.distances, ...orders], keepOuts, pins);
    return timesMs && placementOf(job, timesMs, spots, orders);
  };
  let best = attempt(given);
  for (let round = 0; best && round < MOST_ORDERS; round++) {
    const clash = clashIn(best, around);
    if (!clash) return best;
    let next: Placement | undefined;
    for (const order of clash) {
      const tried = attempt([...best.orders, order]);
      if (tried && (!next || isBetter(tried, next, around.aim))) next = tried;
    }
    best = next;
  }
  return undefined;
}

/**
 * The same placing with other lengths, nothing of it before `fromMs` or after `toMs`: for bringing lengths near their middle once the day
 * stands. Undefined where these do not fit.
 */
export function replaced({ job, chambers, orders, taking }: Placement, around: Around, boxes: readonly Box[], { fromMs, toMs }: { readonly fromMs: number; readonly toMs: number }): Placement | undefined {
  const uses = around.taken.oven;
  // What went in with others stays with them, whoever was there first.
  const spots = chambers.map((chamber, index): Spot => {
    const own = taking.oven[index];
    const together = own === undefined ? [] : uses.filter((use) => use.chamber === chamber && use.startMs === own.startMs);
    if (own === undefined || chamber === undefined || together.length === 0) return { chamber, join: undefined };
    return { chamber, join: { chamber, startMs: own.startMs, endMs: Math.max(...together.map((use) => use.endMs)) } };
  });
  const bounded: Job = {
    ...job, fromMs: Math.max(job.fromMs, fromMs), toMs: Math.min(job.toMs, toMs),
    distances: distancesOf(job.of.network, (_, node) => boxes[node]),
  };
  const found = settledWithin(bounded, { ...around, aim: 'latest-start' }, spots, orders);
  return found && { ...found, job };
}

function solved(job: Job, aim: Aim, distances: readonly Distance[], keepOuts: readonly KeepOut[], pins: readonly Pin[]): readonly number[] | undefined {
  const range = { fromMs: job.fromMs, toMs: job.toMs };
  const net = boundedNet(job.of.network, distances, keepOuts, range, pins);
  if (aim === 'latest-start') return latestTimes(net);
  const soonest = earliestTimes(net);
  if (!soonest) return undefined;
  // Done as soon as may be, and begun no sooner than that takes.
  const ends = job.of.lasts.map((node): Pin => ({ point: endPoint(node), latest: soonest[endPoint(node)] ?? 0 }));
  return latestTimes(boundedNet(job.of.network, distances, keepOuts, range, [...pins, ...ends]));
}

function keepOutsFor(job: Job, { taken }: Around, spots: readonly Spot[]): readonly KeepOut[] {
  const needs = job.needs.map((need): KeepOut => ({ start: need.start, end: need.end, windows: taken.closedTo(need) }));
  const bakes = job.bakes.flatMap(({ start, end, stay }, index): readonly KeepOut[] => {
    const spot = spots[index];
    if (spot?.chamber === undefined) return [];
    const uses = taken.oven.filter((use) => use.chamber === spot.chamber && !(spot.join && use.chamber === spot.join.chamber && use.startMs === spot.join.startMs));
    return [{ start, end, windows: ovenWindows(uses, spot.chamber, stay.stages) }];
  });
  return [...job.moments, ...needs, ...bakes].filter(({ windows }) => windows.length > 0);
}

function pinsFor(job: Job, spots: readonly Spot[]): readonly Pin[] {
  const near = SHARED_MINUTES.value * MS_PER_MINUTE;
  const joins = job.bakes.flatMap(({ start, end }, index): readonly Pin[] => {
    const join = spots[index]?.join;
    return join ? [{ point: start, earliest: join.startMs, latest: join.startMs }, { point: end, earliest: join.endMs - near, latest: join.endMs + near }] : [];
  });
  return [...joins, ...job.of.lasts.map((node): Pin => ({ point: endPoint(node), earliest: job.doneFromMs }))];
}

function placementOf(job: Job, timesMs: readonly number[], spots: readonly Spot[], orders: readonly Distance[]): Placement {
  const at = (point: number): number => timesMs[point] ?? 0;
  const use = ({ start, end, amount }: Need): Use => ({ startMs: at(start), endMs: at(end), amount });
  const of = (kind: Need['kind']): readonly Use[] => job.needs.filter((need) => need.kind === kind).map(use);
  const works = [...job.of.network.nodes.keys()].filter((node) => job.of.network.nodes[node]?.work !== undefined);
  return {
    job, timesMs, orders,
    chambers: spots.map(({ chamber }) => chamber),
    joins: spots.map(({ join }) => join),
    taking: {
      hands: of('hands'), mixer: of('mixer'), fridge: of('fridge'), pots: of('pots'),
      oven: job.bakes.flatMap(({ start, end, stay, fills }, index): readonly OvenUse[] => {
        const chamber = spots[index]?.chamber;
        return chamber === undefined ? [] : [{ startMs: at(start), endMs: at(end), amount: fills[chamber] ?? 1, chamber, stages: stay.stages }];
      }),
    },
    startMs: works.reduce((least, node) => Math.min(least, at(startPoint(node))), Infinity),
    doneMs: job.of.lasts.reduce((most, node) => Math.max(most, at(endPoint(node))), -Infinity),
  };
}

// --- a batch in its own way -----------------------------------------------------------------------------------------

/** Two stretches of the batch that cannot be at once, as the two orders in which they can be; undefined when there are none. */
function clashIn(placement: Placement, { limits, taken }: Around): readonly Distance[] | undefined {
  const { job, timesMs } = placement;
  const at = (point: number): number => timesMs[point] ?? 0;
  for (const kind of ['hands', 'mixer', 'fridge', 'pots'] as const) {
    const room = roomOf(limits, kind);
    if (room === Infinity) continue;
    const own = job.needs.filter((need) => need.kind === kind && at(need.end) > at(need.start));
    // Beside others each of them has its place, so only two of them at once can be too much.
    if (!overlapping(own.map(({ start, end }) => ({ startMs: at(start), endMs: at(end) })))) continue;
    const all = [...taken.usesOf(kind), ...own.map(({ start, end, amount }): Use => ({ startMs: at(start), endMs: at(end), amount }))];
    const [full] = fullWindows(all, room);
    if (!full) continue;
    const within = own.filter(({ start, end }) => at(start) <= full.startMs && at(end) > full.startMs);
    const [one, other] = within;
    if (one && other) return [after(one, other, 0), after(other, one, 0)];
  }
  for (const [index, one] of job.bakes.entries()) {
    for (const [beside, other] of job.bakes.entries()) {
      const chamber = placement.chambers[index];
      if (beside <= index || chamber === undefined || placement.chambers[beside] !== chamber) continue;
      const fill = (one.fills[chamber] ?? 1) + (other.fills[chamber] ?? 1);
      const together = fill <= 1 + DUST && at(one.start) === at(other.start) && bakeAlike(one.stay.stages, other.stay.stages);
      const [then, back] = [betweenMs(one.stay.stages, other.stay.stages), betweenMs(other.stay.stages, one.stay.stages)];
      if (together || at(one.end) + then <= at(other.start) || at(other.end) + back <= at(one.start)) continue;
      return [after(one, other, then), after(other, one, back)];
    }
  }
  return undefined;
}

/** Whether any two are at the same time. */
function overlapping(stretches: readonly Pick<Use, 'startMs' | 'endMs'>[]): boolean {
  let endMs = -Infinity;
  return [...stretches].sort((a, b) => a.startMs - b.startMs).some((stretch) => {
    const overlaps = stretch.startMs < endMs;
    endMs = Math.max(endMs, stretch.endMs);
    return overlaps;
  });
}

function after(one: { readonly end: number }, other: { readonly start: number }, ms: number): Distance {
  return { from: one.end, to: other.start, ms };
}
