// Takes the pictures of the README: a sample with too much salt, what the mouse says about it and the preview beside it,
// light and dark.
//   npm run build && node tests/workbench/pictures.mjs
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import config from './e2e.config.mjs';
import { startHost } from './lib/hosts.mjs';
import { installHosts } from './lib/install-hosts.mjs';
import { unpackExtension } from './lib/unpack-extension.mjs';
import { launchBrowser, Workbench } from './lib/workbench.mjs';

const FILE = 'apricot-hearth.bake';
const themes = { light: 'Default Light Modern', dark: 'Default Dark Modern' };

installHosts();
await unpackExtension();
const workspace = mkdtempSync(path.join(tmpdir(), 'pictures-'));
cpSync(path.join(config.root, 'samples'), workspace, { recursive: true });
const file = path.join(workspace, FILE);
writeFileSync(file, readFileSync(file, 'utf8').replace(/^ {2}36 g {6}salt$/m, '  60 g      salt'));
config.workspace = workspace;
Object.assign(config.settings, { 'editor.minimap.enabled': false, 'editor.scrollbar.vertical': 'hidden', 'editor.scrollbar.horizontal': 'hidden', 'editor.stickyScroll.enabled': false, 'workbench.activityBar.location': 'hidden', 'window.autoDetectColorScheme': false });
const browser = await launchBrowser();
for (const [name, theme] of Object.entries(themes)) {
  config.settings['workbench.colorTheme'] = theme;
  const host = await startHost('server');
  const workbench = await Workbench.open(browser, host, { width: 1360, height: 690 });
  try {
    await workbench.openFile(FILE);
    await workbench.command('View: Close Primary Side Bar');
    await workbench.command('Proofsheet: Open Preview to the Side');
    const preview = workbench.webview();
    await preview.locator('.figures').waitFor();
    await preview.locator('#anchor-time').fill('2026-03-14T08:00');
    await preview.locator('.span').filter({ hasText: '14 Mar 08:00' }).waitFor();
    await workbench.page.keyboard.press('Control+1');
    // One picture shows the sheet and a finding, the other the timeline and the method.
    await preview.locator(name === 'light' ? '.sheet h2' : '#timeline h2').evaluate((heading) => heading.scrollIntoView({ block: 'start' }));
    await workbench.page.keyboard.press('Control+G');
    await workbench.page.keyboard.type('22');
    await workbench.page.keyboard.press('Enter');
    await workbench.editor.locator('.squiggly-warning').first().waitFor();
    if (name === 'light') await workbench.hover('60', 'salt');
    else await workbench.page.mouse.move(4, 4);
    await workbench.page.waitForTimeout(400); // fades
    const clip = await workbench.page.locator('.part.editor').first().boundingBox();
    await workbench.page.screenshot({ clip, path: path.join(config.root, 'syntaxes', 'pictures', `editor-${name}.png`) });
  } finally {
    await workbench.close();
    await host.stop();
  }
}
await browser.close();
rmSync(workspace, { recursive: true });
