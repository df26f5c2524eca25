/**
 * How good a day could be at the best: a time before which no day of these doughs and loads begins, whatever its order. Each bound leaves
 * something out of account, so that what it says is true of every day there is.
 */
import { boundedNet, endPoint, startPoint, type Pin } from '../../timeline/net';
import { earliestTimes, joined, latestTimes, type KeepOut, type Window } from '../../timeline/solve';
import { DUST, RECOVERY_MINUTES } from '../constants';
import type { Job, Limits } from './job';
import type { Aim } from './place';
import type { Steps } from './search';
import { bakeAlike } from './taken';

const MS_PER_MINUTE = 60_000;

/** The latest that a day can begin, or the earliest that one can be done. */
export function* boundOf(jobs: readonly Job[], limits: Limits, aim: Aim): Steps<number> {
  const handsOf = limits.hands === Infinity ? 0 : handsMs(jobs) / limits.hands;
  const alone: number[] = [];
  for (const job of jobs) {
    yield;
    const times = alonePlaced(job, limits, aim, []);
    alone.push(aim === 'latest-start' ? startOf(job, times) : endOf(job, times));
  }
  const ovens = yield* ovenBound(jobs, limits, aim);
  switch (aim) {
    case 'latest-start': return Math.min(...alone, ovens, workedBack(Math.max(...jobs.map(({ toMs }) => toMs)), handsOf, limits.hoursOff));
    case 'earliest-end': return Math.max(...alone, ovens, workedOn(Math.min(...jobs.map(({ fromMs }) => fromMs)), handsOf, limits.hoursOff));
  }
}

/**
 * What does not go into the ovens after a moment must go in before it: of the loads whose baking is too much for the time from then to the last one
 * out, those that can begin the latest. Asked for several moments, for each says something true. The same the other way round for a day that is to be
 * over soon.
 */
function* ovenBound(jobs: readonly Job[], limits: Limits, aim: Aim): Steps<number> {
  const late = aim === 'latest-start';
  const { loads, recoveryMs, off } = ovenWork(jobs, limits);
  if (loads.length === 0) return late ? Infinity : -Infinity;
  const edgeMs = late ? Math.max(...jobs.map((job) => endOfOven(job, limits))) : Math.min(...jobs.map((job) => startOfOven(job, limits)));
  const allMs = loads.reduce((sum, { workMs }) => sum + workMs, 0) / limits.chambers;
  const withRecoveriesMs = loads.reduce((sum, { workMs, share }) => sum + workMs + share * recoveryMs, 0) / limits.chambers - recoveryMs;
  const reaches = late
    ? [edgeMs - withRecoveriesMs, workedBack(edgeMs, allMs, off)]
    : [edgeMs + withRecoveriesMs, workedOn(edgeMs, allMs, off)];
  const farMs = late ? Math.min(...reaches) : Math.max(...reaches);
  const within = (ms: number): boolean => (late ? ms > farMs && ms < edgeMs : ms < farMs && ms > edgeMs);
  const moments = [
    ...reaches.map((ms) => (late ? Math.floor(ms) + 1 : Math.ceil(ms) - 1)),
    ...limits.hoursOff.flatMap(({ startMs, endMs }) => [startMs, endMs]),
    ...Array.from({ length: MOMENTS }, (_, index) => Math.round(farMs + ((edgeMs - farMs) * (index + 1)) / (MOMENTS + 1))),
  ].filter(within);
  let bound = late ? Infinity : -Infinity;
  for (const momentMs of new Set(moments)) {
    yield;
    const [fromMs, toMs] = late ? [momentMs, edgeMs] : [edgeMs, momentMs];
    const awakeMs = limits.chambers * (toMs - fromMs - off.reduce((sum, window) => sum + Math.max(0, Math.min(toMs, window.endMs) - Math.max(fromMs, window.startMs)), 0));
    const wallMs = limits.chambers * (toMs - fromMs + recoveryMs);
    // Each load as the one that is on the far side of the moment: when its batch begins, or is over, at the best.
    const bests = jobs.map((job) => {
      const [bake] = job.bakes;
      if (!bake) return late ? -Infinity : Infinity;
      const pin: Pin = late ? { point: bake.start, latest: momentMs } : { point: bake.end, earliest: momentMs };
      const times = alonePlaced(job, limits, aim, [pin]);
      return late ? startOf(job, times) : times ? endOf(job, times) : Infinity;
    });
    const inOrder = loads.map((load) => ({ ...load, bestMs: bests[load.job] ?? 0 })).sort((a, b) => (late ? b.bestMs - a.bestMs : a.bestMs - b.bestMs));
    for (const [needMs, of] of [[allMs * limits.chambers - awakeMs, 0], [(withRecoveriesMs + recoveryMs) * limits.chambers - wallMs, recoveryMs]] as const) {
      let left = needMs;
      // A minute of dust is no load.
      if (left <= 1) continue;
      for (const { workMs, share, bestMs } of inOrder) {
        left -= workMs + share * of;
        if (left > 1) continue;
        bound = late ? Math.min(bound, bestMs) : Math.max(bound, bestMs);
        break;
      }
    }
  }
  return bound;
}

/** Moments between the first load and the last at which the ovens are looked at, beside those that hours off give. */
const MOMENTS = 8;


