/** Samples after accidents, through the whole server. Each run takes other ones: `SEED=… ` brings a run back. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { askEverything, projectOf } from './everything';
import { randomOf } from './garble';
import { roundsFrom, samplesIn } from './rounds';

const ROOT = path.join(import.meta.dirname, '..', '..');
const samples = samplesIn(ROOT);
const ROUNDS = 15;
/** Other places in every run. `npm run fuzz` hovers at all. */
const HOVER_EVERY = 4;

it('whatever happened to a sample, the server answers, and within the text', async () => {
  const first = Number(process.env['SEED'] ?? Date.now() % 1_000_000_000);
  console.log(`fuzz seed: ${first} (SEED=${first} brings these texts back)`);
  for (const { seed, text, ask } of roundsFrom(first, samples)) {
    if (seed >= first + ROUNDS) break;
    try {
      await ask(HOVER_EVERY);
    } catch (cause) {
      throw new Error(`SEED=${seed}: ${cause instanceof Error ? cause.message : String(cause)}\n${JSON.stringify(text)}`, { cause });
    }
  }
}, 600_000);

const FOUND = path.join(import.meta.dirname, 'found');

it.each(readdirSync(FOUND).filter(name => name.endsWith('.json')))('what once brought it down does so no more: %s', async name => {
  const { seed, text } = JSON.parse(readFileSync(path.join(FOUND, name), 'utf8')) as { seed: number; text: string };
  await expect(askEverything(projectOf(samples), text, randomOf(seed))).resolves.toBeUndefined();
});

it('the samples themselves', async () => {
  for (const text of samples.values()) await askEverything(projectOf(samples), text, randomOf(1), HOVER_EVERY);
}, 600_000);
