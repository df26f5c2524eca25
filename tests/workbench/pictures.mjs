// Takes pictures of all that a baker sees of the extension, light and dark, to be looked at: into results/pictures/. Three of them, in
// both themes, are those of the README: into syntaxes/pictures/ with --readme.
//   npm run build && node tests/workbench/pictures.mjs [--readme] [--only light,dark]
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import config from './e2e.config.mjs';
import { startHost } from './lib/hosts.mjs';
import { installHosts } from './lib/install-hosts.mjs';
import { unpackExtension } from './lib/unpack-extension.mjs';
import { eventually, launchBrowser, Workbench } from './lib/workbench.mjs';

const { values: options } = parseArgs({ options: { readme: { type: 'boolean', default: false }, only: { type: 'string', default: 'light,dark' } } });
const themes = { light: 'Default Light Modern', dark: 'Default Dark Modern' };
const formula = 'apricot-hearth.bake';
/** Those of the README. */
const inReadme = ['editor', 'day', 'compare'];
const MOST_BYTES = 120_000;
const folder = path.join(config.results, 'pictures');
const samples = path.join(config.root, 'samples');

installHosts();
await unpackExtension();
mkdirSync(folder, { recursive: true });
config.workspace = samples;
Object.assign(config.settings, {
  'editor.minimap.enabled': false, 'editor.scrollbar.vertical': 'hidden', 'editor.scrollbar.horizontal': 'hidden',
  'editor.stickyScroll.enabled': false, 'workbench.activityBar.location': 'hidden', 'window.autoDetectColorScheme': false,
});
const browser = await launchBrowser();
let failed = 0;
for (const theme of options.only.split(',')) {
  config.settings['workbench.colorTheme'] = themes[theme];
  const host = await startHost('server', { git: true });
  const workbench = await Workbench.open(browser, host, { width: 1360, height: 690 });
  try {
    for (const [name, show] of Object.entries(surfaces(workbench))) await take(workbench, theme, name, show);
  } finally {
    await workbench.close();
    await host.stop();
  }
  await takeCard(theme);
}
await browser.close();
console.log(`pictures: ${path.relative('.', folder)}`);
process.exitCode = failed > 0 ? 1 : 0;

/** A surface that cannot be brought up does not cost the others. */
async function take(workbench, theme, name, show) {
  try {
    const clip = await (await show())?.boundingBox();
    await workbench.page.waitForTimeout(500); // fades
    const picture = { clip: clip ?? undefined };
    await workbench.page.screenshot({ ...picture, path: path.join(folder, `${name}-${theme}.png`) });
    if (options.readme && inReadme.includes(name)) {
      const file = path.join(config.root, 'syntaxes', 'pictures', `${name}-${theme}.jpg`);
      const { length } = await workbench.page.screenshot({ ...picture, type: 'jpeg', quality: 72, path: file });
      if (length > MOST_BYTES) throw new Error(`the picture for the README has ${length} bytes, over ${MOST_BYTES}`);
    }
    console.log(`${name}, ${theme}`);
  } catch (error) {
    failed += 1;
    console.error(`${name}, ${theme}: ${error.message}`);
    await workbench.page.screenshot({ path: path.join(folder, `${name}-${theme}-failed.png`) });
  }
}

