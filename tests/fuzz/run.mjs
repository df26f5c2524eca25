// `npm run fuzz -- --seed 7 --minutes 120`: garbled samples through the whole server for as long as is said. What goes wrong is written
// into tests/fuzz/found/, one file for each kind, where the tests try it again in every run.
import { build } from 'esbuild';
import { fork } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';

/** A text that takes longer than this is one that never ends. */
const MOST_MS = 600_000;

const { values } = parseArgs({ options: { seed: { type: 'string' }, minutes: { type: 'string' } } });
const root = path.join(import.meta.dirname, '..', '..');
const folder = mkdtempSync(path.join(tmpdir(), 'proofsheet-fuzz-'));
process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => end());
const script = path.join(folder, 'child.cjs');
await build({ absWorkingDir: root, entryPoints: ['tests/fuzz/child.ts'], outfile: script, bundle: true, platform: 'node', target: 'node20', format: 'cjs', mainFields: ['module', 'main'], logLevel: 'error' });

const first = Number(values.seed ?? Date.now() % 1_000_000_000);
const until = Date.now() + Number(values.minutes ?? 60) * 60_000;
const kinds = new Set();
let texts = 0;
let ended = false;
let child;
let watch;
let last = { seed: first, text: '' };
console.log(`seed ${first}, until ${new Date(until).toISOString()}`);
start(first);

function start(seed) {
  child = fork(script, [root, String(seed)], { stdio: ['ignore', 'inherit', 'pipe', 'ipc'] });
  let said = '';
  child.stderr.on('data', (data) => (said = (said + data).slice(-4000)));
  child.on('message', (message) => {
    clearTimeout(watch);
    if (Date.now() > until) return end();
    if (message.kind === 'fault') return keep(message);
    last = message;
    texts++;
    watch = setTimeout(() => {
      keep({ ...last, why: `no end after ${MOST_MS / 1000} s` });
      child.kill('SIGKILL');
    }, MOST_MS);
  });
  child.on('exit', (code, signal) => {
    clearTimeout(watch);
    if (Date.now() > until || ended) return;
    if (signal !== 'SIGKILL') keep({ ...last, why: `ended with ${code ?? signal}\n${said}` });
    start(last.seed + 1);
  });
}

function keep({ seed, text, why }) {
  const kind = why.replace(/\d+/g, '0').replace(/"(?:[^"\\]|\\.)*"/g, '""').slice(0, 80);
  if (kinds.has(kind)) return;
  kinds.add(kind);
  const file = path.join(import.meta.dirname, 'found', `${seed}.json`);
  writeFileSync(file, `${JSON.stringify({ seed, why: why.split('\n')[0].slice(0, 200), text }, undefined, 2)}\n`);
  console.log(`${path.relative(root, file)}: ${why.slice(0, 1500)}\n`);
}

function end() {
  ended = true;
  clearTimeout(watch);
  child.kill();
  console.log(`${texts} texts, ${kinds.size} kinds of faults`);
  process.exitCode = kinds.size === 0 ? 0 : 1;
  child.disconnect?.();
}
