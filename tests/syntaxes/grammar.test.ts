/**
 * Colours of the text before any server runs: every piece of the example texts with its scopes, as a snapshot that is
 * read and reviewed like code, and the few promises that a snapshot would not say aloud.
 */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { colour, type Piece } from './colour';

const readable = (text: string, pieces: readonly Piece[]): string =>
  text
    .split('\n')
    .flatMap((line, index) => [
      line === '' ? '' : `> ${line}`,
      ...pieces.filter((piece) => piece.line === index).map((piece) => `    ${piece.text}  ->  ${piece.scopes.join(' ') || '-'}`),
    ])
    .join('\n');

for (const name of ['formula', 'others']) {
  test(`the colours of ${name}.bake`, async () => {
    const text = readFileSync(path.join(import.meta.dirname, 'texts', `${name}.bake`), 'utf8');
    await expect(readable(text, await colour(text))).toMatchFileSnapshot(`texts/${name}.scopes.txt`);
  });
}

const scopesOf = async (text: string, piece: string): Promise<readonly string[]> =>
  (await colour(text)).find((candidate) => candidate.text === piece)?.scopes ?? [];

test('a hash inside quotes is no comment', async () => {
  expect(await scopesOf('formula "A # B" # C', '"A # B"')).toContain('string.quoted.double.name');
  expect(await scopesOf('formula "A # B" # C', 'C')).toContain('comment.line.number-sign');
});

test('a new first-column line ends the block before it, whatever state that was in', async () => {
  const text = 'formula "open\n  note "open too\nlevain\n  60 g water';
  expect(await scopesOf(text, 'levain')).toEqual(['keyword.control.block']);
  expect(await scopesOf(text, 'water')).toEqual(['variable.other.ingredient']);
});

test('a word that only begins like a block word opens nothing', async () => {
  expect(await scopesOf('doughnut\n  60 g water', 'doughnut')).toEqual([]);
  expect(await scopesOf('part-baked\n  60 g water', 'part-baked')).toEqual([]);
});

test('letters of any script make names', async () => {
  expect(await scopesOf('dough\n  60 g лён', 'лён')).toEqual(['variable.other.ingredient']);
  expect(await scopesOf("dough\n  60 g pão d'água", "d'água")).toEqual(['variable.other.ingredient']);
});

test('a byte-order mark before the first block is harmless', async () => {
  expect(await scopesOf('\uFEFFlevain\n  60 g water', 'levain')).not.toEqual([]);
  expect(await scopesOf('\uFEFFlevain\n  60 g water', 'water')).toEqual(['variable.other.ingredient']);
});
