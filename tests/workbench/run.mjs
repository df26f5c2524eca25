// Drives the real editor: builds the extension if it is not built, installs the hosts once, runs the suite inside each
// and the UI tests on the browser hosts.
//   node tests/workbench/run.mjs [--only server,web,desktop,ui] [--times N] [--report FILE] [--table] [--verbose]
import { build } from 'esbuild';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import config from './e2e.config.mjs';
import { writeHostTable } from './lib/host-table.mjs';
import { installHosts } from './lib/install-hosts.mjs';
import { runSuite } from './lib/run-suite.mjs';
import { runUi } from './lib/run-ui.mjs';
import { unpackExtension } from './lib/unpack-extension.mjs';
import { hasBrowser } from './lib/workbench.mjs';

const here = import.meta.dirname;
const { values: options } = parseArgs({
  options: {
    only: { type: 'string', default: 'server,web,desktop,ui' }, times: { type: 'string', default: '1' },
    report: { type: 'string' }, table: { type: 'boolean', default: false }, verbose: { type: 'boolean', default: false },
  },
});
const wanted = options.only.split(',');
const unknown = wanted.filter((name) => !['server', 'web', 'desktop', 'ui'].includes(name));
if (unknown.length > 0) {
  // Nothing to run must not look like nothing failed.
  console.error(`There is no part of the workbench tests called ${unknown.join(', ')}: server, web, desktop or ui.`);
  process.exit(2);
}
const times = Number(options.times);
if (!(Number.isInteger(times) && times > 0)) {
  console.error(`--times takes a number of runs, such as 10, and not ${options.times}.`);
  process.exit(2);
}
const total = { passed: 0, failed: 0, skipped: 0 };

const missing = await prepare();
if (missing !== undefined) {
  console.log(`skipped: ${missing}`);
  total.skipped += 1;
  process.exitCode = process.env.CI === 'true' ? 1 : 0;
} else {
  /** Lines such as `run 3 of 10: 71 passed, 0 failed`, again below all output. */
  const runs = [];
  let tests = [];
  for (let time = 1; time <= times; time++) {
    const counts = { passed: 0, failed: 0, skipped: 0 };
    tests = [];
    const started = Date.now();
    for (const part of [...['server', 'web', 'desktop'].filter((host) => wanted.includes(host)), ...(wanted.includes('ui') ? ['ui'] : [])]) {
      const ended = await (part === 'ui' ? runUi() : runSuite(part, options));
      add(counts, ended);
      tests.push(...ended.tests);
    }
    add(total, counts);
    runs.push(`run ${time} of ${times}: ${inWords(counts)}, ${((Date.now() - started) / 1000).toFixed(0)} s`);
    for (const { what, host } of tests.filter(({ result }) => result === 'failed')) runs.push(`  failed on ${host}: ${what}`);
  }
  if (times > 1) console.log(`\n${runs.join('\n')}`);
  console.log(`workbench: ${inWords(total)}`);
  process.exitCode = total.failed > 0 ? 1 : 0;
  if (options.table) writeHostTable(tests);
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

function add(sum, { passed, failed, skipped }) {
  sum.passed += passed;
  sum.failed += failed;
  sum.skipped += skipped;
}

function inWords({ passed, failed, skipped }) {
  return `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`;
}
