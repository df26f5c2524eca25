/**
 * Times that keep their distances and stay out of forbidden hours: a simple temporal network whose points may also be
 * kept out of windows.
 *
 * Everything said here is of a kind that is kept by the later, and by the earlier, of two answers point by point: a
 * least distance between two points, a bound on one, and "over by the time the window opens, or not begun until it shuts". So
 * all answers together have a latest and an earliest, in which every point is at once as late, or as early, as it can be in
 * any answer. Both are found by moving points only when something forces them, which takes polynomial time and needs no
 * guessing, however many windows there are. (Simple temporal networks: Dechter, Meiri and Pearl, Artificial
 * Intelligence 49, 1991. Constraints closed under the greater of two answers: Jeavons and Cooper, Artificial
 * Intelligence 79, 1995. Both from memory.)
 */

/** Point `to` comes at least `ms` after point `from`. With a negative `ms`: `from` comes at most `-ms` after `to`. */
export interface Distance {
  readonly from: number;
  readonly to: number;
  readonly ms: number;
}

/** A stretch of time that is closed: open at its two ends, so that work may end as it begins, and begin as it ends. */
export interface Window {
  readonly startMs: number;
  readonly endMs: number;
}

/** What goes on from point `start` to point `end` touches none of the windows. A moment has the same point twice. */
export interface KeepOut {
  readonly start: number;
  readonly end: number;
  /** In order, none touching the next. */
  readonly windows: readonly Window[];
}

/** Points are numbers from 0; a time is in ms from any moment, the same for all. */
export interface TimeNet {
  readonly points: number;
  readonly distances: readonly Distance[];
  readonly keepOuts: readonly KeepOut[];
  /** The latest and the earliest time of each point. All are finite: nothing is planned without end. */
  readonly latestMs: readonly number[];
  readonly earliestMs: readonly number[];
}

/** Every point as late as it is in any answer; undefined when there is none. */
export function latestTimes(net: TimeNet): readonly number[] | undefined {
  return pushed(net, 'latest');
}

/** Every point as early as it is in any answer; undefined when there is none. */
export function earliestTimes(net: TimeNet): readonly number[] | undefined {
  return pushed(net, 'earliest');
}

/**
 * Windows in order of their start, those that touch or overlap as one. Drops what has no length.
 */
export function joined(windows: readonly Window[]): readonly Window[] {
  const result: Window[] = [];
  for (const window of windows.filter(({ startMs, endMs }) => endMs > startMs).sort((a, b) => a.startMs - b.startMs)) {
    const last = result.at(-1);
    if (last && window.startMs <= last.endMs) result[result.length - 1] = { startMs: last.startMs, endMs: Math.max(last.endMs, window.endMs) };
    else result.push(window);
  }
  return result;
}

/**
 * From the bounds inwards, until nothing is forced. Between two moves that a window forces, a point of a network that
 * holds together comes up at most once for each point there is; one that comes up more often is on a circle that asks for
 * more time than it has. Each window moves a stretch at most once, since it is past it afterwards.
 *
 * Plain arrays of numbers: a schedule tries thousands of nets.
 */
function pushed({ points, distances, keepOuts, latestMs, earliestMs }: TimeNet, towards: 'latest' | 'earliest'): readonly number[] | undefined {
  const late = towards === 'latest';
  const times = Float64Array.from(late ? latestMs : earliestMs);
  for (let point = 0; point < points; point++) if (at(earliestMs, point) > at(latestMs, point)) return undefined;

  // The distances that a point's move may force another by, as a chain for each point.
  const first = new Int32Array(points).fill(-1);
  const next = new Int32Array(distances.length);
  distances.forEach(({ from, to }, index) => {
    const mover = late ? to : from;
    next[index] = at(first, mover);
    first[mover] = index;
  });

  // A ring of points whose moves have not been looked at. What follows most often has the greater number, so that a chain is gone along once.
  const ring = new Int32Array(points);
  for (let index = 0; index < points; index++) ring[index] = late ? points - 1 - index : index;
  const waits = new Uint8Array(points).fill(1);
  const turns = new Int32Array(points);
  let head = 0;
  let waiting = points;
  /** Moves a point; false when that leaves it beyond its other bound. */
  const move = (point: number, ms: number): boolean => {
    times[point] = ms;
    if (waits[point] === 0) {
      waits[point] = 1;
      ring[(head + waiting++) % points] = point;
    }
    return late ? ms >= at(earliestMs, point) : ms <= at(latestMs, point);
  };

  for (;;) {
    turns.fill(0);
    while (waiting > 0) {
      const point = at(ring, head);
      head = (head + 1) % points;
      waiting--;
      waits[point] = 0;
      const turn = at(turns, point) + 1;
      if (turn > points + 1) return undefined;
      turns[point] = turn;
      for (let index = at(first, point); index >= 0; index = at(next, index)) {
        const distance = distances[index];
        if (!distance) break;
        const other = late ? distance.from : distance.to;
        const limit = late ? at(times, point) - distance.ms : at(times, point) + distance.ms;
        if ((late ? at(times, other) > limit : at(times, other) < limit) && !move(other, limit)) return undefined;
      }
    }
    for (const keepOut of keepOuts) {
      const forced = late ? endForced(keepOut, times) : startForced(keepOut, times);
      if (forced !== undefined && !move(late ? keepOut.end : keepOut.start, forced)) return undefined;
    }
    if (waiting === 0) return [...times];
  }
}

/** An element that is there. */
function at(numbers: { readonly [index: number]: number | undefined }, index: number): number {
  return numbers[index] ?? NaN;
}

/** Where the end must be, since at its latest the stretch would lie in a window; undefined when it does not. */
function endForced({ start, end, windows }: KeepOut, times: Float64Array): number | undefined {
  const startMs = at(times, start);
  const endMs = at(times, end);
  let forced: number | undefined;
  // A window further back may be the next in the way once the end has moved, while the start has not yet.
  for (let index = lastBefore(windows, endMs); index >= 0; index--) {
    const window = windows[index];
    if (!window || window.endMs <= startMs) break;
    forced = window.startMs;
  }
  return forced;
}

/** Where the start must be, since at its earliest the stretch would lie in a window; undefined when it does not. */
function startForced({ start, end, windows }: KeepOut, times: Float64Array): number | undefined {
  const startMs = at(times, start);
  const endMs = at(times, end);
  let forced: number | undefined;
  for (let index = firstAfter(windows, startMs); index < windows.length; index++) {
    const window = windows[index];
    if (!window || window.startMs >= endMs) break;
    forced = window.endMs;
  }
  return forced;
}

/** The last window that begins before a moment; -1 if none does. */
function lastBefore(windows: readonly Window[], ms: number): number {
  return firstWhere(windows, ({ startMs }) => startMs >= ms) - 1;
}

/** The first window that ends after a moment. */
function firstAfter(windows: readonly Window[], ms: number): number {
  return firstWhere(windows, ({ endMs }) => endMs > ms);
}

/** Of windows in order, the first for which something holds that holds for all that follow it. */
function firstWhere(windows: readonly Window[], holds: (window: Window) => boolean): number {
  let low = 0;
  let high = windows.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const window = windows[middle];
    if (window && holds(window)) high = middle;
    else low = middle + 1;
  }
  return low;
}
