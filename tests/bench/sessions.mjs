// What shows only over a longer session: memory after many edits, a whole workspace, formatting through the protocol.
import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { Client } from './lsp.mjs';
import { formulas } from './texts.mjs';

const URI = 'file:///bench/bench.bake';

/** Resident memory after 100 edits and after 10,000, MB. The edits go round all formulas of the file, so that each is anew what was kept of it. */
export async function memory(server) {
  const client = await Client.start(server);
  const text = formulas(1_000);
  await client.open(URI, text);
  const places = text.split('\n').flatMap((line, at) => (/^ {2}\d+ %\s+water$/.test(line) ? [{ at, length: /\d+/.exec(line)[0].length }] : []));
  const edit = async (count) => {
    const place = places[count % places.length];
    const value = `${60 + (count % 25)}.${count}`;
    await client.change(URI, place.at, 2, place.length, value);
    place.length = value.length;
  };
  const after = {};
  for (let count = 1; count <= 10_000; count++) {
    await edit(count);
    if (count === 100 || count === 1_000 || count === 10_000) after[count] = await client.megabytes();
  }
  await client.stop();
  return after;
}

/** Formatting 5,000 lines, as they should be and every line of them indented otherwise, ms. */
export async function formatting(server) {
  const client = await Client.start(server);
  const asked = async (text, uri) => {
    await client.open(uri, text);
    const started = performance.now();
    await client.request('textDocument/formatting', { textDocument: { uri }, options: { tabSize: 2, insertSpaces: true } });
    return performance.now() - started;
  };
  const fine = await asked(formulas(5_000), 'file:///bench/fine.bake');
  const every = await asked(formulas(5_000).replace(/^ {2}/gm, '    '), 'file:///bench/every.bake');
  await client.stop();
  return { fine, every };
}

/**
 * A workspace of 2,000 files of one formula: how long until a question about all of them is answered, and the longest that a
 * keystroke in the open file waits meanwhile, ms.
 */
export async function workspace(server, temp) {
  const folder = path.join(temp, 'workspace');
  mkdirSync(folder, { recursive: true });
  const each = formulas(2_000 * 26).split(/\n(?=formula )/);
  for (const [index, text] of each.entries()) writeFileSync(path.join(folder, `loaf-${index}.bake`), `${text}\n`);
  const client = await Client.start(server, pathToFileURL(folder).href);
  const uri = pathToFileURL(path.join(folder, 'open.bake')).href;
  const text = `use "loaf-7.bake"\n\n${formulas(26)}`;
  await client.open(uri, text);
  const line = text.split('\n').findIndex((one) => /^ {2}\d+ %\s+water$/.test(one));
  const started = performance.now();
  let answered = false;
  const all = client.request('workspace/symbol', { query: 'loaf' }).then((found) => {
    answered = true;
    return { ms: performance.now() - started, found: found.length };
  });
  let longest = 0;
  let length = 2;
  for (let count = 0; !answered; count++) {
    const value = `${60 + (count % 25)}.${count}`;
    longest = Math.max(longest, (await client.change(uri, line, 2, length, value)).ms);
    length = value.length;
  }
  const { ms, found } = await all;
  await client.stop();
  return { ms, found, longest };
}
