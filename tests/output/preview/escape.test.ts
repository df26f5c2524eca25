/** Whatever a file, a size or a plan says, it comes out as text: no markup, no attribute, no script is ever made of it. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { previewAt } from '../../../server/features/preview';
import { marked, RYE } from '../../features/marked';

const USUAL = { anchor: { kind: 'ready', epochMs: Date.UTC(2026, 2, 14, 8) }, zone: 'Europe/Lisbon' } as const;

const PANTRY = `${RYE}
record 2026-03-01
  room      21 C
  bulk      3 h 40 min, volume 70 %
  note      "slow"

dish "Crumb pudding"
  serves    4
  uses      300 g of "Fig and walnut rye"

custard
  4         eggs
  400 g     milk

steps
  whisk     4 min
  bake      40 min at 170 C, until "it trembles in the middle"

ingredient "mill flour"
  like      bread flour
  contains  gluten, lupin

plan "Market"
  ready     2026-05-16 08:30 Europe/Lisbon
  oven "deck" holds 2 loaves
  bake      4 loaves of "Fig and walnut rye"
`;

const HOSTILE = [
  '<img src=x onerror=alert(1)>', '"><script>alert(1)</script>', '\'><svg onload=alert(1)>', '</section></main>', '<!--', ']]>', '&lt;b&gt;', '&#x3c;b&#x3e;',
  '" onclick="alert(1)', '\' autofocus onfocus=\'alert(1)', 'javascript:alert(1)', '`<b>`', '${alert(1)}', '\u202e<b>\u2066', '<b\u0000>', '\ud800<i>', '＜b＞',
];
const NAMES = 'section|header|h1|h2|h3|p|div|span|b|small|code|dl|dt|dd|ul|ol|li|time|button|label|input|select|option|details|summary|table|thead|tbody|tfoot|tr|th|td|figure|figcaption|svg|defs|pattern|rect|path|circle|line|text|g|title';
const TAG = new RegExp(`^<(?:/(?:${NAMES})|(?:${NAMES})((?: [a-z][a-z0-9-]*(?:="[^"<>]*")?)*) ?/?)>$`, 'i');
const ATTRIBUTES = new Set((
  'id class hidden aria-labelledby aria-label aria-hidden aria-describedby aria-invalid role tabindex type scope colspan rowspan datetime for value selected open size '
  + 'inputmode autocomplete spellcheck width height x y x1 x2 y1 y2 cx cy r d patternunits text-anchor '
  + 'data-line data-from data-to data-at data-do data-by data-value data-size data-unit data-small data-amount data-size-step'
).split(' '));

function markupIn(html: string): void {
  const tags = html.match(/<[^>]*>?/g) ?? [];
  expect(html.replace(/<[^>]*>/g, '')).not.toMatch(/[<>]/);
  for (const tag of tags) {
    const [, attributes] = TAG.exec(tag) ?? expect.fail(`not one of ours: ${tag}`);
    for (const [, name] of (attributes ?? '').matchAll(/ ([a-z0-9-]+)(?:="[^"]*")?/gi)) expect(ATTRIBUTES, tag).toContain(name!.toLowerCase());
  }
}

/** A text in which some words, at any place, are something else. */
const garbled = fc.array(fc.record({ at: fc.nat(), what: fc.constantFrom(...HOSTILE), inside: fc.boolean() }), { minLength: 1, maxLength: 12 }).map((changes) => {
  const words = PANTRY.split(/(?<=[\s"])(?=\S)/);
  for (const { at, what, inside } of changes) {
    const index = at % words.length;
    words[index] = inside ? `${words[index]!.trimEnd()} ${what}${/\s*$/.exec(words[index]!)![0]}` : what + words[index]!;
  }
  return words.join('');
});

const sizes = fc.record({ by: fc.constantFrom('pieces', 'piece', 'dough', 'flour', 'factor', 'have', 'tin', ...HOSTILE), value: fc.constantFrom('3', '2 kg', '24 g "starter"', ...HOSTILE, ...HOSTILE.map((what) => `20 g "${what}"`)) });

test('nothing from anywhere becomes markup', async () => {
  await fc.assert(fc.asyncProperty(garbled, sizes, sizes, async (text, size, wanted) => {
    const { file } = await marked(text);
    for (const placed of file.sections) {
      const { start } = placed.offsetsOf({ block: 0, start: 0, end: 0 });
      const { name: formula } = placed.section;
      const preview = previewAt(file, start, USUAL, Date.UTC(2026, 5, 1), { sizes: [{ formula, size }], wanted: { formula, size: wanted } });
      if (preview !== undefined) markupIn(preview.html);
    }
  }), { numRuns: 25, endOnFailure: true }); // to make a failing case smaller takes longer than a test may last
});

test('what is looked for would be found', () => {
  for (const html of ['<p>a<b</p>', '<p onclick="x">a</p>', '<script>x</script>', '<p>a > b</p>', '<img src="x">']) expect(() => markupIn(html), html).toThrow();
});
