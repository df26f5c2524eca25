/** The solver against trying everything, on networks small enough for that. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { smallestConflict } from '../../../server/core/timeline/smallest';
import { earliestTimes, joined, latestTimes, type TimeNet, type Window } from '../../../server/core/timeline/solve';

const LAST = 8;
const windows = fc
  .array(fc.tuple(fc.integer({ min: -1, max: LAST }), fc.integer({ min: 1, max: 3 })), { maxLength: 3 })
  .map((found) => joined(found.map(([startMs, length]): Window => ({ startMs, endMs: startMs + length }))));
const net: fc.Arbitrary<TimeNet> = fc.integer({ min: 1, max: 4 }).chain((points) => {
  const point = fc.integer({ min: 0, max: points - 1 });
  const bounds = fc.array(fc.tuple(fc.integer({ min: 0, max: LAST }), fc.integer({ min: 0, max: LAST })), { minLength: points, maxLength: points });
  return fc.record({
    points: fc.constant(points),
    distances: fc.array(fc.record({ from: point, to: point, ms: fc.integer({ min: -5, max: 4 }) }), { maxLength: 5 }),
    keepOuts: fc.array(fc.record({ start: point, end: point, windows }), { maxLength: 3 }),
    bounds,
  }).map(({ bounds: pairs, ...rest }) => ({
    ...rest,
    earliestMs: pairs.map(([a, b]) => (a % 3 === 0 ? 0 : Math.min(a, b))),
    latestMs: pairs.map(([a, b]) => (b % 3 === 0 ? LAST : Math.max(a, b))),
  }));
});

/** Every answer of a net, by trying all whole times. */
function answersOf({ points, distances, keepOuts, earliestMs, latestMs }: TimeNet): readonly (readonly number[])[] {
  const found: number[][] = [];
  const times: number[] = [];
  const next = (point: number): void => {
    if (point === points) {
      const keeps = distances.every(({ from, to, ms }) => times[to]! - times[from]! >= ms)
        && keepOuts.every(({ start, end, windows: closed }) => closed.every((window) => times[end]! <= window.startMs || times[start]! >= window.endMs));
      if (keeps) found.push([...times]);
      return;
    }
    for (let time = earliestMs[point]!; time <= latestMs[point]!; time++) {
      times[point] = time;
      next(point + 1);
    }
  };
  next(0);
  return found;
}

describe('times that keep their distances and stay out of windows', () => {
  test('there are some just when trying everything finds some, and they are the latest and the earliest of those, point by point', () => {
    fc.assert(fc.property(net, (each) => {
      const answers = answersOf(each);
      const extreme = (pick: (...values: number[]) => number) =>
        answers.length === 0 ? undefined : each.earliestMs.map((_, point) => pick(...answers.map((times) => times[point]!)));
      expect(latestTimes(each)).toEqual(extreme(Math.max));
      expect(earliestTimes(each)).toEqual(extreme(Math.min));
    }), { numRuns: 2000 });
  });

  test('a stretch may end as a window opens and begin as it shuts', () => {
    const at = (towards: typeof latestTimes, latest: number, earliest: number) => towards({
      points: 2, distances: [{ from: 0, to: 1, ms: 3 }, { from: 1, to: 0, ms: -3 }],
      keepOuts: [{ start: 0, end: 1, windows: [{ startMs: 10, endMs: 20 }] }], latestMs: [100, latest], earliestMs: [earliest, -100],
    });
    expect(at(latestTimes, 22, -100)).toEqual([7, 10]);
    expect(at(latestTimes, 23, -100)).toEqual([20, 23]);
    expect(at(earliestTimes, 100, 8)).toEqual([20, 23]);
    expect(at(earliestTimes, 100, 7)).toEqual([7, 10]);
  });

  test('a circle that asks for more time than it has is found at once, however wide the bounds', () => {
    const circle: TimeNet = {
      points: 2, distances: [{ from: 0, to: 1, ms: 2 }, { from: 1, to: 0, ms: -1 }], keepOuts: [], latestMs: [1e15, 1e15], earliestMs: [-1e15, -1e15],
    };
    expect(latestTimes(circle)).toBeUndefined();
    expect(earliestTimes(circle)).toBeUndefined();
  });
});

describe('the smallest set of facts that cannot all hold', () => {
  const sets = fc.integer({ min: 1, max: 7 }).chain((count) => fc.record({
    count: fc.constant(count),
    clashes: fc.array(fc.uniqueArray(fc.integer({ min: 0, max: count - 1 }), { minLength: 1 }), { minLength: 1, maxLength: 6 }),
  }));

  test('clashes, and no smaller set does', () => {
    fc.assert(fc.property(sets, ({ count, clashes }) => {
      const holds = (facts: ReadonlySet<number>): boolean => !clashes.some((clash) => clash.every((fact) => facts.has(fact)));
      const found = smallestConflict(count, holds);
      expect(holds(new Set(found))).toBe(false);
      expect(found).toHaveLength(Math.min(...clashes.map((clash) => clash.length)));
    }), { numRuns: 1000 });
  });
});
