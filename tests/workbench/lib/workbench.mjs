// Opens a host's workbench in Chromium and drives it like a user.
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { chromium } from 'playwright-core';
import config from '../e2e.config.mjs';

const debian = '/usr/bin/chromium';

/** Whether there is a browser to drive. */
export function hasBrowser() {
  return existsSync(process.env.E2E_CHROMIUM ?? debian) || existsSync(chromium.executablePath());
}

/** Start it once per test file: contexts are cheap, browsers are not. */
export function launchBrowser() {
  return chromium.launch({
    executablePath: process.env.E2E_CHROMIUM ?? (existsSync(debian) ? debian : undefined),
    headless: !process.env.E2E_HEADED,
    args: [
      '--no-sandbox', '--disable-gpu', '--disable-quic', '--disable-sync',
      // Nothing may depend on the internet: every other name fails at once.
      '--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE localhost, EXCLUDE *.localhost, EXCLUDE 127.0.0.1',
    ],
  });
}

/** Repeats an assertion until it holds. The workbench renders when it likes: never assert on its state just once. */
export async function eventually(assertion, timeout = 10_000) {
  for (const end = Date.now() + timeout; ; await new Promise((resolve) => setTimeout(resolve, 50))) {
    try {
      return await assertion();
    } catch (error) {
      if (Date.now() > end) {
        throw error;
      }
    }
  }
}

export class Workbench {
  /** A fresh browser profile with the host's workbench, ready for input. */
  static async open(browser, host, viewport = { width: 1280, height: 800 }) {
    const context = await browser.newContext({ viewport });
    context.setDefaultTimeout(20_000);
    const page = await context.newPage();
    const log = [];
    page.on('console', (message) => log.push(`${message.type()}: ${message.text()}`));
    page.on('pageerror', (error) => log.push(`uncaught: ${error.stack}`));
    await page.goto(host.url);
    const workbench = new Workbench(page, host, log);
    await workbench.ready();
    return workbench;
  }

  async ready() {
    // window.driver is there because the hosts enable the smoke test driver.
    await this.page.waitForFunction(() => globalThis.driver, undefined, { timeout: 60_000 });
    await this.page.evaluate(() => globalThis.driver.whenWorkbenchRestored());
  }

  /**
   * Reloads the window, as after an update. By the workbench's own command: a reload by the browser loses what the
   * workbench has not stored yet, such as which editors are open. Save first: an unsaved file would ask.
   */
  async reload() {
    const loaded = this.page.waitForEvent('load');
    await this.command('Developer: Reload Window').catch(() => undefined); // the palette goes away with the page
    await loaded;
    await this.ready();
  }

  constructor(page, host, log) {
    this.page = page;
    this.host = host;
    this.log = log;
    this.editor = page.locator('.editor-instance .monaco-editor').first();
    this.quickInput = page.locator('.quick-input-widget');
  }

  close() {
    return this.page.context().close();
  }

  /** Opens a file of the workspace by its relative path, through Quick Open. */
  async openFile(file) {
    const name = path.basename(file);
    await this.pick('Control+P', file, name);
    await this.page.getByRole('tab', { name }).waitFor();
    await this.editor.locator('.view-line').first().waitFor();
  }

  /** Runs a command by its title in the command palette. The extension is activated on demand. */
  async command(title) {
    await this.pick('F1', `>${title}`, title);
  }

  /** A hand that finds the box gone, because the focus was still on its way, presses the key again. */
  async pick(key, filter, label) {
    const input = this.quickInput.locator('input[type=text]');
    await eventually(async () => {
      if (!await input.isVisible()) await this.page.keyboard.press(key);
      await input.fill(filter, { timeout: 2_000 });
      await this.quickInput.locator('.monaco-list-row').filter({ hasText: label }).first().click({ timeout: 8_000 });
    }, 30_000);
    await this.quickInput.waitFor({ state: 'hidden' });
  }

