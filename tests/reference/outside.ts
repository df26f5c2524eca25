/** Worked examples from outside the project (`checks.json`), one test for each, with its source in the test's name. */
import { expect, it } from 'vitest';
import checks from './checks.json';

export interface OutsideCheck<I = unknown, E = unknown> {
  readonly id: string;
  readonly topic: string;
  readonly inputs: I;
  readonly expected: E;
  readonly tolerance: Readonly<Record<string, number>>;
  readonly source: string;
}

export const outsideChecks = checks as unknown as readonly OutsideCheck[];

/**
 * A test for every example of a topic. Write the topic as a literal: the coverage test looks for it in the text of the
 * tests. A topic that has no example is a mistake and throws.
 */
export function eachCheck<I, E>(
  topic: string,
  compare: (inputs: I, expected: E, tolerance: Readonly<Record<string, number>>, check: OutsideCheck<I, E>) => void,
): void {
  const found = outsideChecks.filter((check) => check.topic === topic) as readonly OutsideCheck<I, E>[];
  if (found.length === 0) throw new Error(`checks.json has no example of ${topic}`);
  for (const check of found) {
    it(`${check.id} ${topic} (${check.source})`, () => compare(check.inputs, check.expected, check.tolerance, check));
  }
}

/** Known, and within the tolerance. */
export function near(actual: number | null | undefined, expected: number, tolerance: number | undefined): void {
  expect(tolerance, 'the example states a tolerance').toBeTypeOf('number');
  expect(actual, 'known').toBeTypeOf('number');
  expect(Math.abs((actual ?? NaN) - expected), `${String(actual)} against ${String(expected)}`).toBeLessThanOrEqual(tolerance ?? NaN);
}
