// A file beside its committed version: with a real repository where there is git, and the sentence that says why not where there is none.
import assert from 'node:assert/strict';
import { after, afterEach, before, describe, it } from 'node:test';
import { startHost } from '../lib/hosts.mjs';
import { eventually, launchBrowser, Workbench } from '../lib/workbench.mjs';

const hosts = process.env.E2E_HOSTS?.split(',') ?? ['server', 'web'];
const COMMAND = 'Proofsheet: Compare with the Committed Version';

for (const name of hosts) {
  describe(`the committed version of a file on the ${name} host`, () => {
    let browser, host, workbench, page;

    before(async () => {
      browser = await launchBrowser();
      host = await startHost(name, { git: true });
      workbench = await Workbench.open(browser, host);
      page = workbench.webview();
      await workbench.openFile('rye.bake');
      await workbench.editor.locator('.codelens-decoration').first().waitFor(); // the server has read it
    });
    after(async () => {
      await workbench?.close();
      await browser?.close();
      await host?.stop();
    });
    afterEach((t) => workbench.record(`compare ${name} ${t.name}`));

    if (name === 'web') {
      it('cannot be read in a browser, and that is said', async () => {
        await workbench.command(COMMAND);
        await workbench.notification('There is no git in this editor (in a browser there is none');
        assert.equal(await workbench.page.locator('.tabs-container .tab').count(), 1); // and no page is opened
      });
      return;
    }

    it('is compared by what the change means for the bread, above the formula too, and again at every commit', async () => {
      const changed = workbench.editor.locator('.codelens-decoration a', { hasText: 'Differs from the committed version' });
      assert.equal(await changed.count(), 0);
      await workbench.goTo('560 g');
      for (const key of ['Delete', 'Delete']) await workbench.page.keyboard.press(key);
      await workbench.page.keyboard.type('60');
      await eventually(async () => assert((await workbench.lines()).includes('  600 g     water'), (await workbench.lines()).join('\n')));
      await changed.first().waitFor();
      await workbench.command(COMMAND);
      await page.getByRole('heading', { name: 'rye.bake, since the last commit' }).waitFor();
      await page.locator('body').filter({ hasText: /560 g.*600 g/ }).waitFor();

      await workbench.page.keyboard.press('Control+1');
      await workbench.command('File: Save');
      await workbench.page.locator('.tab.dirty').waitFor({ state: 'detached' });
      host.commit('More water in the rye');
      await changed.first().waitFor({ state: 'detached' });
    });
  });
}