/** What is shown, one after the other in one window, and the part of the window that the picture is of (all, where none is given). */
function surfaces(workbench) {
  const { page, editor, quickInput } = workbench;
  const preview = workbench.webview();
  const editors = page.locator('.part.editor').first();
  const beside = page.locator('.part.editor .editor-group-container').last();
  const press = async (...keys) => {
    for (const key of keys) await page.keyboard.press(key);
  };
  const scrollTo = (selector) => preview.locator(selector).first().evaluate((element) => element.scrollIntoView({ block: 'start' }));
  return {
    /** Too much salt, what the mouse says about it, and the sheet beside it. */
    async editor() {
      await workbench.openFile(formula);
      await workbench.command('View: Close Primary Side Bar');
      await workbench.command('Proofsheet: Open Preview to the Side');
      await preview.locator('.figures').waitFor();
      await preview.locator('#anchor-time').fill('2027-03-13T08:00');
      await preview.locator('.span').filter({ hasText: '13 Mar 08:00' }).waitFor();
      await press('Control+1');
      await workbench.goTo('36 g      salt');
      await press('Delete', 'Delete');
      await page.keyboard.type('60');
      await editor.locator('.squiggly-warning').first().waitFor();
      await preview.locator('.sheet').filter({ hasText: '60' }).waitFor();
      await scrollTo('.sheet h2');
      await workbench.hover('60', 'salt');
      return editors;
    },
    async completion() {
      await workbench.goTo('all       seeds');
      await press('End');
      await page.keyboard.type('\n20 g hon');
      await page.locator('.suggest-widget.visible .monaco-list-row').first().waitFor();
      return editors;
    },
    async 'preview-top'() {
      await press('Escape', 'Control+Z', 'Control+Z', 'Control+Z');
      await eventually(async () => {
        if ((await workbench.lines()).some((line) => line.includes('hon'))) throw new Error('what was begun is still there');
      });
      await scrollTo('h1');
      return beside;
    },
    async 'preview-timeline'() {
      await scrollTo('#timeline h2');
      return beside;
    },
    async 'preview-scaled'() {
      await scrollTo('#size');
      await preview.locator('#size-name').click();
      await preview.locator('#size-pieces').fill('10');
      await preview.locator('#size-pieces').press('Enter');
      await preview.getByText('Shown at 10 loaves').waitFor();
      await scrollTo('#size');
      return beside;
    },
    async 'status-bar'() {
      await press('Control+1');
      return page.locator('.part.statusbar');
    },
    async compare() {
      await press('Control+1');
      await workbench.command('File: Save');
      await page.locator('.tab.dirty').waitFor({ state: 'detached' });
      await workbench.command('Proofsheet: Compare with the Committed Version');
      await preview.getByRole('heading', { name: 'apricot-hearth.bake, since the last commit' }).waitFor();
      await page.mouse.move(4, 4);
      return editors;
    },
    async 'day-top'() {
      await workbench.command('View: Close All Editors');
      await workbench.openFile('market-day.bake');
      await workbench.goTo('Saturday at Cais market"');
      await workbench.command('Proofsheet: Open Preview to the Side');
      await preview.getByRole('heading', { level: 1, name: 'Saturday at Cais market' }).waitFor();
      await preview.getByText('A better day is being looked for.').waitFor({ state: 'hidden', timeout: 60_000 });
      await page.mouse.move(4, 4);
      return editors;
    },
    async day() {
      await scrollTo('#timeline h2');
      return editors;
    },
    async 'day-list'() {
      await scrollTo('.beside');
      return beside;
    },
    async variant() {
      await workbench.command('View: Close All Editors');
      await workbench.openFile('hearth-variants.bake');
      await editor.locator('.codelens-decoration').first().waitFor();
      await workbench.hover('60', 'set');
      return editors;
    },
    async markdown() {
      await workbench.openFile('notebook.md');
      await editor.locator('.codelens-decoration').first().waitFor();
      await workbench.hover('water', '200 g');
      return editors;
    },
    async 'formula-kind'() {
      await page.mouse.move(4, 4);
      await press('F1');
      await quickInput.locator('input[type=text]').fill('>Proofsheet: New Formula…');
      await quickInput.locator('.monaco-list-row').filter({ hasText: 'New Formula…' }).first().click();
      await quickInput.locator('.monaco-list-row').filter({ hasText: 'Hearth loaf' }).waitFor();
      await page.mouse.move(4, 4);
    },
    async 'formula-size'() {
      await quickInput.locator('.monaco-list-row').filter({ hasText: 'Hearth loaf' }).click();
      await quickInput.getByText('How many pieces').waitFor();
      await quickInput.locator('input[type=text]').fill('3 loaves of 40 g');
      await quickInput.getByText('this method is for').waitFor();
    },
    async 'formula-new'() {
      await quickInput.locator('input[type=text]').fill('3 loaves of 800 g');
      await quickInput.getByText('this method is for').waitFor({ state: 'hidden' });
      await press('Enter');
      await quickInput.locator('.monaco-list-row').filter({ hasText: 'Levain' }).click();
      await page.locator('.statusbar-item', { hasText: '3 × 800 g' }).waitFor();
    },
    async walkthrough() {
      await workbench.command('View: Close All Editors').catch(() => undefined);
      const refuse = page.locator('.monaco-dialog-box').getByRole('button', { name: /Don.t Save/ });
      await refuse.click({ timeout: 5_000 }).catch(() => undefined);
      await press('F1');
      await quickInput.locator('input[type=text]').fill('>Welcome: Open Walkthrough...');
      await quickInput.locator('.monaco-list-row').filter({ hasText: 'Open Walkthrough' }).first().click();
      await quickInput.locator('.monaco-list-row').filter({ hasText: 'Your first bake formula' }).click();
      await page.getByText('Write down a formula').first().waitFor();
    },
  };
}

/** The method card is a page of its own, for any browser. */
async function takeCard(theme) {
  const card = path.join(folder, 'card.html');
  const cli = path.join(config.root, 'dist', 'cli.cjs');
  writeFileSync(card, execFileSync(process.execPath, [cli, 'export', path.join(samples, formula), '--to', 'html', '--ready', '2027-03-13 08:00', '--zone', 'Europe/Lisbon']));
  const page = await browser.newPage({ viewport: { width: 900, height: 1270 }, colorScheme: theme });
  await page.setContent(readFileSync(card, 'utf8'));
  await page.screenshot({ path: path.join(folder, `card-${theme}.png`), fullPage: true });
  await page.close();
  console.log(`card, ${theme}`);
}