  /** The lines on screen. The editor renders spaces as no-break spaces, and lines in no particular order. */
  async lines() {
    const lines = await this.editor.locator('.view-line').evaluateAll((all) => all
      .sort((a, b) => parseFloat(a.style.top) - parseFloat(b.style.top)).map((line) => line.textContent));
    return lines.map((line) => line.replaceAll('\u00a0', ' '));
  }

  /** Types at the end of the file (or wherever `keys` moves the cursor to). */
  async type(text, keys = ['Control+End']) {
    await this.editor.locator('.native-edit-context').focus(); // a textarea.inputarea if editor.editContext is off
    for (const key of keys) {
      await this.page.keyboard.press(key);
    }
    await this.page.keyboard.type(text);
  }

  /** Puts the cursor in front of the first such text, by the editor's own search. */
  async goTo(text) {
    await this.editor.locator('.native-edit-context').focus();
    for (const key of ['Control+Home', 'Control+F']) await this.page.keyboard.press(key);
    const find = this.page.locator('.find-widget.visible');
    await find.locator('textarea').first().fill(text);
    await find.getByText(/^1 of /).waitFor();
    // A hover that is open takes the first Escape for itself.
    await eventually(async () => {
      await this.page.keyboard.press('Escape');
      await find.waitFor({ state: 'hidden', timeout: 1_000 });
    });
    await this.page.keyboard.press('ArrowLeft');
  }

  /** Waits until the workbench says something with these words. With a test driver it shows no toasts, only its list of them. */
  async notification(words) {
    const message = this.page.locator('.notifications-center .notification-list-item-message').filter({ hasText: words }).first();
    await eventually(async () => {
      await this.command('Notifications: Show Notifications');
      await message.waitFor({ timeout: 1_000 });
    }, 20_000);
    await this.page.keyboard.press('Escape');
  }

  /**
   * Rests the mouse on a word, the first on a line that has some text, and returns the hover's text. Lines move while the editor finishes
   * drawing (lines of totals come in above them), so that it looks again where the word is until a hover shows.
   */
  async hover(word, lineWith = word) {
    const hover = this.page.locator('.monaco-hover:visible .hover-contents');
    await eventually(async () => {
      const { x, y } = await this.placeOf(word, lineWith);
      await this.page.mouse.move(x - 2, y - 60);
      await this.page.mouse.move(x - 2, y);
      await this.page.mouse.move(x, y); // the editor reacts to movement, not to a position
      await hover.first().waitFor({ timeout: 2_000 });
    }, 20_000);
    return (await hover.allInnerTexts()).join('\n');
  }

  /** The middle of the first occurrence of a word on the first line that has some text. */
  placeOf(word, lineWith) {
    return this.editor.locator('.view-line').filter({ hasText: lineWith }).first().evaluate((line, word) => {
      const walker = document.createTreeWalker(line, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const at = node.data.indexOf(word);
        if (at >= 0) {
          const range = document.createRange();
          range.setStart(node, at);
          range.setEnd(node, at + word.length);
          const box = range.getBoundingClientRect();
          return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
        }
      }
      throw new Error(`no ${word}`);
    }, word);
  }

  /** Opens the Problems view and returns the locator of its rows. */
  async problems() {
    await this.command('Problems: Focus on Problems View');
    return this.page.locator('.markers-panel').getByRole('treeitem');
  }

  /** The document inside the (only) visible webview: an iframe of VS Code's around an iframe of the extension's. */
  webview() {
    return this.page.frameLocator('iframe.webview.ready:visible').frameLocator('iframe#active-frame');
  }

  /** Keeps a screenshot and the log of the workbench and its host. */
  async record(name) {
    const file = path.join(config.results, name.replaceAll(/\W+/g, '-'));
    mkdirSync(config.results, { recursive: true });
    await this.page.screenshot({ path: `${file}.png` });
    writeFileSync(`${file}.log`, [...this.log, this.host.log()].join('\n'));
  }
}
