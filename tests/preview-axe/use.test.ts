/** The preview's page in use, in Chromium: by keyboard, at any size of window, in colours that the system forces, and safely. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { hasBrowser, launchBrowser } from '../workbench/lib/workbench.mjs';
import { RYE } from '../features/marked';
import { openPreview, type OpenOptions, type Opened } from './window';

const PLAN = `plan "Market"
  ready     2026-05-16 08:30 Europe/Lisbon
  asleep    22:30 to 04:00
  oven      holds 2 loaves
  bake      6 loaves of "Fig and walnut rye"
`;
const SIZES = [{ uri: 'file:///stall/main.bake', formula: 'Fig and walnut rye', size: { by: 'pieces', value: '5', step: '1 g', smallStep: '0.1 g' } }] as const;

if (!hasBrowser()) console.log('The preview is not tried in a browser: there is no Chromium. Install it (Debian: apt-get install chromium), or set E2E_CHROMIUM.');

describe.runIf(hasBrowser())('the preview in use', () => {
  let browser: Browser;
  const opened: Opened[] = [];
  const open = async (text = `┆${RYE}`, options?: OpenOptions): Promise<Opened> => {
    const one = await openPreview(browser, text, options);
    opened.push(one);
    return one;
  };
  beforeAll(async () => {
    browser = await launchBrowser();
  });
  afterEach(async () => {
    for (const { page, trouble } of opened.splice(0)) {
      expect(trouble).toEqual([]); // neither the policy nor the script had anything to say
      await page.close();
    }
  });
  afterAll(() => browser?.close());

  describe('another size', () => {
    test('is asked for in a field, shown everywhere, kept for after a reload, and goes back', async () => {
      const { page, said, state } = await open();
      await page.locator('summary').click();
      await page.locator('#size-pieces').fill('5');
      await page.keyboard.press('Enter');
      await page.getByText('Shown at 5 loaves, the file says 2.').waitFor();
      expect(said.at(-1)).toEqual({ type: 'size', size: { by: 'pieces', value: '5', step: '1 g', smallStep: '0.1 g' } });
      expect(await page.locator('#size-dough').inputValue()).toBe('4850');
      expect(await page.locator('#sheet tbody tr').first().innerText()).toMatch(/bread flour\s+1750/);
      expect((await state()).sizes).toEqual(SIZES);
      // The field that was typed in keeps the focus, the fields stay open.
      expect(await page.evaluate(() => document.activeElement?.id)).toBe('size-pieces');
      expect(await page.locator('#size-fields').getAttribute('open')).not.toBeNull();
      await page.getByRole('button', { name: 'Back to the file’s size' }).focus();
      await page.keyboard.press('Enter');
      await page.getByText('Shown at').waitFor({ state: 'detached' });
      expect(said.at(-1)).toEqual({ type: 'do', action: 'size-back' });
      expect(await page.locator('#size-pieces').inputValue()).toBe('2');
      expect(await page.evaluate(() => document.activeElement?.id)).toBe('size-name');
      expect((await state()).sizes).toEqual([]);
    });

    test('comes back with the panel, and can be written into the file', async () => {
      const { page, said } = await open(undefined, { sizes: SIZES });
      await page.getByText('Shown at 5 loaves, the file says 2.').waitFor();
      await page.getByRole('button', { name: 'Write this size into the file' }).click();
      expect(said.at(-1)).toEqual({ type: 'do', action: 'size-write' });
    });

    test('one that cannot be is said beside its field, while what is typed stays', async () => {
      const { page } = await open(undefined, { sizes: SIZES });
      await page.locator('#size-dough').fill('plenty');
      await page.keyboard.press('Enter');
      const why = page.locator('#size-dough-why');
      await why.waitFor();
      const field = page.locator('#size-dough');
      expect(await field.inputValue()).toBe('plenty');
      expect(await field.getAttribute('aria-invalid')).toBe('true');
      expect(await field.getAttribute('aria-describedby')).toBe('size-dough-why');
      const [below, above] = [(await why.boundingBox())!, (await field.boundingBox())!];
      expect(below.y - above.y - above.height).toBeLessThan(12);
      await page.getByText('Shown at 5 loaves').waitFor();
      await field.fill('3');
      await field.fill('2.91 kg');
      await page.keyboard.press('Enter');
      await page.getByText('Shown at 3 loaves').waitFor();
      await why.waitFor({ state: 'detached' });
    });

    test('by what there is of an ingredient: its name and its unit go with the number', async () => {
      const { page, said, write } = await open();
      await page.locator('summary').click();
      await page.locator('#size-have-of').selectOption('walnuts');
      expect(await page.locator('#size-have').inputValue()).toBe('120');
      // The choice stays over an edit of the text.
      await write(`┆${RYE.replace('120 g     walnuts', '140 g     walnuts')}`);
      expect(await page.locator('#size-have-of').inputValue()).toBe('walnuts');
      expect(await page.locator('#size-have').inputValue()).toBe('140');
      await page.locator('#size-have').fill('280');
      await page.keyboard.press('Enter');
      await page.getByText('Shown at 4 loaves').waitFor();
      expect(said.at(-1)).toMatchObject({ size: { by: 'have', value: '280 g "walnuts"' } });
      expect(await page.locator('#size-have').inputValue()).toBe('280');
    });

    test('another rounding is of the size on show', async () => {
      const { page, said } = await open(undefined, { sizes: SIZES });
      await page.locator('#size-step').selectOption('');
      await page.getByText('Shown at 5 loaves').waitFor();
      expect(said.at(-1)).toEqual({ type: 'size', size: { by: 'pieces', value: '5' } });
      expect(await page.locator('#size-step').inputValue()).toBe('');
    });
  });

  test('an edit of the text changes what is different: scroll, focus and a half-typed size stay', async () => {
    const { page, write } = await open();
    await page.locator('summary').click();
    await page.locator('#size-flour').fill('2 k');
    await page.evaluate(() => window.scrollTo(0, 120));
    await write(`┆${RYE.replace('600 g     water', '650 g     water')}`);
    expect(await page.locator('#size-flour').inputValue()).toBe('2 k');
    expect(await page.evaluate(() => [document.activeElement?.id, window.scrollY])).toEqual(['size-flour', 120]);
    expect(await page.locator('#sheet').innerText()).toMatch(/water\s+750/);
  });

  describe('by keyboard alone', () => {
    /** Ids or names of all stops of the tab key, until it leaves the page. */
    const stops = async (page: Page): Promise<string[]> => {
      const found: string[] = [];
      for (let press = 0; press < 400; press += 1) {
        await page.keyboard.press('Tab');
        const at = await page.evaluate(() => {
          const element = document.activeElement;
          if (!element || element === document.body) return undefined;
          const { outlineStyle, outlineWidth } = getComputedStyle(element);
          const marked = outlineStyle !== 'none' && outlineWidth !== '0px';
          return `${marked ? '' : 'no mark on '}${element.id || element.getAttribute('data-do') || (element.getAttribute('aria-label') ?? element.textContent).trim().replace(/\s+/g, ' ')}`;
        });
        if (at === undefined) return found;
        found.push(at);
      }
      throw new Error('the tab key never leaves the page');
    };

    test('every control is reached, each shows that it has the focus, and none holds it', async () => {
      const { page } = await open(undefined, { sizes: SIZES });
      const all = await stops(page);
      // The last stop in a date field is its calendar button, which the browser marks by itself.
      expect(all.filter((one) => one.startsWith('no mark') && one !== 'no mark on anchor-time')).toEqual([]);
      for (const control of ['size-back', 'size-write', 'size-name', 'size-pieces', 'size-have-of', 'size-have', 'size-step', 'anchor-kind', 'anchor-time', 'time-plan', 'walnuts', 'retard']) {
        expect(all).toContain(control);
      }
      const shown = await page.locator('button:visible, input:visible, select:visible, summary:visible').count();
      // A date field has more stops than one, and the picture one for all its bars.
      expect(new Set(all).size).toBeGreaterThan(40);
      expect(all.length).toBeGreaterThanOrEqual(shown);
    });

    test('a line is gone to by the enter key, and bars by the arrows', async () => {
      const { page, said } = await open();
      await page.getByRole('button', { name: 'walnuts' }).first().focus();
      await page.keyboard.press('Enter');
      expect(said.at(-1)).toEqual({ type: 'line', line: RYE.split('\n').findIndex((line) => line.includes('walnuts, toasted')) + 1 });
      await page.locator('.step[tabindex="0"]').focus();
      await page.keyboard.press('ArrowRight');
      expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toMatch(/^ripen, 8 h/);
      await page.keyboard.press('Enter');
      expect(said.at(-1)).toEqual({ type: 'line', line: RYE.split('\n').findIndex((line) => line.includes('ripen')) + 1 });
    });
  });

  /** 1280 px wide at 200 and 400 %, and a narrow column beside the text. */
  test.each([640, 320])('%i px wide nothing but tables and pictures scrolls sideways, and nothing is cut', async (width) => {
    for (const text of [`┆${RYE}`, `${RYE}\n┆${PLAN}`, `┆${RYE.replace('Fig and walnut rye', 'Rye'.repeat(40))}`]) {
      const { page } = await open(text, { width });
      await page.locator('#size summary').click({ timeout: 1000 }).catch(() => undefined); // a plan has none
      const over = await page.evaluate(() => {
        const wide = [...document.querySelectorAll('body *')].filter((element) => (
          element.closest('.scroller, .unseen, svg') === null && element.getBoundingClientRect().right > document.documentElement.clientWidth + 0.5
        ));
        return [document.documentElement.scrollWidth - document.documentElement.clientWidth, ...wide.map((element) => element.outerHTML.slice(0, 90))];
      });
      expect(over).toEqual([0]);
    }
  });

  test('with forced colours the pictures are told apart by shape and texture, and controls have borders', async () => {
    const { page } = await open(undefined, { sizes: SIZES });
    await page.emulateMedia({ forcedColors: 'active' });
    const looks = await page.evaluate(() => {
      const style = (selector: string): CSSStyleDeclaration => getComputedStyle(document.querySelector(selector)!);
      return {
        work: style('.hands-on rect').fill, waiting: style('.waiting rect').fill, edge: style('.step rect').stroke, paper: style('body').backgroundColor,
        bars: ['flour', 'water', 'other', 'inclusions'].map((kind) => style(`.bar rect.${kind}`).fill), barEdge: style('.bar rect').strokeWidth,
        buttons: style('.action').borderTopStyle, error: style('.note').borderLeftStyle,
      };
    });
    expect(looks.waiting).toBe(looks.paper);
    expect(looks.work).not.toBe(looks.paper);
    expect(looks.edge).toBe(looks.work);
    expect(new Set(looks.bars).size).toBe(4);
    expect(looks).toMatchObject({ barEdge: '1px', buttons: 'solid', error: 'solid' });
  });

  test('nothing moves by itself', async () => {
    const { page } = await open();
    expect(await page.evaluate(() => [...document.querySelectorAll('*')].filter((element) => {
      const { transitionDuration, animationName, scrollBehavior } = getComputedStyle(element);
      return transitionDuration !== '0s' || animationName !== 'none' || scrollBehavior === 'smooth';
    }).length)).toBe(0);
  });

  test('a screen reader is told what the pictures show, with the numbers', async () => {
    const { page } = await open();
    const picture = page.getByRole('group', { name: /^Timeline\. Begun Fri 13 Mar [\d:]+, ready Sat 14 Mar 08:00, 28 h \d+ min in all/ });
    await picture.waitFor();
    await picture.getByRole('button', { name: /^retard, 13 h, Fri [\d:]+ – [\d:]+ Sat/ }).waitFor();
    const dough = page.getByRole('region', { name: 'The dough by weight' });
    expect(await dough.innerText()).toMatch(/Flour\s946 g\s48\.8 %[\s\S]*Water\s706 g\s36\.4 %[\s\S]*Other \(salt\)\s18 g[\s\S]*Inclusions, carried by it\s270 g/);
    expect(await dough.locator('svg.bar').getAttribute('aria-hidden')).toBe('true');
    await page.locator('summary').click();
    await page.getByRole('textbox', { name: 'Number of loaves' }).waitFor();
    await page.getByRole('textbox', { name: /^What I have of .*starter/ }).waitFor();
    expect(await page.locator('#size-shown').getAttribute('role')).toBe('status');
  });

  test('what a file says is text, and nothing is fetched or run', async () => {
    const evil = '<img src=http://preview.localhost/x onerror=alert(1)>';
    const { page, trouble } = await open(`┆${RYE.replaceAll('walnuts', `"${evil}"`).replace('"blue', evil).replace('Fig and', evil)}`, { sizes: SIZES });
    let asked = false;
    page.on('dialog', (dialog) => {
      asked = true;
      void dialog.dismiss();
    });
    expect(await page.locator('img, script:not([nonce])').count()).toBe(0);
    expect(await page.locator('h1').innerText()).toContain(evil);
    expect(asked).toBe(false);
    // The policy itself: a script that got in would not run.
    await page.evaluate(() => document.querySelector('#page')!.insertAdjacentHTML('beforeend', '<iframe srcdoc="<script>parent.ran = true</script>"></iframe>'));
    await expect.poll(() => trouble.length).toBe(1);
    expect(trouble.splice(0)).toEqual([expect.stringContaining('violates the following Content Security Policy directive')]);
    expect(await page.evaluate(() => 'ran' in window)).toBe(false);
  });
});
