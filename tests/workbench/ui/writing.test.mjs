// Writing by keyboard alone, as one story in one window on each browser host: mending, completing, renaming, and what follows the cursor.
import assert from 'node:assert/strict';
import { after, afterEach, before, describe, it } from 'node:test';
import { startHost } from '../lib/hosts.mjs';
import { eventually, launchBrowser, Workbench } from '../lib/workbench.mjs';

const hosts = process.env.E2E_HOSTS?.split(',') ?? ['server', 'web'];

for (const name of hosts) {
  describe(`a baker at the keyboard of the ${name} host`, () => {
    let browser, host, workbench, preview;
    let toldSoFar = true;
    const then = (what, test) => it(what, async () => {
      assert(toldSoFar, 'something before this failed');
      toldSoFar = false;
      await test();
      toldSoFar = true;
    });
    const press = async (...keys) => {
      for (const key of keys) await workbench.page.keyboard.press(key);
    };

    before(async () => {
      browser = await launchBrowser();
      host = await startHost(name);
      workbench = await Workbench.open(browser, host);
      preview = workbench.webview();
    });
    after(async () => {
      await workbench?.close();
      await browser?.close();
      await host?.stop();
    });
    afterEach((t) => workbench.record(`keyboard ${name} ${t.name}`));

    then('mends a slip by the repair that is offered for it', async () => {
      await workbench.openFile('mistakes.bake');
      await workbench.editor.locator('.squiggly-warning').first().waitFor();
      await workbench.goTo('2,5');
      const repair = workbench.page.locator('.action-widget').getByText('2.5').first();
      // The workbench drops what it is asking when something else happens just then: ask again, as a hand would.
      await eventually(async () => {
        await press('Control+.');
        await repair.waitFor({ timeout: 1_000 });
      }, 20_000);
      await press('Enter');
      await eventually(async () => assert((await workbench.lines()).includes('  2.5 g     instant yeast')));
      await workbench.editor.locator('.squiggly-warning').waitFor({ state: 'detached' });
      assert.equal(await workbench.page.locator('.tab.dirty').count(), 1);
    });

    then('has the ingredient that was begun completed, with its composition beside it', async () => {
      await workbench.type('\n  20 g butt', ['Control+End']);
      const row = workbench.page.locator('.suggest-widget.visible .monaco-list-row').filter({ hasText: /^butter/ }).first();
      await row.waitFor();
      await press('Enter');
      await eventually(async () => assert((await workbench.lines()).some((line) => /^ {2}20 g +butter$/.test(line)), (await workbench.lines()).join('\n')));
      await press('Control+Z');
    });

    then('gives an ingredient another name in both files that have it', async () => {
      await workbench.openFile('rye.bake');
      await workbench.editor.locator('.codelens-decoration').first().waitFor(); // the server has read it
      await workbench.goTo('mill rye');
      await press('F2');
      const box = workbench.page.locator('.rename-box input');
      await box.fill('stall rye');
      await press('Enter');
      await box.waitFor({ state: 'hidden' });
      await eventually(async () => assert.equal((await workbench.lines()).filter((line) => line.includes('stall rye')).length, 2));
      await workbench.openFile('pantry.bake');
      await eventually(async () => assert((await workbench.lines()).includes('ingredient "stall rye"')));
    });

    then('reads in the preview of the formula that the cursor goes to', async () => {
      await workbench.openFile('rolls.bake');
      await workbench.editor.locator('.native-edit-context').focus();
      await press('Control+Home');
      await workbench.command('Proofsheet: Open Preview to the Side');
      await preview.getByRole('heading', { level: 1, name: 'Seeded rolls' }).waitFor();
      await workbench.page.keyboard.press('Control+1');
      await workbench.editor.locator('.native-edit-context').focus();
      await press('Control+End');
      await preview.getByRole('heading', { level: 1, name: 'Plain rolls' }).waitFor();
      await press('Control+Home');
      await preview.getByRole('heading', { level: 1, name: 'Seeded rolls' }).waitFor();
    });

    then('changes from a light to a dark theme, and the preview with it', async () => {
      const colours = () => preview.locator('body').evaluate((body) => {
        const bright = (colour) => (colour.match(/[\d.]+/g) ?? []).slice(0, 3).reduce((sum, part) => sum + Number(part), 0);
        const heading = body.querySelector('h1');
        return { kind: body.dataset.vscodeThemeKind, ink: bright(getComputedStyle(heading).color) };
      });
      const before = await colours();
      await workbench.command('Preferences: Toggle between Light/Dark Themes');
      await eventually(async () => assert.notEqual((await colours()).kind, before.kind));
      // Dark ink on light ground becomes light ink on dark ground, or the other way about.
      await eventually(async () => assert((await colours()).ink > 382 !== before.ink > 382, `${JSON.stringify(before)} ${JSON.stringify(await colours())}`));
      await workbench.command('Preferences: Toggle between Light/Dark Themes');
      await eventually(async () => assert.deepEqual(await colours(), before));
    });
  });
}
