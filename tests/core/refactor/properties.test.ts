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
    // A variant written out in full has those of its base besides.
    if (id === 'variant-in-full') expect(commentsIn(now), title).toEqual(expect.arrayContaining(comments));
    else expect(commentsIn(now), title).toEqual(comments);
    expect(now.includes('\r'), title).toBe(text.includes('\r'));
    if (text.includes('\r')) expect(now, title).not.toMatch(/[^\r]\n/);
    expectSameBread(text, now, ROUNDS.has(id) ? 0.06 : 1e-4, {}, id === 'variant-in-full');
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

describe('there and back', () => {
  const then = (text: string, id: string): readonly string[] => everythingOffered(text).filter((one) => one.id === id).map((one) => one.after());

  test('a dough as a total formula is the same dough again', () => {
    let tried = 0;
    fc.assert(fc.property(preferments, (text) => {
      for (const total of then(text, 'as-total')) {
        const back = then(total, 'as-dough');
        expect(back, total).toHaveLength(1);
        expectSameBread(text, back[0]!, 2e-4);
        tried += 1;
      }
    }), { numRuns: 30 });
    expect(tried).toBeGreaterThan(0);
  });

  test('a dough in whole grams comes back from its percentages to the letter', () => {
    const whole = fc.tuple(fc.integer({ min: 100, max: 9000 }), fc.integer({ min: 10, max: 999 }), fc.integer({ min: 50, max: 8000 }), fc.integer({ min: 10, max: 200 }));
    fc.assert(fc.property(whole, fc.constantFrom('\n', '\r\n'), ([flour, rye, water, salt], end) => {
      const lines = [`${flour} g`.padEnd(9) + ' bread flour', `${rye} g`.padEnd(9) + ' dark rye flour  # stone-ground', `${water} g`.padEnd(9) + ' water', `${salt} g`.padEnd(9) + ' salt'];
      const text = ['formula "F"', `  makes     2 loaves of ${(flour + rye + water + salt) / 2} g`, '', 'dough', ...lines.map((line) => `  ${line}`), ''].join(end);
      const [shares] = then(text, 'part-in-shares');
      expect(then(shares!, 'part-in-grams'), shares).toEqual([text]);
    }), { numRuns: 50 });
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
