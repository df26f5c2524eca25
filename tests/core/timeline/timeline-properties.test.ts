import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PlacedStep, ResolvedFormula } from '../../../server/core/formula/model';
import type { HoursOff, Timeline, TimelineRequest, TimelineStep } from '../../../server/core/timeline/model';
import { timelineOf } from '../../../server/core/timeline/timeline';
import { windowsOf } from '../../../server/core/timeline/windows';
import { formulaOf, type Placed } from './placed';

const MS_PER_MINUTE = 60_000;
const ZONE = 'Europe/Lisbon';

// --- formulas as bakers may write them, by chance -------------------------------------------------------------------

const duration = fc.oneof(
  { weight: 3, arbitrary: fc.integer({ min: 1, max: 900 }).map((minutes) => ` ${minutes} min`) },
  fc.tuple(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 1, max: 400 })).map(([low, more]) => ` ${low} to ${low + more} min`),
  fc.integer({ min: 1, max: 400 }).map((seconds) => ` ${seconds} s`),
  fc.constant(''),
);
const PLAIN_KINDS = ['mix', 'knead', 'rest', 'divide', 'shape', 'proof', 'retard', 'preheat', 'score', 'boil', 'bake', 'cool', 'glaze', 'fill', 'fold'];
const plainStep = fc.tuple(fc.constantFrom(...PLAIN_KINDS), duration).map(([kind, time]) => `  ${kind}${time}`);
const fold = fc.oneof(
  fc.integer({ min: 0, max: 300 }).map((minutes) => `    fold at ${minutes} min`),
  fc.tuple(fc.integer({ min: 10, max: 90 }), fc.integer({ min: 1, max: 5 })).map(([every, times]) => `    coil fold every ${every} min, ${times} times`),
  fc.constant('    fold 3 min'),
);
const bulk = fc.tuple(duration, fc.array(fold, { maxLength: 4 })).map(([time, folds]) => [`  bulk${time}`, ...folds].join('\n'));
const steps = (maxLength: number): fc.Arbitrary<readonly string[]> =>
  fc.array(fc.oneof({ weight: 3, arbitrary: plainStep }, bulk), { maxLength });
const partSteps = fc.array(fc.tuple(fc.constantFrom('ripen', 'soak', 'rest', 'chill', 'mix', 'boil'), duration).map(([kind, time]) => `  ${kind}${time}`), { maxLength: 3 });

const PART_HEADS = ['levain', 'soaker', 'scald', 'filling', 'topping', 'glaze', 'part'];
interface PartDraft {
  readonly head: string;
  readonly steps: readonly string[];
  /** Which earlier parts it takes in, by a number that is cut down to those there are. */
  readonly takes: readonly number[];
}
const partDraft: fc.Arbitrary<PartDraft> = fc.record({
  head: fc.constantFrom(...PART_HEADS), steps: partSteps, takes: fc.array(fc.nat(), { maxLength: 2 }),
});

/** A formula in bake text: parts that take in earlier ones, a dough that takes in some, a method that adds some. */
const formulaText = fc
  .record({
    parts: fc.array(partDraft, { maxLength: 5 }),
    method: steps(8),
    doughTakes: fc.array(fc.nat(), { maxLength: 3 }),
    adds: fc.array(fc.nat(), { maxLength: 3 }),
  })
  .filter(({ parts, method }) => method.length > 0 || parts.some((part) => part.steps.length > 0))
  .map(({ parts, method, doughTakes, adds }) => {
    const names = parts.map((_, index) => `batch ${'abcde'[index]}`);
    const taken = (numbers: readonly number[], among: number): readonly string[] =>
      [...new Set(numbers.map((number) => number % Math.max(1, among)))].flatMap((index) => (index < among ? [`  10 g ${names[index]}`] : []));
    const blocks = parts.map(({ head, steps: own, takes }, index) =>
      [`${head} "${names[index]}"`, '  50 g rye flour', '  50 g water', ...taken(takes, index), ...own].join('\n'));
    const lines = method.map((line, index) => {
      const add = adds[index];
      return add === undefined || names.length === 0 || line.includes('\n') ? line : `${line}, add ${names[add % names.length]}`;
    });
    return [
      'formula "By chance"\n', ...blocks,
      ['dough', '  500 g bread flour', '  300 g water', ...taken(doughTakes, names.length)].join('\n'),
      ['steps', ...lines].join('\n'),
    ].join('\n\n') + '\n';
  });

