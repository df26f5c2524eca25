// `proofsheet check` over very many files: one thread beside two, and what memory does as files become ten and forty times as many.
//   node tests/bench/many-files.mjs [CLI] [COUNT …]
// Ratios of one run on one machine; processor time counts all threads. The clock says little while others use the machine, so the last
// column is what the processor time comes to where each thread has a core: the start, and half of the rest, over all of one thread's.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { formulas } from './texts.mjs';

const root = path.join(import.meta.dirname, '..', '..');
const [cli = path.join(root, 'dist', 'cli.cjs'), ...counts] = process.argv.slice(2);
const temp = mkdtempSync(path.join(tmpdir(), 'proofsheet-many-'));
process.on('exit', () => rmSync(temp, { recursive: true, force: true }));

/** Says at its end what the process took; of a thread nothing. */
const probe = path.join(temp, 'probe.cjs');
writeFileSync(probe, `
const { isMainThread } = require('node:worker_threads');
if (isMainThread) process.on('exit', () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  require('node:fs').writeFileSync(process.env.PROBE, JSON.stringify({ cpuMs: (userCPUTime + systemCPUTime) / 1000, megabytes: maxRSS / 1024 }));
});`);

/** A folder of so many files, a hundred in each of its folders: a formula of some 25 lines, every second with a pantry of its folder, some with a slip. */
function folderOf(count) {
  const folder = path.join(temp, String(count));
  for (let i = 0; i < count; i++) {
    const inner = path.join(folder, `shelf ${Math.floor(i / 100)}`);
    if (i % 100 === 0) {
      mkdirSync(inner, { recursive: true });
      writeFileSync(path.join(inner, 'pantry.bake'), 'ingredient "river flour"\n  like      bread flour\n  protein   11.5 %\n');
    }
    const text = formulas(26).replace(/formula "[^"]*"/g, `formula "Loaf ${i}"`);
    const slip = i % 7 === 0 ? text.replace(/ water$/m, ' wather') : text;
    writeFileSync(path.join(inner, `loaf-${i}.bake`), i % 2 === 0 ? slip : `use "pantry.bake"\n\n${slip.replace(/bread flour/, 'river flour')}`);
  }
  return folder;
}

function run(folder, threads) {
  const result = path.join(temp, 'result.json');
  const began = performance.now();
  const { status, stdout } = spawnSync(process.execPath, ['--require', probe, cli, 'check', '--json', '--threads', String(threads), '.'], {
    cwd: folder, env: { ...process.env, PROBE: result }, maxBuffer: 1e9, encoding: 'utf8',
  });
  if (status !== 0 && status !== 1) throw new Error(`check ended with ${status}`);
  return { ms: performance.now() - began, stdout, ...JSON.parse(readFileSync(result, 'utf8')) };
}

const rows = [['files', 'threads', 'clock', 'processor time', 'most memory', 'two over one: clock', 'with a core for each']];
/** What a run takes before the first file is looked at. */
const { cpuMs: startMs } = run(folderOf(1), 1);
for (const count of counts.length > 0 ? counts.map(Number) : [100, 200, 400, 1_000, 5_000, 20_000]) {
  const folder = folderOf(count);
  if (count <= 1_000) run(folder, 1); // the disk is warm
  const [one, two] = [run(folder, 1), run(folder, 2)];
  if (one.stdout !== two.stdout) throw new Error(`Two threads say something else of ${count} files.`);
  for (const [threads, { ms, cpuMs, megabytes }] of [[1, one], [2, two]]) {
    rows.push([String(count), String(threads), `${(ms / 1000).toFixed(1)} s`, `${(cpuMs / 1000).toFixed(1)} s`, `${megabytes.toFixed(0)} MB`, ...(threads === 2 ? [(two.ms / one.ms).toFixed(2), ((startMs + (two.cpuMs - startMs) / 2) / one.cpuMs).toFixed(2)] : ['', ''])]);
  }
}
for (const row of rows) console.log(row.map((cell, at) => cell.padStart(rows[0][at].length)).join('   '));
