// What shows only over a longer session: memory after many edits, a whole workspace, formatting through the protocol.
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { Client } from './lsp.mjs';
import { ms } from './numbers.mjs';
import { formulas } from './texts.mjs';

const URI = 'file:///bench/bench.bake';
const WATER = /^ {2}\d+ %\s+water$/;
const FILES = 2_000;

/** Heap, collected, after 100 edits and after 10,000. The edits go round all formulas of the file, so that each is anew what was kept of it. */
export async function heap({ server, temp, row }) {
  const written = path.join(temp, 'heap');
  const client = await Client.start(server, null, { args: ['--expose-gc', '--import', path.join(import.meta.dirname, 'heap.mjs')], env: { BENCH_HEAP: written } });
  const text = formulas(1_000);
  await client.open(URI, text);
  const places = text.split('\n').flatMap((line, at) => (WATER.test(line) ? [{ at, length: /\d+/.exec(line)[0].length }] : []));
  const megabytes = async () => {
    rmSync(written, { force: true });
    client.child.kill('SIGUSR2');
    while (!existsSync(written) || readFileSync(written, 'utf8') === '') await new Promise((resolve) => setTimeout(resolve, 20));
    return Number(readFileSync(written, 'utf8')) / 2 ** 20;
  };
  const after = {};
  for (let count = 1; count <= 10_000; count++) {
    const place = places[count % places.length];
    const value = `${60 + (count % 25)}.${count}`;
    await client.change(URI, place.at, 2, place.length, value);
    place.length = value.length;
    if (count === 100 || count === 1_000 || count === 10_000) after[count] = await megabytes();
  }
  await client.stop();
  for (const before of [1_000, 100]) {
    row(`heap after 10,000 edits, and after ${before}, 1,000 lines`, `${after[10_000].toFixed(1)} MB`, `${after[before].toFixed(1)} MB`, (after[10_000] / after[before]).toFixed(2));
  }
}

/** Formatting 5,000 lines, as they should be and every line of them indented otherwise: the first time, and the median of the next nine. */
export async function formatting({ server, row }) {
  const client = await Client.start(server);
  for (const [what, text] of [['that are fine', formulas(5_000)], ['every one of them', formulas(5_000).replace(/^ {2}/gm, '    ')]]) {
    const uri = `file:///bench/${what.length}.bake`;
    await client.open(uri, text);
    const took = [];
    for (let i = 0; i < 10; i++) {
      const started = performance.now();
      await client.request('textDocument/formatting', { textDocument: { uri }, options: { tabSize: 2, insertSpaces: true } });
      took.push(performance.now() - started);
    }
    row(`format 5,000 lines ${what}, first`, ms(took[0]));
    row(`format 5,000 lines ${what}, then`, ms(took.slice(1).sort((a, b) => a - b)[4]));
  }
  await client.stop();
}

/** A workspace of 2,000 files of one formula, each with something to find: how long until all is found in it while somebody types without a pause, and the longest that a keystroke waits. */
export async function workspace({ server, temp, row }) {
  const folder = path.join(temp, 'workspace');
  mkdirSync(folder, { recursive: true });
  const each = formulas(FILES * 26).split(/\n(?=formula )/);
  for (const [index, text] of each.entries()) writeFileSync(path.join(folder, `loaf-${index}.bake`), `${text.replace('2 %       salt', '0.2 %     salt')}\n`);
  const uri = pathToFileURL(path.join(folder, 'open.bake')).href;
  const text = `use "loaf-7.bake"\n\n${formulas(26)}`;
  const line = text.split('\n').findIndex((one) => WATER.test(one));

  const typeUntil = async (client, isDone) => {
    const waits = [];
    let length = 2;
    for (let count = 0; !isDone(); count++) {
      const value = `${60 + (count % 25)}.${count}`;
      waits.push((await client.change(uri, line, 2, length, value)).ms);
      length = value.length;
    }
    return Math.max(...waits);
  };

  // Findings of files that nobody has open.
  const first = await Client.start(server, pathToFileURL(folder).href);
  let started = performance.now();
  await first.open(uri, text);
  const found = await typeUntil(first, () => first.told.size >= each.length || performance.now() - started > 60_000);
  row(`findings of ${first.told.size - 1} files nobody opened, while typing`, ms(performance.now() - started));
  row('longest wait for a keystroke meanwhile', ms(found));
  await first.stop();

  // A question about all files, to a server that has not looked at any.
  const second = await Client.start(server, pathToFileURL(folder).href);
  await second.open(uri, text);
  started = performance.now();
  let answered;
  void second.request('workspace/symbol', { query: 'loaf' }).then((symbols) => (answered = { ms: performance.now() - started, count: symbols.length }));
  const asked = await typeUntil(second, () => answered !== undefined || performance.now() - started > 60_000);
  row(`a name looked for in ${FILES} files, while typing`, answered === undefined ? 'over a minute' : ms(answered.ms));
  row('longest wait for a keystroke meanwhile', ms(asked));
  await second.stop();
}
