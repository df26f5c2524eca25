// `npm run bench`: how fast, measured from outside through the protocol, without any debounce. Times differ from machine
// to machine, so each stands beside a floor measured in the same run: a server that does no work, an empty process.
import { build } from 'esbuild';
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Client } from './lsp.mjs';
import { plans, PLANS_ENTRY } from './plans.mjs';
import { formatting, memory, workspace } from './sessions.mjs';
import { formulas } from './texts.mjs';

const root = path.join(import.meta.dirname, '..', '..');
const server = path.join(root, 'dist', 'server.cjs');
if (!existsSync(server)) {
  console.error('Build first: npm run build');
  process.exit(2);
}
const temp = mkdtempSync(path.join(tmpdir(), 'proofsheet-bench-'));
const rows = [];
let days = '';
const row = (what, value, floor = '', ratio = '') => rows.push([what, value, floor, ratio]);
const ms = (value) => `${value < 10 ? value.toFixed(2) : value.toFixed(0)} ms`;
const at = (sorted, q) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * q))];
const sort = (values) => [...values].sort((a, b) => a - b);

/** What an editor asks for after a keystroke, about the line of it; hints and colours of what is on the screen. */
const screen = (line) => ({ range: { start: { line: line - 25, character: 0 }, end: { line: line + 25, character: 0 } } });
const ASKED = {
  hover: { method: 'hover', params: (line) => ({ position: { line, character: 3 } }) },
  completion: { method: 'completion', params: (line, length) => ({ position: { line, character: 5 + length } }) },
  'shape of the line': { method: 'signatureHelp', params: (line, length) => ({ position: { line, character: 5 + length } }) },
  'hints on the screen': { method: 'inlayHint', params: screen },
  'colours on the screen': { method: 'semanticTokens/range', params: screen },
  'colours of the file': { method: 'semanticTokens/full', params: () => ({}) },
};

try {
  const bundle = (entry, outfile, extra = {}) =>
    build({ absWorkingDir: root, bundle: true, platform: 'node', format: 'cjs', target: 'node20', minify: true, mainFields: ['module', 'main'], logLevel: 'error', outfile, ...extra, ...(typeof entry === 'string' ? { entryPoints: [entry] } : { stdin: entry }) });
  const echo = path.join(temp, 'echo.cjs');
  const core = path.join(temp, 'core.cjs');
  await bundle('tests/bench/echo-server.mjs', echo);
  await bundle({ resolveDir: root, loader: 'ts', contents: `
    export { parse, format } from './grammar';
    export { sectionsOf } from './server/core/formula/sections';
    export { analyse } from './server/core/analyse';
    export { builtInCatalogue } from './server/core/ingredients/catalogue';` }, core);
  await throughput(core);
  await keystrokes(echo);
  await sessions();
  await startUp(echo);
  const planning = path.join(temp, 'plans.cjs');
  await bundle({ resolveDir: root, loader: 'ts', contents: PLANS_ENTRY }, planning);
  days = plans(planning, { row, ms });
} finally {
  rmSync(temp, { recursive: true, force: true });
}
print();
console.log(days);

async function throughput(core) {
  const { createRequire } = await import('node:module');
  const { parse, format, sectionsOf, analyse, builtInCatalogue } = createRequire(import.meta.url)(core);
  const text = formulas(20_000);
  const lines = text.split('\n').length;
  const rate = (work) => {
    const times = [];
    for (let i = 0; i < 5; i++) {
      const started = performance.now();
      work();
      times.push(performance.now() - started);
    }
    return sort(times)[2];
  };
  const per = (time) => `${ms(time)}  (${Math.round(lines / (time / 1000) / 1000)} thousand lines/s)`;
  const blocks = parse(text).blocks.map(({ block }) => block);
  const environment = { catalogue: builtInCatalogue, formulas: new Map(), measures: 'us' };
  row(`parse ${lines} lines`, per(rate(() => parse(text))));
  row(`resolve and check ${lines} lines`, per(rate(() => sectionsOf(blocks).forEach(({ section }) => analyse(section, environment)))));
  row('format 5,000 lines', ms(rate(() => format(formulas(5_000)))));
}

async function keystrokes(echo) {
  for (const size of [50, 500, 1_000, 20_000]) {
    const text = formulas(size);
    const ours = await typing(server, text);
    const floor = await typing(echo, text);
    row(`open ${size} lines → first findings`, ms(ours.openMs), ms(floor.openMs), (ours.openMs / floor.openMs).toFixed(1));
    row(`keystroke → findings, ${size} lines, p50`, ms(at(ours.times, 0.5)), ms(at(floor.times, 0.5)), (at(ours.times, 0.5) / at(floor.times, 0.5)).toFixed(1));
    row(`keystroke → findings, ${size} lines, p95`, ms(at(ours.times, 0.95)), ms(at(floor.times, 0.95)), (at(ours.times, 0.95) / at(floor.times, 0.95)).toFixed(1));
    row(`keystroke → findings, ${size} lines, processor time`, ms(ours.processor), ms(floor.processor), (ours.processor / floor.processor).toFixed(1));
    for (const [what, asked] of Object.entries(ours.asked)) if (asked.length) row(`${what}, ${size} lines, p95`, ms(at(sort(asked), 0.95)));
    row(`peak memory of the server, ${size} lines`, `${ours.peak.toFixed(0)} MB`, `${floor.peak.toFixed(0)} MB`, (ours.peak / floor.peak).toFixed(1));
  }
}

