/**
 * How good a day could be at the best: a time before which no day of these doughs and loads begins, whatever its order. Each bound leaves
 * something out of account, so that what it says is true of every day there is.
 */
import { boundedNet, endPoint, startPoint, type Pin } from '../../timeline/net';
import { earliestTimes, joined, latestTimes, type KeepOut, type Window } from '../../timeline/solve';
import { DUST, RECOVERY_MINUTES } from '../constants';
import type { Job, Limits } from './job';
import type { Around } from './place';
import { bakeAlike } from './taken';

const MS_PER_MINUTE = 60_000;

/** The latest that a day can begin, or the earliest that one can be done. */
export function boundOf(jobs: readonly Job[], limits: Limits, aim: Around['aim']): number {
  return aim === 'latest-start' ? latestStart(jobs, limits) : earliestEnd(jobs, limits);
}

function latestStart(jobs: readonly Job[], limits: Limits): number {
  // Each batch by itself.
  const alone = jobs.map((job) => startOf(job, alonePlaced(job, limits, 'latest-start', [])));
  // The ovens: when the first load must be in at the latest, and what the batch that is first needs before it.
  const ovens = ovenWork(jobs, limits);
  const lastOut = Math.max(...jobs.map((job) => endOfOven(job, limits)));
  const firstIn = ovens.ms > 0 ? Math.min(lastOut - ovens.ms - ovens.recoveriesMs, workedBack(lastOut, ovens.ms, ovens.off)) : Infinity;
  const first = Math.max(...jobs.map((job) => {
    const pins = job.bakes.map(({ start }): Pin => ({ point: start, latest: firstIn }));
    return pins.length === 0 ? -Infinity : bestFirst(job, limits, pins, alone[job.index] ?? Infinity);
  }));
  // The hands.
  const ready = Math.max(...jobs.map(({ toMs }) => toMs));
  const handed = limits.hands === Infinity ? Infinity : workedBack(ready, handsMs(jobs) / limits.hands, limits.hoursOff);
  return Math.min(...alone, ovens.ms > 0 ? first : Infinity, handed);
}

/** Of a batch that is the first in the oven, by whichever of its loads: the latest that it can begin. */
function bestFirst(job: Job, limits: Limits, pins: readonly Pin[], alone: number): number {
  return Math.max(...pins.map((pin) => Math.min(alone, startOf(job, alonePlaced(job, limits, 'latest-start', [pin])))));
}

function earliestEnd(jobs: readonly Job[], limits: Limits): number {
  const alone = jobs.map((job) => endOf(job, alonePlaced(job, limits, 'earliest-end', [])));
  const ovens = ovenWork(jobs, limits);
  let last = -Infinity;
  if (ovens.ms > 0) {
    const firstIn = Math.min(...jobs.map((job) => startOfOven(job, limits)));
    const lastOut = Math.max(firstIn + ovens.ms + ovens.recoveriesMs, workedOn(firstIn, ovens.ms, ovens.off));
    // Whichever comes out last still has to cool.
    last = Math.min(...jobs.flatMap((job) => job.bakes.map(({ end }) => {
      const times = alonePlaced(job, limits, 'earliest-end', [{ point: end, earliest: lastOut }]);
      return times ? endOf(job, times) : Infinity;
    })));
  }
  const handed = limits.hands === Infinity ? -Infinity : workedOn(Math.min(...jobs.map(({ fromMs }) => fromMs)), handsMs(jobs) / limits.hands, limits.hoursOff);
  return Math.max(...alone, last === Infinity ? -Infinity : last, handed);
}

/** A batch as if it had the bakery to itself, with an oven that somebody else has heated. */
function alonePlaced(job: Job, limits: Limits, aim: Around['aim'], pins: readonly Pin[]): readonly number[] | undefined {
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
  /** Baking, ms of every oven. */
  readonly ms: number;
  /** An oven coming back to its heat, which it may also do while everybody sleeps. */
  readonly recoveriesMs: number;
  /** Hours in which no bake can lie. */
  readonly off: readonly Window[];
}

/**
 * How long the ovens are at work at the least: each load for the shortest bake, or as much of that as it fills where it may share, and an oven coming back to its heat
 * between as many rounds as there must be. A bake that is shorter than all hours off cannot lie in any.
 */
function ovenWork(jobs: readonly Job[], limits: Limits): OvenWork {
  const loads = jobs.flatMap(({ bakes }) => bakes.map(({ stay, fills }) => ({
    stages: stay.stages,
    ms: stay.stages.reduce((sum, { lowMs }) => sum + lowMs, 0),
    mostMs: stay.stages.reduce((sum, { highMs }) => sum + highMs, 0),
    fill: Math.min(1, ...fills.flatMap((fill) => fill ?? [])),
  })));
  if (limits.chambers === 0 || loads.length === 0) return { ms: 0, recoveriesMs: 0, off: [] };
  // What can go in with no other load has an oven to itself.
  const shares = loads.map((load, index) => (
    loads.some((other, at) => at !== index && load.fill + other.fill <= 1 + DUST && bakeAlike(load.stages, other.stages)) ? load.fill : 1
  ));
  const rounds = Math.ceil(shares.reduce((sum, share) => sum + share, 0) - DUST);
  const longest = Math.max(...loads.map(({ mostMs }) => mostMs));
  const attended = jobs.every(({ bakes, of }) => bakes.every(({ stay }) => {
    const [first, last] = [of.network.nodes[stay.first]?.work, of.network.nodes[stay.last]?.work];
    return (first?.handsOn === true || first?.handAtStart === true) && (last?.handsOn === true || last?.handAtEnd === true);
  }));
  return {
    ms: loads.reduce((sum, { ms }, index) => sum + ms * (shares[index] ?? 1), 0) / limits.chambers,
    recoveriesMs: (Math.max(0, rounds - limits.chambers) * RECOVERY_MINUTES.value * MS_PER_MINUTE) / limits.chambers,
    off: attended ? limits.hoursOff.filter(({ startMs, endMs }) => endMs - startMs > longest) : [],
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
