/** What is taken up already on a day, and the hours in which it leaves no room. */
import type { Window } from '../../timeline/solve';
import { joined } from '../../timeline/solve';
import { COOLING_CELSIUS_PER_MINUTE, DUST, HEATING_CELSIUS_PER_MINUTE, RECOVERY_MINUTES, SHARED_CELSIUS, SHARED_MINUTES } from '../constants';
import { roomOf, type Limits, type Need } from './job';
import type { Stage } from './network';

/** So much of something from one moment to another. */
export interface Use {
  readonly startMs: number;
  readonly endMs: number;
  readonly amount: number;
}

/** A load in an oven. */
export interface OvenUse extends Use {
  /** Index into the chambers; those without a name are past the last of them. */
  readonly chamber: number;
  readonly stages: readonly Stage[];
}

/** All that one batch takes up. */
export interface Taking {
  readonly hands: readonly Use[];
  readonly mixer: readonly Use[];
  readonly fridge: readonly Use[];
  readonly pots: readonly Use[];
  readonly oven: readonly OvenUse[];
}

/** All that is taken up on a day so far. One batch is tried in many ways beside it, so what it leaves is worked out once. */
export interface Taken {
  readonly oven: readonly OvenUse[];
  readonly usesOf: (kind: Need['kind']) => readonly Use[];
  /** The windows in which there is no room for a need: for hands, hours off too. */
  readonly closedTo: (need: Pick<Need, 'kind' | 'amount'>) => readonly Window[];
}

const MS_PER_MINUTE = 60_000;

/** What several batches take up together. */
export function takenOf(takings: readonly Taking[], limits: Limits): Taken {
  const uses = new Map<Need['kind'], readonly Use[]>();
  const closed = new Map<string, readonly Window[]>();
  const usesOf = (kind: Need['kind']): readonly Use[] => {
    const known = uses.get(kind) ?? takings.flatMap((taking) => taking[kind]);
    uses.set(kind, known);
    return known;
  };
  return {
    oven: takings.flatMap(({ oven }) => oven), usesOf,
    closedTo: ({ kind, amount }) => {
      const key = `${kind} ${amount}`;
      let windows = closed.get(key);
      if (windows === undefined) {
        const room = roomOf(limits, kind);
        const full = room === Infinity ? [] : fullWindows(usesOf(kind), room - amount);
        windows = kind === 'hands' ? joined([...limits.hoursOff, ...full]) : full;
        closed.set(key, windows);
      }
      return windows;
    },
  };
}

/** The windows in which more than `room` is taken. */
export function fullWindows(uses: readonly Use[], room: number): readonly Window[] {
  if (uses.length === 0) return [];
  const moments = uses.flatMap(({ startMs, endMs, amount }) => (endMs > startMs ? [{ ms: startMs, amount }, { ms: endMs, amount: -amount }] : []))
    // What ends makes room for what begins at the same moment.
    .sort((a, b) => a.ms - b.ms || a.amount - b.amount);
  const windows: Window[] = [];
  let taken = 0;
  let since: number | undefined;
  for (const { ms, amount } of moments) {
    taken += amount;
    const full = taken > room + DUST;
    if (full && since === undefined) since = ms;
    else if (!full && since !== undefined) {
      windows.push({ startMs: since, endMs: ms });
      since = undefined;
    }
  }
  return joined(windows);
}

/** How long an oven needs between two loads: the door, and from one heat to the other. Heats that nobody wrote are taken for alike. */
export function betweenMs(before: readonly Stage[], after: readonly Stage[]): number {
  const [from, to] = [before.at(-1)?.celsius ?? null, after[0]?.celsius ?? null];
  const rise = from === null || to === null ? 0 : to - from;
  const minutes = rise > 0 ? rise / HEATING_CELSIUS_PER_MINUTE.value : -rise / COOLING_CELSIUS_PER_MINUTE.value;
  return Math.ceil(Math.max(RECOVERY_MINUTES.value, minutes)) * MS_PER_MINUTE;
}

/** Whether two loads may be in one oven together, going in and coming out as one. */
export function bakeAlike(one: readonly Stage[], other: readonly Stage[]): boolean {
  const near = SHARED_MINUTES.value * MS_PER_MINUTE;
  return one.length === other.length && one.every((stage, index) => {
    const beside = other[index];
    if (!beside || stage.celsius === null || beside.celsius === null) return false;
    return Math.abs(stage.celsius - beside.celsius) <= SHARED_CELSIUS.value && stage.lowMs <= beside.highMs + near && beside.lowMs <= stage.highMs + near;
  });
}

/** When an oven has no room for a load of its own: while others bake in it, and as long before and after as it needs for its heat. */
export function ovenWindows(uses: readonly OvenUse[], chamber: number, stages: readonly Stage[]): readonly Window[] {
  return joined(uses.filter((use) => use.chamber === chamber).map((use) => ({
    startMs: use.startMs - betweenMs(stages, use.stages), endMs: use.endMs + betweenMs(use.stages, stages),
  })));
}
