/**
 * The order in which batches are placed, and with it the day. Each is placed as well as those before it let it be; other orders, other
 * ovens and other sharings are tried as long as that may go on, always the same ones for the same day.
 */
import { nearMiddle } from '../../timeline/choose';
import { MOST_FIRST_TRIES, MOST_PLACED, MOST_TRIES } from '../constants';
import type { Job, Limits } from './job';
import { placeJob, replaced, type Around, type Choice, type Placement } from './place';

export interface Day {
  /** By job. */
  readonly placements: readonly Placement[];
  readonly startMs: number;
  readonly doneMs: number;
  /** When its batches are done, all together: of two days that begin at once, the fresher bread is the later. */
  readonly donesMs: number;
}

export type Searched =
  | { readonly kind: 'found'; readonly day: Day }
  /** The batch that found no place beside the others, in the best try. */
  | { readonly kind: 'stuck'; readonly job: Job };

/** How a day is tried: which batch is placed when, and how. */
interface Recipe {
  readonly order: readonly number[];
  readonly choices: readonly Choice[];
}

export interface SearchOptions {
  readonly limits: Limits;
  readonly aim: Around['aim'];
  readonly mayGoOn: () => boolean;
  /** True when no day can be better. */
  readonly isBest: (day: Day) => boolean;
  readonly tries?: number;
}

/** The best day that was found. */
export function searchDay(jobs: readonly Job[], options: SearchOptions): Searched {
  const { aim, mayGoOn, isBest, tries = Math.min(MOST_TRIES, Math.ceil(MOST_PLACED / Math.max(1, jobs.length))) } = options;
  const random = randomFrom(jobs.length);
  let recipe = firstRecipe(jobs, options);
  let best: Day | undefined;
  let stuck: Job | undefined;
  for (let count = 0; count <= tries; count++) {
    if (count > 0 && (!mayGoOn() || (best === undefined ? count > MOST_FIRST_TRIES : isBest(best)))) break;
    const tried = count === 0 ? recipe : best === undefined && stuck ? firstOf(recipe, stuck.index) : changed(recipe, random);
    const found = built(jobs, tried, options);
    if (found.kind === 'stuck') {
      // Until a day stands, go on from here: what found no place comes first next time.
      if (best === undefined) recipe = tried;
      stuck = found.job;
    } else if (best === undefined || !isBetterDay(best, found.day, aim)) {
      recipe = tried;
      best = found.day;
    }
  }
  return best ? { kind: 'found', day: best } : { kind: 'stuck', job: stuck ?? (jobs[0] as Job) };
}

function isBetterDay(one: Day, other: Day, aim: Around['aim']): boolean {
  if (aim === 'latest-start') return one.startMs > other.startMs || (one.startMs === other.startMs && one.donesMs > other.donesMs);
  return one.doneMs < other.doneMs || (one.doneMs === other.doneMs && one.donesMs < other.donesMs);
}

/** Longest first: it has the least to give. */
function firstRecipe(jobs: readonly Job[], { limits, aim }: SearchOptions): Recipe {
  const alone = jobs.map((job) => placeJob(job, { limits, taken: [], aim }, { turn: 0, sharing: false }));
  const spanMs = (job: number): number => {
    const own = alone[job];
    return own ? own.doneMs - own.startMs : Infinity;
  };
  return {
    order: [...jobs.keys()].sort((a, b) => spanMs(b) - spanMs(a) || a - b),
    choices: jobs.map((_, index) => ({ turn: index, sharing: true })),
  };
}

function built(jobs: readonly Job[], { order, choices }: Recipe, { limits, aim }: SearchOptions): Searched {
  const placements = new Map<number, Placement>();
  for (const index of order) {
    const [job, choice] = [jobs[index], choices[index]];
    if (!job || !choice) continue;
    const placed = placeJob(job, { limits, taken: [...placements.values()].map(({ taking }) => taking), aim }, choice);
    if (!placed) return { kind: 'stuck', job };
    placements.set(index, placed);
  }
  return { kind: 'found', day: dayOf(jobs.flatMap(({ index }) => placements.get(index) ?? [])) };
}

function dayOf(placements: readonly Placement[]): Day {
  return {
    placements,
    startMs: placements.reduce((least, { startMs }) => Math.min(least, startMs), Infinity),
    doneMs: placements.reduce((most, { doneMs }) => Math.max(most, doneMs), -Infinity),
    donesMs: placements.reduce((sum, { doneMs }) => sum + doneMs, 0),
  };
}

/**
 * The same day with every length as near the middle of its range as it may be without beginning earlier or being done later: a baker
 * plans for 75 minutes where 70 to 80 are written.
 */
export function relaxed({ placements, startMs, doneMs }: Day, limits: Limits): Day {
  const now = [...placements];
  now.forEach((placement, index) => {
    const taken = now.flatMap(({ taking }, other) => (other === index ? [] : [taking]));
    const around: Around = { limits, taken, aim: 'latest-start' };
    const boxes = nearMiddle(placement.job.of.network, (tried) => replaced(placement, around, tried, { fromMs: startMs, toMs: doneMs }) !== undefined);
    now[index] = replaced(placement, around, boxes, { fromMs: startMs, toMs: doneMs }) ?? placement;
  });
  return dayOf(now);
}

// --- other tries ----------------------------------------------------------------------------------------------------

function firstOf({ order, choices }: Recipe, job: number): Recipe {
  return { order: [job, ...order.filter((index) => index !== job)], choices };
}

/** A batch is placed earlier or later, two change places, or one is put into another oven, or shares one or does not. */
function changed({ order, choices }: Recipe, random: (below: number) => number): Recipe {
  const [one, other] = [random(order.length), random(order.length)];
  const move = random(4);
  if (order.length > 1 && move === 0) {
    const moved = order.filter((index) => index !== order[one]);
    return { order: [...moved.slice(0, other), order[one] ?? 0, ...moved.slice(other)], choices };
  }
  if (order.length > 1 && move < 3) {
    const swapped = [...order];
    [swapped[one], swapped[other]] = [order[other] ?? 0, order[one] ?? 0];
    return { order: swapped, choices };
  }
  const turned = random(2) === 0;
  return {
    order,
    choices: choices.map((choice, index) => (index !== one ? choice : turned ? { ...choice, turn: choice.turn + 1 } : { ...choice, sharing: !choice.sharing })),
  };
}

/** Whole numbers below a limit, always the same (mulberry32, a public-domain generator of 32 bits; from memory). */
function randomFrom(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) % Math.max(1, below);
  };
}