/** A batch as if it had the bakery to itself, with an oven that somebody else has heated. */
function alonePlaced(job: Job, limits: Limits, aim: Aim, pins: readonly Pin[]): readonly number[] | undefined {
  const preheats = new Set(job.of.preheats.flatMap((node) => [startPoint(node), endPoint(node)]));
  const keepOuts = job.moments.filter(({ start }) => !preheats.has(start));
  const hands = handsKeepOuts(job, limits);
  const dones = job.of.lasts.map((node): Pin => ({ point: endPoint(node), earliest: job.doneFromMs }));
  const net = boundedNet(job.of.network, job.distances, [...keepOuts, ...hands], { fromMs: job.fromMs, toMs: job.toMs }, [...pins, ...dones]);
  return aim === 'latest-start' ? latestTimes(net) : earliestTimes(net);
}

function handsKeepOuts(job: Job, { hoursOff }: Limits): readonly KeepOut[] {
  return job.needs.filter(({ kind }) => kind === 'hands').map(({ start, end }) => ({ start, end, windows: hoursOff }));
}

/** The first work, a preheating left out: the oven may be hot. Without any times, the worst that can be said. */
function startOf(job: Job, times: readonly number[] | undefined): number {
  if (!times) return -Infinity;
  const preheats = new Set(job.of.preheats);
  return job.of.network.nodes.reduce((least, { work }, node) => (work && !preheats.has(node) ? Math.min(least, times[startPoint(node)] ?? Infinity) : least), Infinity);
}

function endOf(job: Job, times: readonly number[] | undefined): number {
  return times ? job.of.lasts.reduce((most, node) => Math.max(most, times[endPoint(node)] ?? -Infinity), -Infinity) : -Infinity;
}

function endOfOven(job: Job, limits: Limits): number {
  const times = alonePlaced(job, limits, 'latest-start', []);
  return times ? Math.max(-Infinity, ...job.bakes.map(({ end }) => times[end] ?? -Infinity)) : -Infinity;
}

function startOfOven(job: Job, limits: Limits): number {
  const times = alonePlaced(job, limits, 'earliest-end', []);
  return times ? Math.min(Infinity, ...job.bakes.map(({ start }) => times[start] ?? Infinity)) : Infinity;
}

interface OvenWork {
  readonly loads: readonly {
    /** Position in the jobs. */
    readonly job: number;
    /** How much of an oven it takes for itself, 0 to 1, and how long that is at work for it at the least. */
    readonly share: number;
    readonly workMs: number;
  }[];
  /** An oven coming back to its heat, which it may also do while everybody sleeps. */
  readonly recoveryMs: number;
  /** Hours in which no bake can lie. */
  readonly off: readonly Window[];
}

/**
 * How long the ovens are at work at the least: each load for the shortest bake, or as much of that as it fills where it may share. A bake
 * that is shorter than all hours off cannot lie in any.
 */
function ovenWork(jobs: readonly Job[], { chambers, hoursOff }: Limits): OvenWork {
  const recoveryMs = RECOVERY_MINUTES.value * MS_PER_MINUTE;
  const loads = chambers === 0 ? [] : jobs.flatMap(({ bakes }, job) => bakes.map(({ stay, fills }) => ({
    job,
    stages: stay.stages,
    ms: stay.stages.reduce((sum, { lowMs }) => sum + lowMs, 0),
    mostMs: stay.stages.reduce((sum, { highMs }) => sum + highMs, 0),
    fill: Math.min(1, ...fills.flatMap((fill) => fill ?? [])),
  })));
  const longest = Math.max(0, ...loads.map(({ mostMs }) => mostMs));
  const attended = jobs.every(({ bakes, of }) => bakes.every(({ stay }) => {
    const [first, last] = [of.network.nodes[stay.first]?.work, of.network.nodes[stay.last]?.work];
    return (first?.handsOn === true || first?.handAtStart === true) && (last?.handsOn === true || last?.handAtEnd === true);
  }));
  return {
    recoveryMs, off: attended ? joined(hoursOff).filter(({ startMs, endMs }) => endMs - startMs > longest) : [],
    loads: loads.map(({ job, stages, ms, fill }, index) => {
      // What can go in with no other load has an oven to itself.
      const shares = loads.some((other, at) => at !== index && fill + other.fill <= 1 + DUST && bakeAlike(stages, other.stages));
      const share = shares ? fill : 1;
      return { job, share, workMs: ms * share };
    }),
  };
}

/** All that hands do at the least. What parts need is left out: some of it is shared. */
function handsMs(jobs: readonly Job[]): number {
  return jobs.reduce((sum, { of: { network } }) => sum + network.nodes.reduce((own, { work, length, sequence }) => (work?.handsOn && sequence === undefined ? own + length.lowMs : own), 0), 0);
}

/** From when on so much work is done by a moment, where nobody works in the windows. */
function workedBack(endMs: number, workMs: number, off: readonly Window[]): number {
  let [at, left] = [endMs, workMs];
  for (const window of [...joined(off)].reverse()) {
    if (window.startMs >= at) continue;
    const free = at - window.endMs;
    if (free >= left) break;
    left -= Math.max(0, free);
    at = Math.min(at, window.startMs);
  }
  return at - left;
}

/** When so much work is done from a moment on. */
function workedOn(startMs: number, workMs: number, off: readonly Window[]): number {
  let [at, left] = [startMs, workMs];
  for (const window of joined(off)) {
    if (window.endMs <= at) continue;
    const free = window.startMs - at;
    if (free >= left) break;
    left -= Math.max(0, free);
    at = Math.max(at, window.endMs);
  }
  return at + left;
}
