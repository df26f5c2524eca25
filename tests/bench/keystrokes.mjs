// What opening a file and typing into it costs, and what an editor asks for after a keystroke.
import { Client } from './lsp.mjs';
import { at, ms, sort, times } from './numbers.mjs';
import { formulas } from './texts.mjs';

/** What an editor asks for after a keystroke, about the line of it; hints and colours of what is on the screen. */
const screen = (line) => ({ range: { start: { line: line - 25, character: 0 }, end: { line: line + 25, character: 0 } } });
const ASKED = {
  hover: { method: 'hover', params: (line) => ({ position: { line, character: 3 } }) },
  completion: { method: 'completion', params: (line, length) => ({ position: { line, character: 5 + length } }) },
  'shape of the line': { method: 'signatureHelp', params: (line, length) => ({ position: { line, character: 5 + length } }) },
  'hints on the screen': { method: 'inlayHint', params: screen },
  'colours on the screen': { method: 'semanticTokens/range', params: screen },
  'colours of the file': { method: 'semanticTokens/full', params: () => ({}) },
  'totals above formulas': { method: 'codeLens', params: () => ({}) },
};
/** Edits before any is counted, with questions in between, and without. */
const WARM = 20;
const WITH_QUESTIONS = 220;
const ALONE = 300;

export async function keystrokes({ server, echo, row }) {
  for (const size of [50, 500, 1_000, 20_000]) {
    const text = formulas(size);
    const ours = await typing(server, text, ASKED);
    const floor = await typing(echo, text, {});
    const against = (what, of) => row(`${what}, ${size} lines`, ms(of(ours)), ms(of(floor)), times(of(ours), of(floor)));
    against('open → first findings', (one) => one.openMs);
    against('keystroke → findings, p50', (one) => at(one.times, 0.5));
    against('keystroke → findings, p95', (one) => at(one.times, 0.95));
    against('keystroke → findings, processor time', (one) => one.processor);
    for (const [what, took] of Object.entries(ours.asked)) row(`${what}, p95, ${size} lines`, ms(at(sort(took), 0.95)));
    row(`peak memory of the server, ${size} lines`, `${ours.peak.toFixed(0)} MB`, `${floor.peak.toFixed(0)} MB`, times(ours.peak, floor.peak));
  }
}

/** Types digits into the water line of the formula in the middle of the file: no two edits alike, so no memory answers. */
async function typing(file, text, questions) {
  const client = await Client.start(file);
  const uri = 'file:///bench/bench.bake';
  const { ms: openMs } = await client.open(uri, text);
  const lines = text.split('\n');
  const middle = lines.findIndex((line, i) => i >= lines.length / 2 - 30 && /^ {2}\d+ %\s+water$/.test(line));
  const took = [];
  const asked = Object.fromEntries(Object.keys(questions).map((what) => [what, []]));
  let length = /\d+/.exec(lines[middle])[0].length;
  for (let i = 0; i < WITH_QUESTIONS; i++) {
    const value = String(60 + (i % 25)) + (i % 4 === 3 ? `.${i}` : '');
    const { ms: time } = await client.change(uri, middle, 2, length, value);
    length = value.length;
    if (i < WARM) continue;
    took.push(time);
    if (i % 4 !== 0) continue;
    for (const [what, { method, params }] of Object.entries(questions)) {
      const started = performance.now();
      await client.request(`textDocument/${method}`, { textDocument: { uri }, ...params(middle, length) });
      asked[what].push(performance.now() - started);
    }
  }
  const before = await client.processorMs();
  for (let i = 0; i < ALONE; i++) {
    const value = `${60 + (i % 25)}.${i}`;
    await client.change(uri, middle, 2, length, value);
    length = value.length;
  }
  const processor = ((await client.processorMs()) - before) / ALONE;
  const peak = await client.peakMegabytes();
  await client.stop();
  return { openMs, times: sort(took), asked, processor, peak };
}
