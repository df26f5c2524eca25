/** Bake days by their plan and what was asked: the first that was found is there at once, better ones are looked for in short turns. */
import { MOST_TRIES } from '../core/plan/constants';
import type { BakeDay } from '../core/plan/model';
import { scheduleDay } from '../core/plan/schedule/schedule';
import type { DayRequest, DaySchedule } from '../core/plan/schedule-model';

export interface KnownDay {
  readonly schedule: DaySchedule;
  /** No better one will be looked for. */
  readonly isFinal: boolean;
}

/** Tries of each turn: the search begins anew with more of them, so that it can be ended in between. */
const FIRST_TRIES = 8;
const TURNS = [24, MOST_TRIES] as const;

const remembered = new WeakMap<BakeDay, { readonly key: string; readonly known: KnownDay }>();

/** The best day known so far; the first that can be found when nobody asked before. */
export function knownDay(day: BakeDay, request: DayRequest): KnownDay {
  const key = JSON.stringify(request);
  const last = remembered.get(day);
  if (last?.key === key) return last.known;
  return remember(day, key, scheduledWith(day, request, FIRST_TRIES));
}

/**
 * Looks for a better day as long as one may be found and `goOn` says so; it is asked between turns, and told the share of the work that
 * is done. Gives the best that was found, and remembers it: whoever ended the search has seen enough.
 */
export async function bestDay(day: BakeDay, request: DayRequest, goOn: (doneShare: number) => Promise<boolean>): Promise<KnownDay> {
  const key = JSON.stringify(request);
  let known = knownDay(day, request);
  for (const tries of TURNS) {
    if (known.isFinal) break;
    if (!await goOn(tries / MOST_TRIES / 2)) return remember(day, key, { ...known, isFinal: true });
    known = remember(day, key, scheduledWith(day, request, tries));
  }
  return known;
}

function scheduledWith(day: BakeDay, request: DayRequest, most: number): KnownDay {
  let asked = 0;
  const schedule = scheduleDay(day, { ...request, mayGoOn: () => ++asked <= most });
  const wasEnded = asked > most && most < MOST_TRIES;
  return { schedule, isFinal: !wasEnded || (schedule.kind === 'scheduled' && schedule.proven) };
}

function remember(day: BakeDay, key: string, known: KnownDay): KnownDay {
  remembered.set(day, { key, known });
  return known;
}