/** Types digits into the water line of the formula in the middle of the file: no two edits alike, so no memory answers. */
async function typing(file, text) {
  const client = await Client.start(file);
  const uri = 'file:///bench/bench.bake';
  const { ms: openMs } = await client.open(uri, text);
  const lines = text.split('\n');
  const middle = lines.findIndex((line, i) => i >= lines.length / 2 - 30 && /^ {2}\d+ %\s+water$/.test(line));
  const times = [];
  const asked = Object.fromEntries(Object.keys(ASKED).map((what) => [what, []]));
  let length = /\d+/.exec(lines[middle])[0].length;
  for (let i = 0; i < 220; i++) {
    const value = String(60 + (i % 25)) + (i % 4 === 3 ? `.${i}` : '');
    const { ms: time } = await client.change(uri, middle, 2, length, value);
    length = value.length;
    if (i >= 20) times.push(time);
    if (i >= 20 && file === server && i % 4 === 0) {
      for (const [what, { method, params }] of Object.entries(ASKED)) {
        const started = performance.now();
        await client.request(`textDocument/${method}`, { textDocument: { uri }, ...params(middle, length) });
        asked[what].push(performance.now() - started);
      }
    }
  }
  const before = await client.processorMs();
  for (let i = 0; i < 300; i++) {
    const value = `${60 + (i % 25)}.${i}`;
    await client.change(uri, middle, 2, length, value);
    length = value.length;
  }
  const processor = ((await client.processorMs()) - before) / 300;
  const peak = await client.peakMegabytes();
  await client.stop();
  return { openMs, times: sort(times), asked, processor, peak };
}

async function sessions() {
  const formatted = await formatting(server);
  row('format 5,000 lines that are fine', ms(formatted.fine));
  row('format 5,000 lines, every one of them', ms(formatted.every));
  const all = await workspace(server, temp);
  row(`look through a workspace, ${all.found} formulas found`, ms(all.ms));
  row('longest wait for a keystroke meanwhile', ms(all.longest));
  const after = await memory(server);
  row('memory after 10,000 edits, and after 1,000', `${after[10_000].toFixed(0)} MB`, `${after[1_000].toFixed(0)} MB`, (after[10_000] / after[1_000]).toFixed(2));
  row('memory after 10,000 edits, and after 100', `${after[10_000].toFixed(0)} MB`, `${after[100].toFixed(0)} MB`, (after[10_000] / after[100]).toFixed(2));
}

async function startUp(echo) {
  const many = async (file) => {
    const times = [];
    for (let i = 0; i < 9; i++) {
      const client = await Client.start(file);
      times.push(client.initializeMs);
      await client.stop();
    }
    return at(sort(times), 0.5);
  };
  const ours = await many(server);
  const floor = await many(echo);
  row('start → initialize answered, median of 9', ms(ours), ms(floor), (ours / floor).toFixed(1));
  const cli = path.join(root, 'dist', 'cli.cjs');
  const empty = path.join(temp, 'empty.cjs');
  const sample = path.join(temp, 'one.bake');
  writeFileSync(empty, '');
  writeFileSync(sample, formulas(26));
  const run = (...args) => {
    const times = Array.from({ length: 9 }, () => {
      const started = performance.now();
      spawnSync(process.execPath, args);
      return performance.now() - started;
    });
    return at(sort(times), 0.5);
  };
  const check = run(cli, 'check', sample);
  const nothing = run(empty);
  row('proofsheet check, one formula, whole process', ms(check), ms(nothing), (check / nothing).toFixed(1));
  for (const file of ['server.cjs', 'server.browser.js', 'cli.cjs', 'extension.cjs', 'preview.js']) {
    const full = path.join(root, 'dist', file);
    if (existsSync(full)) row(`size of ${file}`, `${Math.round(readFileSync(full).length / 1024)} KB`);
  }
}

function print() {
  const table = [['', 'ours', 'floor', 'ratio'], ...rows];
  const widths = table[0].map((_, c) => Math.max(...table.map((r) => String(r[c]).length)));
  for (const r of table) console.log(r.map((cell, c) => (c === 0 ? String(cell).padEnd(widths[c]) : String(cell).padStart(widths[c]))).join('   '));
  console.log('\nFloor: a server that answers each edit with no findings and does no work; an empty node process. Same run, same machine.');
}
