/** The page of a card: valid by a validator of others, nothing loaded, nothing run, nothing of the file taken for markup. */
import { createHash } from 'node:crypto';
import { HtmlValidate } from 'html-validate';
import { describe, expect, test } from 'vitest';
import { STYLE, STYLE_HASH } from '../../../server/output/card/style';
import { exported } from '../../../server/output/export/forms';
import { exportsOf, NASTY, SAMPLES, sampleEntries } from './samples';

const validator = new HtmlValidate({
  root: true,
  extends: ['html-validate:recommended', 'html-validate:a11y', 'html-validate:document'],
  // How the text is laid out, and nothing that a reader of it meets.
  rules: { 'long-title': 'off', 'void-style': 'off', 'no-trailing-whitespace': 'off' },
});

async function problemsOf(page: string): Promise<readonly string[]> {
  const { results } = await validator.validateString(page);
  return results.flatMap(({ messages }) => messages.map(({ ruleId, message, line }) => `${String(line)} ${ruleId}: ${message}`));
}

/** A page with its spaces made plain, to look for words in it. */
function pageOf(entries: Parameters<typeof exported>[1]): string {
  return exported('html', entries, 0).replaceAll('\u00a0', ' ');
}

test.each(SAMPLES)('%s is a valid page', async (sample) => {
  expect(await problemsOf(exported('html', await sampleEntries(sample), 0))).toEqual([]);
});

test('by the clock, with several cards, and with nothing in them, the page is valid', async () => {
  expect(await problemsOf(exported('html', await sampleEntries('notebook.md', '2027-03-13 08:00'), 0))).toEqual([]);
  expect(await problemsOf(exported('html', await sampleEntries('mistakes.bake'), 0))).toEqual([]);
  expect(await problemsOf(exported('html', exportsOf('formula "Not begun"\n'), 0))).toEqual([]);
  expect(await problemsOf(exported('html', exportsOf(NASTY), 0))).toEqual([]);
});

test('the validator would find a fault', async () => {
  expect(await problemsOf('<!DOCTYPE html>\n<html><body><p><div></div></p></body></html>\n')).not.toEqual([]);
});

