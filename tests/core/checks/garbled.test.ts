/** Whatever the text, checks do not throw, and what they say stands in the text. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checks } from '../../../server/core/checks';
import { bakeText, garbled as garbledFile } from '../../grammar/arbitrary';
import { analyseText, findingsIn, marked } from '../bake';

const EXAMPLES = checks.flatMap(({ trips, passes }) => [marked(trips).text, passes]);
const SCRAPS = [
  '', '\n', '  ', '\t', '\r\n', '"', '#', ',', '(', ')', '%', '0', '-1', '1e9', '1/0', '½', '2,5', 'g', 'all', 'rest of ', 'at ', ' of ', 'é漢👩‍🍳', '\u0000',
  '# accept salt-low: so', 'add half of salt', 'formula "Country loaf"\n', 'dough\n', 'total formula\n', 'levain\n', 'steps\n', 'dish\n', 'plan\n',
  '  keep 40 g\n', '  yields 10 %\n', '  makes 0 loaves of 0 g\n', '  makes 3 loaves of 900 g\n', '  loses 100 % in the oven\n', '  bake at room\n',
  '  0 g bread flour\n', '  100 % bread flour\n', '  15 % of flour in levain\n', '  all dough\n', '  based on "Country loaf"\n',
];

/** Findings that tell why a weight cannot be known. */
const SAYS_WHY: ReadonlySet<string> = new Set([
  'no-size', 'flour-not-whole', 'needs-a-weight', 'share-of-nothing', 'contradiction', 'part-missing', 'part-cycle', 'base-cycle', 'base-faulty',
  'formula-missing', 'uses-not-weighed', 'makes-nothing', 'part-short', 'not-understood', 'incomplete', 'quote-open', 'out-of-place',
]);

/** An example with pieces cut out, doubled, or scraps put in. */
const garbled: fc.Arbitrary<string> = fc
  .tuple(
    fc.constantFrom(...EXAMPLES),
    fc.constantFrom(...EXAMPLES),
    fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.nat(30), fc.constantFrom(...SCRAPS), fc.boolean()), { maxLength: 6 }),
  )
  .map(([first, second, cuts]) => {
    let text = cuts.length % 2 === 0 ? first : `${first}\n${second}`;
    for (const [where, length, scrap, wholeLine] of cuts) {
      let at = Math.floor(where * text.length);
      if (wholeLine) {
        at = text.lastIndexOf('\n', at) + 1;
      }
      text = text.slice(0, at) + scrap + text.slice(at + (wholeLine ? 0 : length));
    }
    return text;
  });

const texts = fc.oneof(
  { weight: 6, arbitrary: garbled },
  { weight: 2, arbitrary: bakeText },
  { weight: 2, arbitrary: garbledFile },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 200 }) },
);

describe('garbled text', () => {
  test('never throws, and every place, fix and message is sound', () => {
    fc.assert(
      fc.property(texts, (text) => {
        for (const { finding, message, after } of findingsIn(text)) {
          expect(message).not.toMatch(/undefined|\bnull\b|NaN|Infinity|\[object/);
          for (const fix of finding.fixes) {
            expect(fix.edits.length).toBeGreaterThan(0);
            // Throws when edits overlap or leave the text.
            const fixed = after(fix);
            findingsIn(fixed);
          }
        }
      }),
      { numRuns: 400 },
    );
  });

  test('a certain fix takes its finding away', () => {
    fc.assert(
      fc.property(texts, (text) => {
        const before = findingsIn(text);
        for (const { finding, code, after } of before) {
          for (const fix of finding.fixes.filter(({ certain }) => certain)) {
            const count = (found: readonly { readonly code: string }[]) => found.filter((one) => one.code === code).length;
            const fixed = after(fix);
            expect(count(findingsIn(fixed)), JSON.stringify([fix.title, text, fixed])).toBeLessThan(count(before));
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  test('a dough whose weight is not known has a finding that says why', () => {
    fc.assert(
      fc.property(texts, (text) => {
        for (const { formula, totals, findings } of analyseText(text)) {
          const dough = formula?.kind === 'formula' && formula.dough !== undefined ? formula.parts[formula.dough] : undefined;
          if (dough !== undefined && dough.lines.length > 0 && totals?.dough_g === null) {
            expect(findings.some(({ code }) => SAYS_WHY.has(code)), text).toBe(true);
          }
        }
      }),
      { numRuns: 500 },
    );
  });
});
