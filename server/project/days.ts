/** Bake days by their plan and what was asked: the first that is found is there soon, and the same search goes on to better ones in short turns. */
import { MOST_PLACED } from '../core/plan/constants';
import type { BakeDay } from '../core/plan/model';
import { scheduleSteps } from '../core/plan/schedule/schedule';
import type { Steps } from '../core/plan/schedule/search';
import type { DayRequest, DaySchedule } from '../core/plan/schedule-model';
import { turn, TURN_MS } from './turns';

export interface KnownDay {
  readonly schedule: DaySchedule;
  /** No better one will be looked for. */
  readonly isFinal: boolean;
}

interface Search {
  readonly key: string;
  readonly steps: Steps<DaySchedule, DaySchedule>;
  known: KnownDay | undefined;
  mayGoOn: boolean;
  /** Steps taken so far. */
  taken: number;
}

const searches = new WeakMap<BakeDay, Search>();

/** The best day known so far; the first that can be found when nobody asked before. */
export function knownDay(day: BakeDay, request: DayRequest): KnownDay {
  const search = searchFor(day, request);
  while (search.known === undefined) step(search);
  return search.known;
}

/**
 * Looks for the first day in turns, so that others are heard meanwhile; false when `goOn`, asked after each turn, ended that. What was done is kept,
 * and a later call goes on from there.
 */
export async function firstDay(day: BakeDay, request: DayRequest, goOn: () => boolean): Promise<boolean> {
  const search = searchFor(day, request);
  while (search.known === undefined) {
    inTurn(search, () => search.known === undefined);
    await turn();
    if (!goOn()) return search.known !== undefined;
  }
  return true;
}

/**
 * Looks for a better day as long as one may be found and `goOn`, asked after each turn and told about how much is done, 0 to 1, says so. Gives the best that was found, and remembers it:
 * whoever ended the search has seen enough.
 */
export async function bestDay(day: BakeDay, request: DayRequest, goOn: (doneShare: number) => Promise<boolean>): Promise<KnownDay> {
  const search = searchFor(day, request);
  for (;;) {
    inTurn(search, () => search.known?.isFinal !== true);
    if (search.known?.isFinal === true) return search.known;
    await turn();
    search.mayGoOn &&= await goOn(search.taken / (search.taken + MOST_PLACED));
  }
}

function inTurn(search: Search, more: () => boolean): void {
  for (const started = performance.now(); more() && performance.now() - started < TURN_MS;) step(search);
}

function step(search: Search): void {
  const { done, value } = search.steps.next();
  search.taken++;
  if (value !== undefined) search.known = { schedule: value, isFinal: done === true };
}

function searchFor(day: BakeDay, request: DayRequest): Search {
  const key = JSON.stringify(request);
  const last = searches.get(day);
  if (last?.key === key) return last;
  const search: Search = { key, known: undefined, mayGoOn: true, taken: 0, steps: scheduleSteps(day, { ...request, mayGoOn: () => search.mayGoOn }) };
  searches.set(day, search);
  return search;
}