describe('the content policy', () => {
  test('lets in the style of the page and nothing else', () => {
    const hash = `sha256-${createHash('sha256').update(STYLE).digest('base64')}`;
    expect(STYLE_HASH, 'The style has changed: write this hash beside it').toBe(hash);
    const page = exported('html', exportsOf(NASTY), 0);
    expect(page).toContain(`content="default-src &#39;none&#39;; style-src &#39;${hash}&#39;; base-uri &#39;none&#39;; form-action &#39;none&#39;"`);
    expect(page.split(`<style>${STYLE}</style>`)).toHaveLength(2);
  });

  test('has nothing to keep out: no script, no address, no style or handler on an element', () => {
    const page = exported('html', exportsOf(NASTY), 0).replace(`<style>${STYLE}</style>`, '');
    const tags = [...page.matchAll(/<([a-z][a-z0-9]*)((?:\s[^<>]*)?)>/g)].map(([, tag, attributes]) => [tag!, attributes!] as const);
    expect(new Set(tags.map(([tag]) => tag))).not.toContain('script');
    for (const [, attributes] of tags) expect(attributes).not.toMatch(/\s(?:on\w+|style|src)=|\shref=(?!\"#)/);
    expect(page).not.toMatch(/<(?:script|img|svg|i|link|iframe|object|base|form)[\s>]/);
    // The words are there all the same.
    expect(page).toContain('&lt;script&gt;alert(1)&lt;/script&gt; &amp; `Co` | *pão* ]]&gt;');
    expect(page).toContain('&lt;svg onload=alert(3)&gt;');
  });
});

test('several cards have one first heading and a list that leads to each; one card is headed by its name', async () => {
  const many = exported('html', await sampleEntries('notebook.md'), 0);
  expect([...many.matchAll(/<h1[^>]*>(.*?)<\/h1>/g)].map(([, text]) => text)).toEqual(['2 formulas']);
  expect([...many.matchAll(/<a href="#(title-\d)">(.*?)<\/a>/g)].map(([, id, text]) => many.includes(`<h2 class="title" id="${id!}">${text!}</h2>`))).toEqual([true, true]);
  const one = exported('html', await sampleEntries('knots.bake'), 0);
  expect([...one.matchAll(/<h1[^>]*>(.*?)<\/h1>/g)].map(([, text]) => text)).toEqual(['Cardamom knots']);
  expect(one).not.toContain('<nav');
});

test('allergens are set off in bold, and in capitals for who does not see bold', async () => {
  const page = exported('html', await sampleEntries('apricot-hearth.bake'), 0);
  expect(page).toContain('mill bread flour (<b>WHEAT</b>), water, whole <b>WHEAT</b> flour, dried apricots (<b>SULPHITES</b>), pumpkin seeds, stone-ground <b>RYE</b>,');
  // What its author wrote in capitals is no allergen for that.
  const own = exported('html', exportsOf('formula "X"\n\ndough\n  500 g  bread flour\n  300 g  water\n  50 g  "BBQ sauce"\n'), 0);
  expect(own).toContain('bread flour (<b>WHEAT</b>), water, BBQ sauce.');
});

test('both lists of allergens stand on a card where the settings ask for none in particular', () => {
  const page = exported('html', exportsOf(NASTY), 0);
  expect(page).toMatch(/<dt>Allergens, EU list<\/dt><dd>cereals containing gluten \(wheat\)<\/dd>/);
  expect(page).toMatch(/<dt>Allergens, US list<\/dt><dd>wheat<\/dd>/);
});

test('every temperature is in both scales, Celsius first, an oven in fives and a dough to the degree', async () => {
  for (const sample of SAMPLES) {
    const page = pageOf(await sampleEntries(sample));
    expect([...page.matchAll(/\d °C(?! \()/g)]).toEqual([]);
    expect([...page.matchAll(/(\d+(?: to \d+)?) °C \((\d+(?: to \d+)?) °F\)/g)].length).toBeGreaterThan(3);
    expect(page).not.toMatch(/\d C\b/);
  }
  const page = pageOf(exportsOf('formula "F"\n\ndough at 76 F\n  500 g  bread flour\n  300 g  water at 85 F\n\nsteps\n  bulk  2 h at room\n  bake  30 to 35 min at 425 to 450 F, until core 205 F\n'));
  expect(page).toContain('at 24.4 °C (76 °F)');
  expect(page).toContain('at 29.4 °C (85 °F)');
  expect(page).toContain('at 220 to 230 °C (425 to 450 °F), until the middle is at 96 °C (205 °F)');
});

test('food facts of which none is known are no table of dashes', () => {
  const page = pageOf(exportsOf('formula "X"\n\ndough\n  500 g  bread flour\n  300 g  water\n  100 g  "moon cheese"\n'));
  expect(page).toContain('<p>Not known: any of it, for want of the composition of moon cheese.</p>');
  expect(page).not.toContain('energy in kJ');
});

test.each(['html', 'markdown', 'csv', 'jsonld'] as const)('characters that turn a text around or ring a bell are in no %s', (form) => {
  const nasty = '\u202Eevil\u202C\u0007\u001b[31m\u2066';
  const text = exported(form, exportsOf(`formula "A ${nasty}"
  makes     2 "lo${nasty}aves" of 500 g
  style     hearth ${nasty}
  author    "B ${nasty}"
  note      "C ${nasty}"

part "D ${nasty}"
  50 g      "E ${nasty}", F ${nasty}
  rest      1 h

dough
  600 g     bread flour
  400 g     water
  all       "D ${nasty}"

steps
  do        "G ${nasty}" 5 min, H ${nasty}
  bake      40 min at 230 C, until "I ${nasty}"
`), 0);
  for (const letter of 'ADE') expect(text).toContain(letter);
  expect(text).not.toMatch(/[\u0007\u001b\u202a-\u202e\u2066-\u2069]|\\u(?:0007|001b|202e|2066)/);
});
