// What only a user can see, as one story in one window on each browser host: findings, hover, preview, typing.
import assert from 'node:assert/strict';
import { after, afterEach, before, describe, it } from 'node:test';
import { startHost } from '../lib/hosts.mjs';
import { eventually, launchBrowser, Workbench } from '../lib/workbench.mjs';

const hosts = process.env.E2E_HOSTS?.split(',') ?? ['server', 'web'];

for (const name of hosts) {
  describe(`a baker on the ${name} host`, () => {
    let browser, host, workbench, preview;
    /** The story goes on in one window, so what follows a failure would only fail again, slowly. */
    let toldSoFar = true;
    const then = (what, test) => it(what, async () => {
      assert(toldSoFar, 'something before this failed');
      toldSoFar = false;
      await test();
      toldSoFar = true;
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
    afterEach((t) => workbench.record(`${name} ${t.name}`));

    then('sees a mistake as a squiggle and in Problems', async () => {
      await workbench.openFile('mistakes.bake');
      await workbench.editor.locator('.squiggly-error, .squiggly-warning').first().waitFor();
      const problems = await workbench.problems();
      await problems.filter({ hasText: '2.5' }).first().waitFor();
      await workbench.command('View: Toggle Panel Visibility');
    });

    then('sees totals when resting the mouse on a formula', async () => {
      await workbench.openFile('rye.bake');
      assert.match(await workbench.hover('formula'), /hydration/i);
    });

    then('chooses a ready time from the line above the formula', async () => {
      const { editor, page, quickInput } = workbench;
      await editor.locator('.codelens-decoration a', { hasText: 'Schedule: ready by…' }).click();
      await quickInput.locator('.monaco-list-row').filter({ hasText: 'Ready by…' }).click();
      await quickInput.locator('input[type=text]').fill('2026-03-21');
      await quickInput.getByText('2026-03-21 has no time of day.').waitFor();
      await quickInput.locator('input[type=text]').fill('2026-03-21 09:00');
      await quickInput.getByText(/Begin Fri [0-9:]+, ready Sat 09:00/).waitFor();
      await page.keyboard.press('Enter');
      await editor.locator('.codelens-decoration a', { hasText: /Begin Fri [0-9:]+, ready Sat 09:00/ }).waitFor();
    });

    then('sees when a step is, when resting the mouse on it', async () => {
      assert.match(await workbench.hover('cool'), /Sat 07:00 – 09:00/);
    });

    then('opens the preview beside the text and reads it', async () => {
      await workbench.command('Proofsheet: Open Preview to the Side');
      await preview.getByRole('heading', { level: 1, name: 'Walnut rye' }).waitFor();
      await preview.locator('.figures').filter({ hasText: 'Hydration' }).waitFor();
      await preview.getByRole('columnheader', { name: 'Final dough' }).waitFor();
      await preview.getByRole('group', { name: /^Timeline.*ready Sat 21 Mar 09:00/ }).waitFor();
      assert.equal(await preview.locator('#anchor-time').inputValue(), '2026-03-21T09:00');
      await preview.getByRole('button', { name: /^retard, .*into the fridge/ }).waitFor();
      // Nothing that the page asked for was refused: style, script and textures are all its own.
      assert.deepEqual(workbench.log.filter((line) => /Content Security Policy|Refused to/.test(line) && /preview\.(css|js)/.test(line)), []);
    });

    then('changes the ready time in the preview, and the file stays as it is', async () => {
      await preview.locator('#anchor-time').fill('2026-03-14T08:00');
      await preview.locator('.span').filter({ hasText: 'ready Sat 14 Mar 08:00' }).waitFor();
      await preview.locator('.method').filter({ hasText: 'Fri 13 Mar' }).waitFor();
      await workbench.editor.locator('.codelens-decoration a', { hasText: /ready Sat 08:00/ }).waitFor();
      assert.equal(await workbench.page.locator('.tab.dirty').count(), 0);
    });

    then('goes to the line that is clicked in the preview', async () => {
      await preview.getByRole('button', { name: 'walnuts' }).first().click();
      await workbench.page.locator('.statusbar-item', { hasText: 'Ln 21,' }).first().waitFor();
    });

    then('types, and the preview follows in place', async () => {
      const before = await preview.locator('.figures').innerText();
      await preview.locator('.method').evaluate((list) => list.scrollIntoView());
      const top = () => preview.locator('.method').evaluate((list) => Math.round(list.getBoundingClientRect().top) + 0);
      const topBefore = await top();
      // The cursor is before the walnuts' amount: three lines up is that of the water, 560 g.
      await workbench.editor.locator('.native-edit-context').focus();
      for (const key of ['ArrowUp', 'ArrowUp', 'ArrowUp', 'Delete', 'Delete']) await workbench.page.keyboard.press(key);
      await workbench.page.keyboard.type('62');
      await eventually(async () => assert((await workbench.lines()).includes('  620 g     water')));
      await eventually(async () => assert.notEqual(await preview.locator('.figures').innerText(), before));
      assert.equal(await preview.locator('#anchor-time').inputValue(), '2026-03-14T08:00');
      assert.equal(await top(), topBefore); // what was being read stays where it was
    });

    then('keeps the preview over a reload of the window', async () => {
      await workbench.command('File: Save');
      await workbench.page.locator('.tab.dirty').waitFor({ state: 'detached' });
      await workbench.reload();
      await preview.getByRole('heading', { level: 1, name: 'Walnut rye' }).waitFor();
      await eventually(async () => assert.equal(await preview.locator('#anchor-time').inputValue(), '2026-03-14T08:00'));
    });

    then('begins a formula by three questions, and reads its totals in the status bar', async () => {
      const { page, quickInput } = workbench;
      await page.keyboard.press('F1');
      await quickInput.locator('input[type=text]').fill('>Proofsheet: New Formula…');
      await quickInput.locator('.monaco-list-row').filter({ hasText: 'New Formula…' }).first().click();
      await quickInput.locator('.monaco-list-row').filter({ hasText: 'Hearth loaf' }).click();
      await quickInput.getByText('How many pieces').waitFor();
      await quickInput.locator('input[type=text]').fill('3 loaves of 40 g');
      await quickInput.getByText('this method is for 300 to 2500 g').waitFor();
      await quickInput.locator('input[type=text]').fill('3 loaves of 800 g');
      await quickInput.getByText('this method is for').waitFor({ state: 'hidden' });
      await page.keyboard.press('Enter');
      await quickInput.locator('.monaco-list-row').filter({ hasText: 'Levain' }).click();
      await page.getByRole('tab', { name: 'formula "Hearth loaf"' }).waitFor();
      await page.locator('.statusbar-item', { hasText: '72 % · salt 2 % · 3 × 800 g' }).waitFor();
    });
  });
}
