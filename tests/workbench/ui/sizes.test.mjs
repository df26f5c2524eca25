// Another size in the preview, by mouse and keyboard, as one story in one window on each browser host: looked at, written into the file, taken back.
import assert from 'node:assert/strict';
import { after, afterEach, before, describe, it } from 'node:test';
import { startHost } from '../lib/hosts.mjs';
import { eventually, launchBrowser, Workbench } from '../lib/workbench.mjs';

const hosts = process.env.E2E_HOSTS?.split(',') ?? ['server', 'web'];

for (const name of hosts) {
  describe(`another size in the preview of the ${name} host`, () => {
    let browser, host, workbench, preview;
    let toldSoFar = true;
    const then = (what, test) => it(what, async () => {
      assert(toldSoFar, 'something before this failed');
      toldSoFar = false;
      await test();
      toldSoFar = true;
    });
    const shown = () => preview.locator('#size-shown');
    const dirty = () => workbench.page.locator('.tab.dirty').count();
    const linesHave = (...wanted) => eventually(async () => {
      const lines = await workbench.lines();
      for (const line of wanted) assert(lines.includes(line), `${line} in\n${lines.join('\n')}`);
    });

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
    afterEach((t) => workbench.record(`sizes ${name} ${t.name}`));

    then('is shown with all that follows from it, and the file stays as it is', async () => {
      await workbench.openFile('rye.bake');
      await workbench.command('Proofsheet: Open Preview to the Side');
      await preview.getByRole('heading', { level: 1, name: 'Walnut rye' }).waitFor();
      await preview.locator('#size-name').click();
      await preview.getByLabel('Number of loaves').fill('6');
      await preview.getByLabel('Number of loaves').press('Enter');
      await shown().getByText('Shown at 6 loaves, the file says 2.').waitFor();
      await preview.locator('.sheet').filter({ hasText: '1950' }).waitFor(); // three times 650 g of bread flour
      await linesHave('  makes     2 loaves of 800 g', '  650 g     bread flour');
      assert.equal(await dirty(), 0);
    });

    then('that cannot be is refused beside its field', async () => {
      await preview.getByLabel('Number of loaves').fill('none');
      await preview.getByLabel('Number of loaves').press('Enter');
      await preview.locator('#size-pieces-why').waitFor();
      await shown().getByText('Shown at 6 loaves, the file says 2.').waitFor();
    });

    then('is kept over a reload of the window', async () => {
      await workbench.reload();
      await shown().getByText('Shown at 6 loaves, the file says 2.').waitFor();
      assert.equal(await dirty(), 0);
    });

    then('is written into the file by its button, and one undo takes it back', async () => {
      await preview.getByRole('button', { name: 'Write this size into the file' }).click();
      await linesHave('  makes     6 loaves of 800 g', '  1950 g    bread flour', '  ripen     8 h at 24 C');
      await shown().getByText('Shown at').waitFor({ state: 'hidden' }); // what is shown is what the file says
      assert.equal(await dirty(), 1);
      await workbench.page.keyboard.press('Control+1');
      await workbench.editor.locator('.native-edit-context').focus();
      await workbench.page.keyboard.press('Control+Z');
      await linesHave('  makes     2 loaves of 800 g', '  650 g     bread flour');
      await preview.locator('.sheet').filter({ hasText: '650' }).waitFor();
      assert.equal(await dirty(), 0);
    });
  });
}
