// Drives the real editor: builds the extension if it is not built, installs the hosts once, runs the suite inside each
// and the UI tests on the browser hosts.
//   node tests/workbench/run.mjs [--only server,web,desktop,ui] [--report FILE] [--verbose]
import { build } from 'esbuild';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { run } from 'node:test';
import { spec } from 'node:test/reporters';
import { parseArgs } from 'node:util';
import config from './e2e.config.mjs';
import { installHosts } from './lib/install-hosts.mjs';
import { runSuite } from './lib/run-suite.mjs';
import { unpackExtension } from './lib/unpack-extension.mjs';
import { hasBrowser } from './lib/workbench.mjs';

const here = import.meta.dirname;
const { values: options } = parseArgs({
  options: { only: { type: 'string', default: 'server,web,desktop,ui' }, report: { type: 'string' }, verbose: { type: 'boolean', default: false } },
});
const wanted = options.only.split(',');
const unknown = wanted.filter((name) => !['server', 'web', 'desktop', 'ui'].includes(name));
if (unknown.length > 0) {
  // Nothing to run must not look like nothing failed.
  console.error(`There is no part of the workbench tests called ${unknown.join(', ')}: server, web, desktop or ui.`);
  process.exit(2);
}
const total = { passed: 0, failed: 0, skipped: 0 };

const missing = await prepare();
if (missing !== undefined) {
  console.log(`skipped: ${missing}`);
  total.skipped += 1;
  process.exitCode = process.env.CI === 'true' ? 1 : 0;
} else {
  for (const host of ['server', 'web', 'desktop']) if (wanted.includes(host)) add(await runSuite(host, options));
  if (wanted.includes('ui')) add(await runUi());
  console.log(`workbench: ${total.passed} passed, ${total.failed} failed${total.skipped > 0 ? `, ${total.skipped} skipped` : ''}`);
  process.exitCode = total.failed > 0 ? 1 : 0;
}
if (options.report) writeFileSync(options.report, JSON.stringify(total));

/** Makes everything ready, or says what is missing and how to get it. */
async function prepare() {
  if (!existsSync(path.join(config.root, 'dist', 'extension.cjs'))) {
    const { status } = spawnSync(process.execPath, [path.join(config.root, '.config', 'build.mjs')], { stdio: 'inherit' });
    if (status !== 0) process.exit(1);
  }
  if (!hasBrowser()) return 'there is no Chromium. Install it (Debian: apt-get install chromium), or set E2E_CHROMIUM to a Chromium or Chrome.';
  try {
    installHosts();
  } catch (error) {
    return `the editor could not be installed from npm (${error.message.split('\n')[0]}). With a network: node tests/workbench/lib/install-hosts.mjs`;
  }
  await unpackExtension();
  // One suite bundle for all hosts. A web extension host takes one CommonJS file and offers it only require('vscode').
  await build({
    absWorkingDir: here, entryPoints: { suite: 'suite/index.ts' }, outdir: 'dist', bundle: true, sourcemap: true, logLevel: 'warning',
    external: ['vscode'], format: 'cjs', platform: 'browser', target: 'es2022', mainFields: ['browser', 'module', 'main'],
  });
  mkdirSync(config.results, { recursive: true });
  return undefined;
}

async function runUi() {
  const counts = { passed: 0, failed: 0, skipped: 0 };
  const files = readdirSync(path.join(here, 'ui')).filter((name) => name.endsWith('.test.mjs')).map((name) => path.join(here, 'ui', name));
  const events = run({ files, concurrency: false });
  events.on('test:diagnostic', ({ message }) => {
    const [, what, count] = /^(pass|fail|cancelled|skipped) (\d+)$/.exec(message) ?? [];
    if (what === 'pass') counts.passed += Number(count);
    if (what === 'fail' || what === 'cancelled') counts.failed += Number(count);
    if (what === 'skipped') counts.skipped += Number(count);
  });
  const printed = events.compose(spec);
  printed.pipe(process.stdout, { end: false });
  await new Promise((resolve) => printed.on('end', resolve));
  if (counts.passed + counts.failed === 0) counts.failed = 1; // no test is no success
  return counts;
}

function add({ passed, failed, skipped }) {
  total.passed += passed;
  total.failed += failed;
  total.skipped += skipped;
}