const anchorMs = fc.integer({ min: Date.UTC(2020, 0, 1), max: Date.UTC(2035, 0, 1) });

function at(formula: ResolvedFormula, kind: 'start' | 'ready', epochMs: number): Placed {
  const result: Timeline = timelineOf(formula, { anchor: { kind, epochMs }, zone: ZONE });
  if (result.kind !== 'placed') throw new Error(JSON.stringify(result));
  return result;
}

/** Steps of one sequence that follow one another: no folds, and no preheats, which overlap what is before them. */
function spineOf({ steps: all }: Placed, prefix: string): readonly TimelineStep[] {
  return all.filter(({ id, kind }) => id.startsWith(`${prefix}/`) && id.split('/').length === 2 && kind !== 'preheat');
}

const slugOf = (formula: ResolvedFormula, part: number): string => formula.parts[part]!.key.replaceAll(' ', '-');

function check(property: (formula: ResolvedFormula, epochMs: number, text: string) => void): void {
  fc.assert(fc.property(formulaText, anchorMs, (text, epochMs) => {
    property(formulaOf(text), epochMs, text);
  }));
}

// --- what always holds ----------------------------------------------------------------------------------------------

describe('whatever the formula', () => {
  test('forward from where the way back began is the way back', () => {
    check((formula, epochMs) => {
      const back = at(formula, 'ready', epochMs);
      expect(back.readyMs).toBe(epochMs);
      // From a start nothing can move before it, so the slack is less.
      const times = ({ steps: all, readyMs }: Placed) => [readyMs, ...all.map(({ id, startMs, endMs }) => [id, startMs, endMs])];
      expect(times(at(formula, 'start', back.startMs))).toEqual(times(back));
    });
  });

  test('another moment moves every time by the same', () => {
    fc.assert(fc.property(formulaText, anchorMs, fc.integer({ min: -1e12, max: 1e12 }), (text, epochMs, shiftMs) => {
      const formula = formulaOf(text);
      const [here, there] = [at(formula, 'start', epochMs), at(formula, 'start', epochMs + shiftMs)];
      const moved = here.steps.map((step) => ({
        ...step,
        startMs: step.startMs + shiftMs,
        endMs: step.endMs + shiftMs,
        earliestStartMs: step.earliestStartMs + shiftMs,
        latestStartMs: step.latestStartMs + shiftMs,
      }));
      expect(there.steps).toEqual(moved);
    }));
  });

  test('start and ready are those of the first and the last step, and the steps are in order', () => {
    check((formula, epochMs) => {
      const result = at(formula, 'start', epochMs);
      expect(Math.min(...result.steps.map(({ startMs }) => startMs))).toBe(epochMs);
      // A fold written beyond the end of its bulk is not waited for.
      expect(Math.max(...result.steps.filter(({ id }) => id.split('/').length === 2).map(({ endMs }) => endMs))).toBe(result.readyMs);
      expect(result.steps.map(({ startMs }) => startMs)).toEqual(result.steps.map(({ startMs }) => startMs).sort((a, b) => a - b));
    });
  });

  test('every step written is there once, a fold as often as it says, and ids are unique', () => {
    check((formula, epochMs, text) => {
      const { steps: all } = at(formula, 'ready', epochMs);
      expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
      const written = [...text.matchAll(/^ +(?:ripen|soak|chill|coil fold|fold|bulk|mix|knead|rest|divide|shape|proof|retard|preheat|score|boil|bake|cool|glaze|fill)\b.*$/gm)];
      const times = written.map(([line]) => Number(/(\d+) times/.exec(line)?.[1] ?? 1));
      expect(all.filter(({ step }) => step).length).toBe(times.reduce((sum, count) => sum + count, 0));
    });
  });

  test('a step takes its planned time, within its least and its most', () => {
    check((formula, epochMs) => {
      for (const step of at(formula, 'ready', epochMs).steps) {
        expect(step.endMs - step.startMs).toBeCloseTo(((step.lowMinutes + step.highMinutes) / 2) * MS_PER_MINUTE, -1);
        expect(step.lowMinutes).toBeLessThanOrEqual(step.highMinutes);
        expect(step.earliestStartMs).toBeLessThanOrEqual(step.startMs);
        expect(step.latestStartMs).toBeGreaterThanOrEqual(step.startMs);
      }
    });
  });

  test('steps of one sequence follow one another without a gap and without overlap', () => {
    check((formula, epochMs) => {
      const result = at(formula, 'ready', epochMs);
      for (const prefix of ['method', ...formula.parts.map((_, index) => slugOf(formula, index))]) {
        const spine = spineOf(result, prefix);
        // A preheat that heats for nothing stands in the row itself.
        const loose = result.steps.some(({ id, kind }) => id.startsWith(`${prefix}/`) && kind === 'preheat');
        for (let next = 1; next < spine.length; next++) {
          const gapMs = spine[next]!.startMs - spine[next - 1]!.endMs;
          if (loose) expect(gapMs).toBeGreaterThanOrEqual(0);
          else expect(gapMs).toBe(0);
        }
      }
    });
  });

  test('folds begin as far into their bulk as the first of them says', () => {
    check((formula, epochMs) => {
      const { steps: all } = at(formula, 'ready', epochMs);
      for (const step of all.filter(({ id }) => id.split('/').length === 3)) {
        const bulkStep = all.find(({ id }) => id === step.id.slice(0, step.id.lastIndexOf('/')))!;
        const offset = step.step!.node.details.find((detail) => detail.kind === 'at');
        if (offset) expect(step.startMs - bulkStep.startMs).toBe(offset.offset.lowMinutes * MS_PER_MINUTE);
        else expect(step.startMs).toBeGreaterThan(bulkStep.startMs);
      }
    });
  });

  test('a part is done by the time anything takes it in', () => {
    check((formula, epochMs) => {
      const { steps: all } = at(formula, 'ready', epochMs);
      const ends = formula.parts.map((_, part) => Math.max(-Infinity, ...all.filter((step) => step.part === part).map(({ endMs }) => endMs)));
      formula.parts.forEach((taker, index) => {
        const own = all.filter((step) => step.part === (index === formula.dough ? undefined : index) && step.kind !== 'preheat');
        const first = own[0];
        for (const line of taker.lines) {
          if (line.part === undefined || !first) continue;
          const added = all.filter(({ step }) => step?.node.details.some((detail) => detail.kind === 'add' && detail.name.text === line.name));
          const mix = own.find(({ kind }) => kind === 'mix') ?? own.find(({ kind }) => kind === 'knead') ?? first;
          const by = index !== formula.dough ? first : added[0] ?? mix;
          expect(ends[line.part]).toBeLessThanOrEqual(by.startMs);
        }
      });
      for (const step of all) {
        for (const detail of step.step?.node.details ?? []) {
          if (detail.kind !== 'add') continue;
          const part = formula.parts.findIndex(({ key }) => key === detail.name.text);
          expect(part).toBeGreaterThanOrEqual(0);
          expect(ends[part]).toBeLessThanOrEqual(step.startMs);
        }
      }
    });
  });

  test('asked twice it answers the same', () => {
    check((formula, epochMs) => {
      expect(at(formula, 'ready', epochMs)).toEqual(at(formula, 'ready', epochMs));
    });
  });
});

