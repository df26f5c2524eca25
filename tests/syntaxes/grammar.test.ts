/**
 * Colours of the text before any server runs: every piece of the example texts with its scopes, as a snapshot that is
 * read and reviewed like code, and the few promises that a snapshot would not say aloud.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { expect, test } from 'vitest';
import oniguruma from 'vscode-oniguruma';
import textmate from 'vscode-textmate';

const root = path.join(import.meta.dirname, '..', '..');
const grammarFile = path.join(root, 'syntaxes', 'proofsheet.tmLanguage.json');
const wasm = createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm');

const registry = new textmate.Registry({
  onigLib: oniguruma.loadWASM(readFileSync(wasm)).then(() => ({
    createOnigScanner: (patterns: string[]) => new oniguruma.OnigScanner(patterns),
    createOnigString: (text: string) => new oniguruma.OnigString(text),
  })),
  loadGrammar: async () => textmate.parseRawGrammar(readFileSync(grammarFile, 'utf8'), grammarFile),
});

interface Piece {
  readonly line: number;
  readonly text: string;
  /** Scopes without `source.` and `meta.` ones and without the language's name, outermost first. */
  readonly scopes: readonly string[];
}

async function colour(text: string): Promise<readonly Piece[]> {
  const grammar = await registry.loadGrammar('source.proofsheet');
  const pieces: Piece[] = [];
  let state = textmate.INITIAL;
  for (const [line, content] of text.split(/\r?\n/).entries()) {
    const result = grammar!.tokenizeLine(content, state);
    state = result.ruleStack;
    for (const { startIndex, endIndex, scopes } of result.tokens) {
      const piece = content.slice(startIndex, endIndex);
      const named = scopes.filter((scope) => !/^(source|meta)\./.test(scope)).map((scope) => scope.replace(/\.proofsheet$/, ''));
      if (piece.trim() !== '') pieces.push({ line, text: piece.trim(), scopes: named });
    }
  }
  return pieces;
}

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
