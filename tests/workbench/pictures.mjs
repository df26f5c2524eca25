// Takes the pictures of the README: a sample with a finding, its hover and the preview beside it, light and dark.
//   npm run build && node tests/workbench/pictures.mjs
import path from 'node:path';
import config from './e2e.config.mjs';
import { startHost } from './lib/hosts.mjs';
import { installHosts } from './lib/install-hosts.mjs';
import { launchBrowser, Workbench } from './lib/workbench.mjs';

const FILE = 'apricot-hearth.bake';
const themes = { light: 'Light Modern', dark: 'Dark Modern' };

installHosts();
config.workspace = path.join(config.extension, 'samples');
Object.assign(config.settings, { 'editor.minimap.enabled': false, 'workbench.activityBar.location': 'hidden', 'workbench.statusBar.visible': true });
const browser = await launchBrowser();
for (const [name, theme] of Object.entries(themes)) {
  config.settings['workbench.colorTheme'] = theme;
  const host = await startHost('server');
  const workbench = await Workbench.open(browser, host, { width: 1440, height: 900 });
  try {
    await workbench.openFile(FILE);
    await workbench.command('View: Close Primary Side Bar');
    await workbench.command('Proofsheet: Open Preview to the Side');
    const preview = workbench.webview();
    await preview.locator('.figures').waitFor();
    await preview.locator('#anchor-time').fill('2026-03-14T08:00');
    await preview.locator('.span').filter({ hasText: '14 Mar 08:00' }).waitFor();
    await workbench.hover('walnuts').catch(() => workbench.hover('dough'));
    await workbench.page.waitForTimeout(400); // fades
    await workbench.page.screenshot({ path: path.join(config.extension, 'syntaxes', 'pictures', `editor-${name}.png`) });
  } finally {
    await workbench.close();
    await host.stop();
  }
}
await browser.close();
