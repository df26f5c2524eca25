/** The preview on paper, through Chromium's print to PDF: A4 and Letter. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasBrowser, launchBrowser } from '../workbench/lib/workbench.mjs';
import { RYE } from '../features/marked';
import { THEMES } from './themes';
import { openPreview } from './window';

const sample = (name: string): string => readFileSync(path.join(import.meta.dirname, '..', '..', 'samples', `${name}.bake`), 'utf8');

const FORMULAS: readonly (readonly [name: string, text: string])[] = [
  ['rye', RYE], ['hearth loaf', sample('apricot-hearth')], ['country loaf', sample('country-loaf')], ['tin loaf', sample('seeded-tin')], ['knots', sample('knots')],
];
/** Eight parts beside one another, names that are long, and forty things in the dough. */
const WIDE = `formula "Wide"\n\n${Array.from({ length: 8 }, (_, at) => `soaker "seeds number ${at + 1} of the day"\n  ${40 + at} g sunflower seeds\n  50 g water\n\n`).join('')}dough\n  500 g bread flour\n  300 g water\n  10 g salt\n`
  + `${Array.from({ length: 36 }, (_, at) => `  ${at + 3} g   "roasted seed mix number ${at + 1} from the mill by the river" as inclusion\n`).join('')}${Array.from({ length: 8 }, (_, at) => `  all seeds number ${at + 1} of the day\n`).join('')}`;

const PAPERS = [
  { format: 'A4', widthMm: 210 },
  { format: 'Letter', widthMm: 215.9 },
] as const;
const MARGIN = '12mm';

if (!hasBrowser()) console.log('The preview is not printed: there is no Chromium. Install it (Debian: apt-get install chromium), or set E2E_CHROMIUM.');

describe.runIf(hasBrowser())('on paper', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launchBrowser();
  });
  afterAll(() => browser?.close());

  describe.each(PAPERS)('$format', ({ format, widthMm }) => {
    test.each(FORMULAS)('%s takes two pages at most', async (_name, text) => {
      const { page } = await openPreview(browser, `┆${text}`, { theme: THEMES[1]! });
      const pdf = await page.pdf({ format, margin: { top: MARGIN, bottom: MARGIN, left: MARGIN, right: MARGIN } });
      const pages = Number(/\/Count (\d+)/.exec(pdf.toString('latin1'))?.[1]);
      expect(pages).toBeGreaterThanOrEqual(1);
      expect(pages).toBeLessThanOrEqual(2);
      await page.close();
    });

    test.each([...FORMULAS, ['wide', WIDE] as const])('%s: nothing lies beyond the right edge', async (_name, text) => {
      const { page } = await openPreview(browser, `┆${text}`, { width: Math.floor(((widthMm - 24) / 25.4) * 96) });
      await page.emulateMedia({ media: 'print' });
      const beyond = await page.evaluate(() => [...document.querySelectorAll('body *')]
        .filter((element) => element.closest('.unseen, pattern') === null && element.getBoundingClientRect().right > document.documentElement.clientWidth + 3)
        .map((element) => element.outerHTML.slice(0, 100)));
      expect(beyond).toEqual([]);
      await page.close();
    });
  });

  test('ink on white in any theme, no controls, rows whole, and the size that is shown', async () => {
    const sizes = [{ uri: 'file:///stall/main.bake', formula: 'Fig and walnut rye', size: { by: 'pieces', value: '5' } }];
    const { page } = await openPreview(browser, `┆${RYE}`, { theme: THEMES[1]!, sizes });
    expect(await page.getByRole('button', { name: 'Write this size into the file' }).isVisible()).toBe(true);
    await page.emulateMedia({ media: 'print' });
    for (const control of ['.action', '#size-fields', 'select', 'input', 'summary']) expect(await page.locator(control).locator('visible=true').count(), control).toBe(0);
    expect(await page.getByText('Shown at 5 loaves, the file says 2.').isVisible()).toBe(true);
    expect(await page.evaluate(() => {
      const { backgroundColor, color } = getComputedStyle(document.body);
      return { backgroundColor, color, rows: [...new Set([...document.querySelectorAll('tr, li')].map((row) => getComputedStyle(row).breakInside))] };
    })).toEqual({ backgroundColor: 'rgb(255, 255, 255)', color: 'rgb(0, 0, 0)', rows: ['avoid'] });
    await page.close();
  });
});