describe('whatever the formula and the hours off', () => {
  const minute = fc.integer({ min: 0, max: 24 * 60 - 1 });
  const hoursOff = fc.array(fc.record({
    kind: fc.constantFrom('asleep' as const, 'away' as const), fromMinute: minute, toMinute: minute,
    days: fc.option(fc.uniqueArray(fc.integer({ min: 1, max: 7 }), { minLength: 1 }), { nil: undefined }),
  }).map(({ days, ...rest }): HoursOff => ({ ...rest, ...(days && { days }) })), { minLength: 1, maxLength: 3 });
  const kind = fc.constantFrom('ready' as const, 'start' as const);

  const ask = (run: (formula: ResolvedFormula, request: TimelineRequest & { hoursOff: readonly HoursOff[] }, timeline: Timeline) => void): void => {
    fc.assert(fc.property(formulaText, kind, anchorMs, hoursOff, (text, anchor, epochMs, off) => {
      const request = { anchor: { kind: anchor, epochMs }, zone: ZONE, hoursOff: off };
      const formula = formulaOf(text);
      run(formula, request, timelineOf(formula, request));
    }), { numRuns: 60 });
  };

  test('no hand is needed in them, every length is within its range, and what was asked for is kept', () => {
    ask((_, { anchor, hoursOff: off }, result) => {
      if (result.kind !== 'placed') return;
      const closed = windowsOf(off, ZONE, result.startMs - 1, result.readyMs + 1);
      const touches = (fromMs: number, toMs: number): boolean => closed.some(({ startMs, endMs }) => startMs < toMs && endMs > fromMs);
      const within = (ms: number): boolean => closed.some(({ startMs, endMs }) => startMs < ms && endMs > ms);
      for (const step of result.steps) {
        expect(step.handsOn ? touches(step.startMs, step.endMs) : (step.handAtStart && within(step.startMs)) || (step.handAtEnd && within(step.endMs))).toBe(false);
        const minutes = (step.endMs - step.startMs) / MS_PER_MINUTE;
        expect(minutes).toBeGreaterThanOrEqual(step.lowMinutes - 0.001);
        expect(minutes).toBeLessThanOrEqual(step.highMinutes + 0.001);
        expect(step.earliestStartMs).toBeLessThanOrEqual(step.startMs);
        expect(step.latestStartMs).toBeGreaterThanOrEqual(step.startMs);
      }
      if (anchor.kind === 'ready') expect(result.readyMs).toBeLessThanOrEqual(anchor.epochMs);
      else expect(result.startMs).toBeGreaterThanOrEqual(anchor.epochMs);
    });
  });

  test('a conflict gives its facts, and a way out that is a length fits once it is written', () => {
    ask((formula, request, result) => {
      if (result.kind !== 'conflict') return;
      expect(result.facts.length).toBeGreaterThan(0);
      for (const { length, place } of result.waysOut) {
        if (length === undefined || !place) continue;
        const minutes = minutesOf(length);
        const changed = (steps: readonly PlacedStep[]): readonly PlacedStep[] => steps.map((step) => ({
          ...step,
          children: changed(step.children),
          node: step.place.block === place.block && step.place.start === place.start && step.node.duration
            ? { ...step.node, duration: { ...step.node.duration, lowMinutes: minutes, highMinutes: minutes } } : step.node,
        }));
        const mended = { ...formula, method: changed(formula.method), parts: formula.parts.map((part) => ({ ...part, steps: changed(part.steps) })) };
        expect(timelineOf(mended, request).kind).toBe('placed');
      }
    });
  });

  function minutesOf(text: string): number {
    const units: Record<string, number> = { d: 1440, h: 60, min: 1, s: 1 / 60 };
    return [...text.matchAll(/([\d.]+) (d|h|min|s)/g)].reduce((sum, [, count, unit]) => sum + Number(count) * units[unit!]!, 0);
  }
});

