/**
 * Checks against the outside world. Each says of what kind it is and where its numbers come from; `npm test` counts them by
 * kind. Tests of this folder take their `it` from here, so that none can be without a source.
 */
import { expect, it } from 'vitest';
import checks from './checks.json';

/** Kinds whose numbers somebody else published, or somebody else's program gives. */
export const PUBLISHED = [
  'published standard', // laws, official guidance, definitions of units, specifications
  'published table', // of a handbook, a supplier, an encyclopedia
  'published example', // somebody printed the numbers and the answer
  'published rule', // the rule was read, the numbers are put into it by hand
  'published study', // measurements of a paper, or of its author elsewhere
  'dataset', // composition tables
  'general-purpose library', // another program's answer to the same question
] as const;

/** Kinds that lean on nobody outside. They are counted apart. */
export const UNPUBLISHED = ['worked by hand', 'common practice, no source', 'from memory'] as const;

export type Kind = (typeof PUBLISHED)[number] | (typeof UNPUBLISHED)[number];

declare module 'vitest' {
  interface TaskMeta {
    outside?: { readonly kind: Kind; readonly source: string; readonly published: boolean };
  }
}

/** A test, as `it` makes one; a property counts as one. */
export type Check = (name: string, run: () => void | Promise<void>) => void;

/** `it` for checks of one kind against one source. Throws where either is missing or the kind is not known. */
export function outside(kind: Kind, source: string): Check {
  const published = (PUBLISHED as readonly string[]).includes(kind);
  if (!published && !(UNPUBLISHED as readonly string[]).includes(kind)) throw new Error(`“${String(kind)}” is no kind of check`);
  if (source.trim() === '') throw new Error('A check against the outside names its source.');
  return (name, run) => it(name, { meta: { outside: { kind, source, published } } }, run);
}

export interface OutsideCheck<I = unknown, E = unknown> {
  readonly id: string;
  readonly topic: string;
  readonly inputs: I;
  readonly expected: E;
  readonly tolerance: Readonly<Record<string, number>>;
  readonly kind: Kind;
  readonly source: string;
}

export const outsideChecks = checks as unknown as readonly OutsideCheck[];

/**
 * A test for every example of a topic, with its source in its name. Write the topic as a literal: the coverage test looks
 * for it in the text of the tests. A topic that has no example is a mistake and throws.
 */
export function eachCheck<I, E>(
  topic: string,
  compare: (inputs: I, expected: E, tolerance: Readonly<Record<string, number>>, check: OutsideCheck<I, E>) => void,
): void {
  const found = outsideChecks.filter((check) => check.topic === topic) as readonly OutsideCheck<I, E>[];
  if (found.length === 0) throw new Error(`checks.json has no example of ${topic}`);
  for (const check of found) exampleOf(check, compare);
}

/** A test for one example. Every field that it expects must be looked at. */
export function exampleOf<I, E>(
  check: OutsideCheck<I, E>,
  compare: (inputs: I, expected: E, tolerance: Readonly<Record<string, number>>, check: OutsideCheck<I, E>) => void,
): void {
  const { id, topic, kind, source, inputs, expected, tolerance } = check;
  outside(kind, source)(`${id} ${topic} (${source})`, () => {
    const looked = lookedAt(expected);
    compare(inputs, looked.fields, tolerance, check);
    expect(looked.unseen(), 'fields of the example that nothing was compared with').toEqual([]);
  });
}

/** Fields as they are, and which of them nobody asked for. */
export function lookedAt<E>(expected: E): { readonly fields: E; readonly unseen: () => readonly string[] } {
  if (typeof expected !== 'object' || expected === null) return { fields: expected, unseen: () => [] };
  const seen = new Set<string | symbol>();
  const fields = new Proxy(expected, {
    get(target, key) {
      seen.add(key);
      return Reflect.get(target, key) as unknown;
    },
  });
  return { fields, unseen: () => Object.keys(expected).filter((key) => !seen.has(key)) };
}

/** Known, and within the tolerance. */
export function near(actual: number | null | undefined, expected: number, tolerance: number | undefined): void {
  expect(tolerance, 'the example states a tolerance').toBeTypeOf('number');
  expect(actual, 'known').toBeTypeOf('number');
  expect(Math.abs((actual ?? NaN) - expected), `${String(actual)} against ${String(expected)}`).toBeLessThanOrEqual(tolerance ?? NaN);
}
