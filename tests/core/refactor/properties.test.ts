/** Whatever is offered on whatever formula bakes the same bread, adds no error, and keeps comments and line ends. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checks } from '../../../server/core/checks';
import { findingsIn, marked } from '../bake';
import { formulaText, formulaTextWithEggs } from '../scaling/arbitrary';
import { preferments } from './arbitrary';
import { everythingOffered, expectSameBread } from './refactored';

/** Rounding to what a scale shows: half a gram in ten, and half a hundredth in what is less than one. */
const ROUNDS: ReadonlySet<string> = new Set(['part-in-grams', 'line-in-grams', 'weight-beside', 'by-weight', 'metric']);

const errorsIn = (text: string) => findingsIn(text).filter(({ finding }) => finding.severity === 'error').map(({ code }) => code).sort();
const commentsIn = (text: string) => [...text.matchAll(/#[^\r\n]*/g)].map(([comment]) => comment).sort();

function expectSound(text: string): void {
  const errors = errorsIn(text);
  const comments = commentsIn(text);
  for (const { id, title, after } of everythingOffered(text)) {
    const now = after();
    expect(now, title).not.toBe(text);
    expect(errorsIn(now).filter((code) => !errors.includes(code)), `${title}\n${now}`).toEqual([]);
    expect(commentsIn(now), title).toEqual(comments);
    expect(now.includes('\r'), title).toBe(text.includes('\r'));
    if (text.includes('\r')) expect(now, title).not.toMatch(/[^\r]\n/);
    expectSameBread(text, now, ROUNDS.has(id) ? 0.06 : 1e-4);
  }
}

describe.each([
  ['random formulas', formulaText],
  ['random formulas with eggs', formulaTextWithEggs],
  ['formulas with preferments', preferments],
])('%s', (_, arbitrary) => {
  test('everything that is offered is sound', () => {
    fc.assert(fc.property(arbitrary, (text) => {
      expectSound(text);
    }), { numRuns: 25 });
  });
});

const samples = path.join(import.meta.dirname, '../../../samples');
const pantry = readFileSync(path.join(samples, 'pantry.bake'), 'utf8');
const FILES = [
  ...readdirSync(samples).filter((name) => name.endsWith('.bake') && name !== 'pantry.bake').map((name) => ({ name, text: readFileSync(path.join(samples, name), 'utf8').replace('use "pantry.bake"\n', pantry) })),
  ...readdirSync(path.join(import.meta.dirname, '../checks/sane')).map((name) => ({ name, text: readFileSync(path.join(import.meta.dirname, '../checks/sane', name), 'utf8') })),
];

test.each(FILES)('$name: everything that is offered is sound', ({ text }) => {
  expectSound(text);
});

test('on the examples of all checks everything that is offered is sound', () => {
  for (const check of checks) {
    for (const text of [marked(check.trips).text, check.passes]) expectSound(text);
  }
});