test('a circle of parts ends in a conflict, however long and wherever it is entered', () => {
  fc.assert(fc.property(fc.integer({ min: 2, max: 8 }), fc.nat({ max: 7 }), fc.boolean(), (count, entry, withSteps) => {
    const names = Array.from({ length: count }, (_, index) => `batch ${'abcdefgh'[index]}`);
    const parts = names.map((name, index) =>
      `soaker "${name}"\n  50 g oats\n  all ${names[(index + 1) % count]}${withSteps ? '\n  soak 1 h' : ''}\n`);
    const text = `formula "Circle"\n\n${parts.join('\n')}\ndough\n  500 g bread flour\n  all ${names[entry % count]}\n\nsteps\n  mix 10 min\n`;
    const result = timelineOf(formulaOf(text), { anchor: { kind: 'ready', epochMs: 0 }, zone: ZONE });
    expect(result.kind).toBe('conflict');
    expect(result.kind === 'conflict' && result.facts).toHaveLength(count);
  }));
});

test('a chain of two thousand parts is no trouble', () => {
  const count = 2000;
  const parts = Array.from({ length: count }, (_, index) =>
    `levain "build ${index}"\n  50 g rye flour\n${index > 0 ? `  10 g "build ${index - 1}"\n` : ''}  ripen 1 h\n`);
  const text = `formula "Chain"\n\n${parts.join('\n')}\ndough\n  500 g bread flour\n  10 g "build ${count - 1}"\n\nsteps\n  mix 10 min\n`;
  const result = at(formulaOf(text), 'ready', 0);
  expect(result.steps).toHaveLength(2 * count + 1);
  expect(result.startMs).toBe(-(count * 65 + 10) * MS_PER_MINUTE);
});
