// From a window that opens to the first finding, and what the editor says of the extension's start: beside the least extension that a
// language with a server can be, in turns, on the same host.
//   npm run build && node tests/workbench/cold-start.mjs [--times 5] [--only server,web]
import { build } from 'esbuild';
import { cpSync, mkdirSync, readdirSync, rmSync, statSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import config from './e2e.config.mjs';
import { startHost } from './lib/hosts.mjs';
import { installHosts } from './lib/install-hosts.mjs';
import { unpackExtension } from './lib/unpack-extension.mjs';
import { launchBrowser, Workbench } from './lib/workbench.mjs';

const { values: options } = parseArgs({ options: { times: { type: 'string', default: '5' }, only: { type: 'string', default: 'server,web' } } });
const here = import.meta.dirname;
const ours = config.extension;
const hello = path.join(here, 'dist', 'hello');

installHosts();
await unpackExtension();
await bundleHello();

console.log(`${''.padEnd(56)} ${'ours'.padStart(10)} ${'hello'.padStart(10)} ${'ratio'.padStart(6)}`);
const browser = await launchBrowser();
for (const host of options.only.split(',')) {
  const seen = { ours: [], hello: [] };
  // In turns, so that what else the machine does falls on both. The first pair warms the disk and is not counted.
  for (let time = 0; time <= Number(options.times); time++) {
    for (const [name, extension] of Object.entries({ ours, hello })) {
      config.extension = extension;
      const one = await start(host, name === 'ours' ? 'Proofsheet' : 'hello');
      if (time > 0) seen[name].push(one);
    }
  }
  reportTimes(host, seen);
}
await browser.close();
reportSizes();

/** A new window with a file of one slip: milliseconds to its squiggle from when the page is asked for, and of the extension's activation. */
async function start(name, title) {
  const host = await startHost(name, { open: 'mistakes.bake' });
  const began = performance.now();
  const workbench = await Workbench.open(browser, host);
  try {
    await workbench.editor.locator('.squiggly-warning').first().waitFor({ timeout: 60_000 });
    const finding = performance.now() - began;
    await workbench.command('Developer: Show Running Extensions');
    const row = workbench.page.locator('.runtime-extensions-editor .monaco-list-row, .runtime-extensions-editor .extension').filter({ hasText: title }).first();
    await row.waitFor();
    const activation = Number(/Activation: (?:Startup Activation: )?(\d+)\s*ms/.exec(await row.innerText())?.[1]);
    if (Number.isNaN(activation)) throw new Error(`the editor does not say how long the activation took: ${await row.innerText()}`);
    return { finding, activation };
  } finally {
    await workbench.close();
    await host.stop();
  }
}

function reportTimes(host, seen) {
  const median = (all, what) => all.map((one) => one[what]).sort((a, b) => a - b)[Math.floor(all.length / 2)];
  for (const [what, words] of [['finding', 'window → first finding'], ['activation', 'activation']]) {
    line(`${words}, ${host} host, median of ${seen.ours.length}`, median(seen.ours, what), median(seen.hello, what), 'ms');
  }
}

function reportSizes() {
  const kilobytes = (folder, pattern) => readdirSync(folder, { recursive: true })
    .filter((name) => /\.(js|cjs|mjs)$/.test(name) && pattern.test(name))
    .reduce((sum, name) => sum + statSync(path.join(folder, name)).size / 1024, 0);
  for (const [what, pattern] of [['Node', /^(?!.*browser)/], ['a browser', /browser/]]) {
    line(`all bundles for ${what}, client and server`, kilobytes(path.join(ours, 'dist'), pattern), kilobytes(hello, pattern), 'KB');
  }
}

function line(what, mine, least, unit) {
  console.log(`${what.padEnd(56)} ${mine.toFixed(0).padStart(7)} ${unit} ${least.toFixed(0).padStart(7)} ${unit} ${(mine / least).toFixed(2).padStart(6)}`);
}

async function bundleHello() {
  rmSync(hello, { recursive: true, force: true });
  mkdirSync(hello, { recursive: true });
  cpSync(path.join(here, 'hello', 'package.json'), path.join(hello, 'package.json'));
  const common = { absWorkingDir: path.join(here, 'hello'), outdir: hello, bundle: true, minify: true, logLevel: 'warning', external: ['vscode'] };
  await build({ ...common, entryPoints: ['node.mjs', 'server.mjs'], platform: 'node', format: 'cjs', mainFields: ['module', 'main'] });
  await build({ ...common, entryPoints: ['browser.mjs'], platform: 'browser', format: 'cjs' });
  await build({ ...common, entryPoints: ['server.browser.mjs'], platform: 'browser', format: 'iife' });
}
