// `npm run bench`: how fast, measured from outside through the protocol, without any debounce. Times differ from machine
// to machine, so each stands beside a floor measured in the same run: a server that does no work, an empty process.
// `npm run bench -- keystroke folder` measures these sections only; `--server FILE` another server than the one in dist/.
import { build } from 'esbuild';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { keystrokes } from './keystrokes.mjs';
import { formatting, heap, workspace } from './sessions.mjs';
import { planning } from './plans.mjs';
import { startUp } from './start.mjs';
import { throughput } from './throughput.mjs';

/** In the order in which they are measured. Each is given rows to fill, and what follows the table it gives back. */
const SECTIONS = { throughput, keystroke: keystrokes, formatting, folder: workspace, memory: heap, start: startUp, plans: planning };

const root = path.join(import.meta.dirname, '..', '..');
const asked = process.argv.slice(2);
const given = asked.indexOf('--server');
const server = given < 0 ? path.join(root, 'dist', 'server.cjs') : path.resolve(asked.splice(given, 2)[1] ?? '');
const unknown = asked.filter((name) => !Object.hasOwn(SECTIONS, name));
if (unknown.length > 0) stop(`No section is called ${unknown.join(', ')}. There are: ${Object.keys(SECTIONS).join(', ')}.`);
if (!existsSync(server)) stop(`${server} is not there. Build first: npm run build`);

const temp = mkdtempSync(path.join(tmpdir(), 'proofsheet-bench-'));
const bundle = async (name, entry) => {
  const outfile = path.join(temp, `${name}.cjs`);
  const what = entry === undefined ? { entryPoints: [`tests/bench/${name}.mjs`] } : { stdin: { resolveDir: root, loader: 'ts', contents: entry } };
  await build({ absWorkingDir: root, bundle: true, platform: 'node', format: 'cjs', target: 'node20', minify: true, mainFields: ['module', 'main'], logLevel: 'error', outfile, ...what });
  return outfile;
};
const began = performance.now();
const after = [];
try {
  const echo = await bundle('echo-server');
  console.log(line('', 'ours', 'floor', 'ratio'));
  const row = (what, ours, floor = '', ratio = '') => console.log(line(what, ours, floor, ratio));
  for (const [name, measure] of Object.entries(SECTIONS)) {
    if (asked.length > 0 && !asked.includes(name)) continue;
    try {
      after.push(await measure({ root, server, echo, temp, bundle, row }) ?? '');
    } catch (fault) {
      // The rest is worth having all the same.
      console.error(`${name}: ${fault instanceof Error ? fault.stack : fault}`);
      process.exitCode = 1;
    }
  }
} finally {
  rmSync(temp, { recursive: true, force: true });
}
console.log('\nFloor: a server that answers each edit with no findings and does no work; an empty node process. Same run, same machine.');
for (const text of after) if (text !== '') console.log(text);
console.log(`\nMeasured in ${Math.round((performance.now() - began) / 1000)} s.`);
process.exit(); // whatever a fault has left running

function line(what, ...cells) {
  return `${what.padEnd(64)}${cells.map((cell) => String(cell).padStart(14)).join('')}`;
}

function stop(text) {
  console.error(text);
  process.exit(2);
}
