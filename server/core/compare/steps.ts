/** The method and the steps of parts: added, dropped, in another order, longer or shorter, warmer or cooler. */
import type { Amount, StepDetail } from '../../../grammar';
import type { PlacedStep } from '../formula/model';
import { foldName } from '../ingredients/names';
import { labelOf } from '../timeline/names';
import { isSameSize } from './factor';
import type { Change, ComparedSection, Fact } from './model';
import { MOST_PAIRS } from './thresholds';
import { detailWords, durationWords, temperatureWords } from './words';

/** What the steps of the two versions are told with. */
export interface StepContext {
  readonly before: ComparedSection;
  readonly after: ComparedSection;
  readonly factor: number;
  /** Names of before, folded, that are another name now. */
  readonly renamed: ReadonlyMap<string, string>;
}

/** @param part name of the part whose steps they are; undefined for the method. */
export function compareSteps(before: readonly PlacedStep[], after: readonly PlacedStep[], part: { readonly before: string; readonly after: string } | undefined, context: StepContext): readonly Change[] {
  const tell = (side: 'before' | 'after', step: PlacedStep, text: string): Fact => ({
    name: labelOf(step), ...(part !== undefined && { part: part[side] }), ...(text !== '' && { text }), line: context[side].lineOf(step.place),
  });
  const { pairs, onlyBefore, onlyAfter } = aligned(before, after, context);
  const changes: Change[] = [];
  const told = (i: number, j: number): void => {
    const [a, b] = [before[i], after[j]];
    if (a === undefined || b === undefined) return;
    const both = (what: Change['what'], was: string, is: string): void => {
      if (was !== is) changes.push({ what, before: tell('before', a, was), after: tell('after', b, is) });
    };
    both('step-time', a.node.duration === undefined ? '' : durationWords(a.node.duration), b.node.duration === undefined ? '' : durationWords(b.node.duration));
    both('step-temperature', a.node.temperature === undefined ? '' : temperatureWords(a.node.temperature), b.node.temperature === undefined ? '' : temperatureWords(b.node.temperature));
    const [was, is] = detailsApart(a, b, context);
    both('step-detail', was, is);
    changes.push(...compareSteps(a.children, b.children, part, context));
  };
  for (const [i, j] of pairs) told(i, j);
  const { moved, dropped, added } = movedSteps(before, after, onlyBefore, onlyAfter, context);
  for (const [i, j] of moved) {
    const [a, b] = [before[i], after[j]];
    if (a === undefined || b === undefined) continue;
    changes.push({ what: 'step-moved', before: tell('before', a, placeWords(before, i)), after: tell('after', b, placeWords(after, j)) });
    told(i, j);
  }
  for (const i of dropped) {
    const step = before[i];
    if (step !== undefined) changes.push({ what: 'step', before: tell('before', step, wholeText(step)), after: undefined });
  }
  for (const j of added) {
    const step = after[j];
    if (step !== undefined) changes.push({ what: 'step', before: undefined, after: tell('after', step, wholeText(step)) });
  }
  return changes;
}

/** `after the mix`, `first` */
function placeWords(steps: readonly PlacedStep[], index: number): string {
  const above = steps[index - 1];
  return above === undefined ? 'first' : `after ${labelOf(above)}`;
}

/** A step in one line: `bulk 4 h at 24 °C, until volume 75 %`. What stands in it is left out. */
export function stepLine(step: PlacedStep): string {
  const said = saidOf(step);
  return `${labelOf(step)}${said.length === 0 ? '' : ` ${said.join(', ')}`}`;
}

function wholeText(step: PlacedStep): string {
  const under = step.children.length === 0 ? [] : [`with ${String(step.children.length)} ${step.children.length === 1 ? 'step' : 'steps'} in it`];
  return [...saidOf(step), ...under].join(', ');
}

function saidOf({ node: { duration, temperature, details } }: PlacedStep): readonly string[] {
  const first = [duration === undefined ? '' : durationWords(duration), temperature === undefined ? '' : `at ${temperatureWords(temperature)}`].filter((text) => text !== '').join(' ');
  return [...(first === '' ? [] : [first]), ...details.map(detailWords)];
}

// --- which step is which ----------------------------------------------------------------------------------------------

interface Aligned {
  readonly pairs: readonly (readonly [number, number])[];
  readonly onlyBefore: readonly number[];
  readonly onlyAfter: readonly number[];
}

/**
 * The longest common order of steps of one kind, those that are wholly alike counting twice. What is equal at both ends is taken
 * off first; where what is left is longer than some 500 steps each, steps of one kind are paired as they come.
 */
