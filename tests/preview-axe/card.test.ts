/**
 * Method cards in Chromium: a usual formula fits one sheet of paper, of A4 and of Letter; axe-core finds nothing in light or in dark; a
 * phone shows all of it; and the page's own content policy lets its style in. Without Chromium it says how to get one.
 */
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import type { AxeResults, RunOptions } from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { exported } from '../../server/output/export/forms';
import { exportsOf, NASTY, SAMPLES, sampleEntries } from '../output/export/samples';
import { hasBrowser, launchBrowser } from '../workbench/lib/workbench.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const PAPERS = ['A4', 'Letter'] as const;

if (!hasBrowser()) console.log('Method cards are not looked at in a browser: there is no Chromium. Install it (Debian: apt-get install chromium), or set E2E_CHROMIUM.');

describe.runIf(hasBrowser())('a method card', () => {
  let browser: Browser;
  let page: Page;
  const complaints: string[] = [];
  beforeAll(async () => {
    browser = await launchBrowser();
    page = await browser.newPage({ viewport: { width: 1000, height: 1200 } });
    page.on('console', (message) => complaints.push(message.text()));
    page.on('request', (request) => complaints.push(`asked for ${request.url()}`));
  });
  afterAll(() => browser?.close());

  async function pagesOn(format: (typeof PAPERS)[number], html: string): Promise<number> {
    await page.emulateMedia({ colorScheme: 'light' });
    await page.setContent(html);
    const pdf = await page.pdf({ format });
    return [...pdf.toString('latin1').matchAll(/\/Type\s*\/Page\b/g)].length;
  }

  describe.each(PAPERS)('on %s', (format) => {
    test.each(SAMPLES)('%s fits one sheet for each formula, with and without clock times', async (sample) => {
      for (const ready of [undefined, '2027-03-13 08:00']) {
        const entries = await sampleEntries(sample, ready);
        expect(await pagesOn(format, exported('html', entries, 0))).toBe(entries.length);
      }
    });
  });

  async function violations(html: string, colorScheme: 'light' | 'dark'): Promise<readonly string[]> {
    // A page of its own: the policy of one document would hold for the next that is written into it.
    const fresh = await browser.newPage({ colorScheme });
    await fresh.setContent(html);
    // The document lets no script in, so it is looked at from outside its policy.
    const found = await fresh.evaluate(`(() => { ${axe}; return axe.run(${JSON.stringify({ resultTypes: ['violations', 'passes'] } satisfies RunOptions)}); })()`) as AxeResults;
    await fresh.close();
    expect(found.passes.length).toBeGreaterThan(10);
    return found.violations.flatMap(({ id, help, nodes }) => nodes.map(({ html: element }) => `${id}: ${help}\n  ${element.slice(0, 160)}`));
  }

  test.each(['light', 'dark'] as const)('can be read by everyone, in %s', async (colorScheme) => {
    for (const entries of [await sampleEntries('apricot-hearth.bake', '2027-03-13 08:00'), await sampleEntries('notebook.md'), await sampleEntries('mistakes.bake'), exportsOf(NASTY)]) {
      expect(await violations(exported('html', entries, 0), colorScheme)).toEqual([]);
    }
  });

  test('a fault would be found: letters that are hardly there', async () => {
    const html = exported('html', await sampleEntries('knots.bake'), 0).replace(/<meta http-equiv[^>]*>/, '').replace('</style>', 'small, .small { color: #eee; }</style>');
    expect((await violations(html, 'light')).some((each) => each.startsWith('color-contrast'))).toBe(true);
  });

  test('does not scroll sideways on a phone', async () => {
    await page.setViewportSize({ width: 360, height: 740 });
    for (const sample of SAMPLES) {
      await page.setContent(exported('html', await sampleEntries(sample, '2027-03-13 08:00'), 0));
      expect(await page.evaluate('document.documentElement.scrollWidth'), sample).toBeLessThanOrEqual(360);
    }
    await page.setViewportSize({ width: 1000, height: 1200 });
  });

  test('has its style, asks for nothing and is refused nothing', async () => {
    complaints.length = 0;
    await page.setContent(exported('html', exportsOf(NASTY), 0));
    expect(await page.evaluate("getComputedStyle(document.querySelector('.title')).marginTop")).toBe('0px');
    expect(complaints).toEqual([]);
  });
});
