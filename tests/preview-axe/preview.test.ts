/**
 * The preview's page against axe-core, the rules by which others judge whether a page can be read and used by everyone:
 * in Chromium, in each theme. Without Chromium it says how to get one, and everything else still runs.
 */
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { AxeResults, RunOptions } from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { EMPTY_PAGE } from '../../client/preview/empty';
import { previewAt, type SizesAsked } from '../../server/features/preview';
import { marked } from '../features/marked';
import { hasBrowser, launchBrowser } from '../workbench/lib/workbench.mjs';
import { THEMES, type Theme } from './themes';
import { USUAL } from './window';

const root = path.join(import.meta.dirname, '..', '..');
const css = readFileSync(path.join(root, 'client', 'preview', 'page.css'), 'utf8');
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const RYE = `formula "Walnut rye"
  makes     2 loaves of 800 g
  style     hearth, with inclusions
  room      22 C
  loses     12 % in the oven

levain
  60 g      dark rye flour
  60 g      water at 28 C
  12 g      starter
  ripen     8 h at 24 C

dough at 25 C
  650 g     bread flour
  150 g     dark rye flour
  560 g     water
  all       levain
  57 g      salt
  100 g     walnuts, toasted

steps
  mix       8 min, by hand
  bulk      3 h at 24 C
    fold    at 45 min, add walnuts
  shape     15 min
  retard    10 to 12 h at 4 C
  preheat   45 min at 245 C
  bake      40 min at 245 C, until core 97 C
  cool      2 h
`;

const PLAN = `plan "Market"
  ready     2026-05-16 08:30 Europe/Lisbon
  asleep    22:30 to 04:00
  oven      holds 2 loaves
  bake      6 loaves of "Walnut rye"
`;

/** A text with the cursor in it, and words that its preview has, so that nothing else is looked at by mistake. */
const PAGES: readonly (readonly [name: string, shows: string, text: string])[] = [
  ['formula', 'role="group" aria-label="Timeline', `┆${RYE}`],
  ['dish', 'Crumb pudding</button></h1>', `${RYE}
┆dish "Crumb pudding"
  serves    4
  uses      300 g of "Walnut rye"

custard
  4         eggs
  1 l       milk

steps
  whisk     4 min
  bake      40 min at 170 C, until "it trembles in the middle"
`],
  ['plan', 'id="shopping"', `${RYE}\n┆${PLAN}`],
  ['conflict', 'These cannot all hold:', `${RYE}\n┆${PLAN.replace('22:30 to 04:00', '20:00 to 08:00')}`],
];

async function insideOf(text: string, asked?: SizesAsked): Promise<string> {
  const { file, offset } = await marked(text);
  return previewAt(file, offset, USUAL, undefined, asked)!.html;
}

/** The page as the panel makes it, in the colours of a theme. */
function pageOf(html: string, { bodyClass, colours }: Theme): string {
  const variables = Object.entries(colours).map(([name, value]) => `--vscode-${name}: ${value};`).join(' ');
  return `<!DOCTYPE html><html lang="en" style="${variables}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>Preview</title><style>${css}</style></head><body class="${bodyClass}"><main id="page" aria-live="off">${html}</main></body></html>`;
}

async function violationsOf(page: Page, html: string): Promise<string[]> {
  await page.setContent(html);
  await page.evaluate(axe);
  const { violations, passes } = await page.evaluate(
    (options) => (globalThis as unknown as { axe: { run(options: RunOptions): Promise<AxeResults> } }).axe.run(options),
    { resultTypes: ['violations', 'passes'] } as RunOptions,
  );
  expect(passes.length).toBeGreaterThan(5);
  return violations.flatMap(({ id, help, nodes }) => nodes.map(({ html: element, failureSummary }) => `${id}: ${help}\n  ${element.slice(0, 160)}\n  ${failureSummary ?? ''}`));
}

if (!hasBrowser()) console.log('The preview is not looked at by axe-core: there is no Chromium. Install it (Debian: apt-get install chromium), or set E2E_CHROMIUM.');

describe.runIf(hasBrowser())('the preview can be read and used by everyone', () => {
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    browser = await launchBrowser();
    page = await browser.newPage({ viewport: { width: 900, height: 1200 } });
  });
  afterAll(() => browser?.close());

  describe.each(THEMES)('in $name', (theme) => {
    test.each(PAGES)('%s', async (_name, shows, text) => {
      const html = await insideOf(text);
      expect(html).toContain(shows);
      expect(await violationsOf(page, pageOf(html, theme))).toEqual([]);
    });

    test('another size, and one that cannot be', async () => {
      const formula = 'Walnut rye';
      const html = await insideOf(`┆${RYE}`, { sizes: [{ formula, size: { by: 'pieces', value: '5' } }], wanted: { formula, size: { by: 'have', value: 'much "walnuts"' } } });
      expect(html).toContain('Shown at 5 loaves');
      expect(html).toContain('role="alert"');
      expect(await violationsOf(page, pageOf(html, theme))).toEqual([]);
    });

    test('empty', async () => {
      expect(await violationsOf(page, pageOf(EMPTY_PAGE, theme))).toEqual([]);
    });
  });

  test('a fault would be found: a picture without words, and letters that are hardly there', async () => {
    const faulty = '<img src="data:,"><p style="color: #eee; background: #fff">salt</p>';
    const found = await violationsOf(page, pageOf(faulty, THEMES[0]!));
    expect(found.map((each) => each.split(':')[0])).toEqual(expect.arrayContaining(['image-alt', 'color-contrast']));
  });
});