function aligned(before: readonly PlacedStep[], after: readonly PlacedStep[], context: StepContext): Aligned {
  const [kindA, kindB] = [before.map(kindOf), after.map(kindOf)];
  const [allA, allB] = [before.map((step) => contentOf(step, context, 'before')), after.map((step) => contentOf(step, context, 'after'))];
  let start = 0;
  while (start < before.length && start < after.length && allA[start] === allB[start]) start += 1;
  let [endA, endB] = [before.length, after.length];
  while (endA > start && endB > start && allA[endA - 1] === allB[endB - 1]) {
    endA -= 1;
    endB -= 1;
  }
  const pairs: (readonly [number, number])[] = [];
  for (let i = 0; i < start; i += 1) pairs.push([i, i]);
  const [n, m] = [endA - start, endB - start];
  if (n * m <= MOST_PAIRS) {
    const score = (i: number, j: number): number => (kindA[start + i] !== kindB[start + j] ? 0 : allA[start + i] === allB[start + j] ? 3 : 2);
    const best = Array.from({ length: n + 1 }, () => new Float64Array(m + 1));
    for (let i = n - 1; i >= 0; i -= 1) {
      for (let j = m - 1; j >= 0; j -= 1) {
        const own = score(i, j);
        const row = best[i];
        if (row !== undefined) row[j] = Math.max(best[i + 1]?.[j] ?? 0, row[j + 1] ?? 0, own === 0 ? 0 : own + (best[i + 1]?.[j + 1] ?? 0));
      }
    }
    for (let i = 0, j = 0; i < n && j < m;) {
      const here = best[i]?.[j] ?? 0;
      const own = score(i, j);
      if (own > 0 && here === own + (best[i + 1]?.[j + 1] ?? 0)) pairs.push([start + i++, start + j++]);
      else if (here === (best[i + 1]?.[j] ?? 0)) i += 1;
      else j += 1;
    }
  } else {
    // In order, each with the next of its kind; what stands further back is left for what was moved.
    const places = new Map<string, number[]>();
    for (let j = endB - 1; j >= start; j -= 1) {
      const kind = kindB[j] ?? '';
      const known = places.get(kind);
      if (known === undefined) places.set(kind, [j]);
      else known.push(j);
    }
    let next = start;
    for (let i = start; i < endA; i += 1) {
      const ofKind = places.get(kindA[i] ?? '') ?? [];
      while ((ofKind.at(-1) ?? next) < next) ofKind.pop();
      const j = ofKind.pop();
      if (j === undefined) continue;
      pairs.push([i, j]);
      next = j + 1;
    }
  }
  for (let i = endA, j = endB; i < before.length; i += 1, j += 1) pairs.push([i, j]);
  const [taken, there] = [new Set(pairs.map(([i]) => i)), new Set(pairs.map(([, j]) => j))];
  return { pairs, onlyBefore: [...before.keys()].filter((i) => !taken.has(i)), onlyAfter: [...after.keys()].filter((j) => !there.has(j)) };
}

/** Of what is left, steps that say the same stand in another place now. */
function movedSteps(before: readonly PlacedStep[], after: readonly PlacedStep[], onlyBefore: readonly number[], onlyAfter: readonly number[], context: StepContext) {
  const there = new Map<string, number[]>();
  const contentAfter = (j: number): string => (after[j] === undefined ? '' : contentOf(after[j], context, 'after'));
  for (const j of onlyAfter) there.set(contentAfter(j), [...(there.get(contentAfter(j)) ?? []), j]);
  const moved: (readonly [number, number])[] = [];
  for (const i of onlyBefore) {
    const step = before[i];
    const j = step === undefined ? undefined : there.get(contentOf(step, context, 'before'))?.shift();
    if (j !== undefined) moved.push([i, j]);
  }
  const [taken, placed] = [new Set(moved.map(([i]) => i)), new Set(moved.map(([, j]) => j))];
  return { moved, dropped: onlyBefore.filter((i) => !taken.has(i)), added: onlyAfter.filter((j) => !placed.has(j)) };
}

function kindOf(step: PlacedStep): string {
  return `${step.node.step} ${step.node.label?.text ?? ''}`;
}

/** Everything that a step says, its folds included, with the names of `after`. */
function contentOf(step: PlacedStep, context: StepContext, side: 'before' | 'after'): string {
  const { duration, temperature } = step.node;
  return JSON.stringify([
    kindOf(step), duration === undefined ? '' : durationWords(duration), temperature === undefined ? '' : temperatureWords(temperature),
    step.node.details.map((detail) => meaningOfDetail(detail, context, side)).sort(), step.children.map((child) => contentOf(child, context, side)),
  ]);
}

/** The details that one of the two has and the other has not, in words. */
function detailsApart(a: PlacedStep, b: PlacedStep, context: StepContext): readonly [string, string] {
  const meanings = (step: PlacedStep, side: 'before' | 'after') => step.node.details.map((detail) => ({ words: detailWords(detail), meaning: meaningOfDetail(detail, context, side) }));
  const [was, is] = [meanings(a, 'before'), meanings(b, 'after')];
  const without = (list: typeof was, other: typeof was): string => {
    const left = other.map(({ meaning }) => meaning);
    return list.filter(({ meaning }) => {
      const at = left.indexOf(meaning);
      if (at >= 0) left.splice(at, 1);
      return at < 0;
    }).map(({ words }) => words).join(', ');
  };
  return [without(was, is), without(is, was)];
}

function meaningOfDetail(detail: StepDetail, { renamed, factor }: StepContext, side: 'before' | 'after'): string {
  if (detail.kind !== 'add') return detailWords(detail).toLowerCase();
  const name = foldName(detail.name.text);
  const portion = detail.portion.kind === 'amount' ? amountMeaning(detail.portion.amount, factor) : detailWords({ ...detail, name: { ...detail.name, text: '' } });
  return `add ${portion} of ${side === 'before' ? (renamed.get(name) ?? name) : name}`;
}

/** A portion in grams grows with the formula; by how much it was rounded is told nowhere else, and nobody asks. */
function amountMeaning(amount: Amount, factor: number): string {
  const words = detailWords({ kind: 'add', start: 0, end: 0, name: { text: '', quoted: false, start: 0, end: 0 }, portion: { kind: 'amount', amount } });
  return isSameSize(factor) || amount.kind === 'share' || amount.kind === 'all' ? words : `some ${amount.kind}`;
}
