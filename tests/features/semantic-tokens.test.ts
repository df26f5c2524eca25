import fc from 'fast-check';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { LEGEND } from '../../server/features/shared/legend';
import { semanticTokensOf, tokenEdits } from '../../server/features/semantic-tokens';
import { colour } from '../syntaxes/colour';
import { marked, RYE, textIn } from './marked';

const ROOT = path.join(import.meta.dirname, '..', '..');
const manifest = JSON.parse(readFileSync(path.join(ROOT, 'package.json'), 'utf8'));

/** `water: ingredient liquid` for every token of a text. */
async function tokens(source: string, { others, range }: { others?: Record<string, string>; range?: Parameters<typeof semanticTokensOf>[1] } = {}) {
  const { file } = await marked(source, others);
  const data = semanticTokensOf(file, range);
  const found: { text: string; type: string; modifiers: string[]; line: number; character: number }[] = [];
  let line = 0;
  let character = 0;
  for (let at = 0; at < data.length; at += 5) {
    const [down = 0, along = 0, length = 0, type = 0, bits = 0] = data.slice(at, at + 5);
    character = down === 0 ? character + along : along;
    line += down;
    const text = textIn(file.text, { start: { line, character }, end: { line, character: character + length } });
    expect(text).toHaveLength(length);
    found.push({ text, type: LEGEND.tokenTypes[type]!, modifiers: LEGEND.tokenModifiers.filter((_, i) => (bits & (1 << i)) !== 0), line, character });
  }
  return found;
}

const words = async (source: string, options?: Parameters<typeof tokens>[1]) => (
  (await tokens(source, options)).map(({ text, type, modifiers }) => [`${text}:`, type, ...modifiers].join(' '))
);

describe('colours that know what a name is', () => {
  it('tell parts, ingredients with their role, and unknown names apart', async () => {
    const source = 'levain\n  60 g rye flour\n  12 g starter\n\ndough at 25 C\n  100 % bread flour\n  72 % water\n  all levain\n  3 g wibble root\n  80 g rolled oats as absorber';
    expect(await words(source)).toEqual([
      'levain: keyword', '60: number', 'g: unit', 'rye flour: ingredient flour', '12: number', 'g: unit', 'starter: ingredient leaven',
      'dough: keyword', '25: number', 'C: unit', '100: number', '%: unit', 'bread flour: ingredient flour', '72: number', '%: unit', 'water: ingredient liquid',
      'all: enumMember', 'levain: part', '3: number', 'g: unit', 'wibble root: ingredient unknown', '80: number', 'g: unit', 'rolled oats: ingredient absorber', 'absorber: role',
    ]);
  });

  it('know a formula of another file, the baker’s own ingredients, and what nobody has written', async () => {
    const others = { 'pantry.bake': 'ingredient "mill rye"\n  like dark rye flour\n\nformula "Knots"\n' };
    const source = 'use "pantry.bake"\n\nformula "V"\n  based on "Knots"\n\ndough\n  10 g mill rye\n\nplan "P"\n  bake 6 loaves of "Nothing"\n';
    expect(await words(source, { others })).toEqual(expect.arrayContaining([
      'V: formula declaration', 'Knots: formula', 'mill rye: ingredient own flour', 'Nothing: formula unknown',
    ]));
  });

  it('of a method: steps, times, temperatures, details, what goes in', async () => {
    const source = `soaker "figs"\n  10 g dried figs\n\nsteps\n  bulk 3 h 30 min at room, add half of figs, until volume 75 %\n  bake 18 to 22 min at 215 °C, lid off, until "it is dark", well # slowly`;
    expect((await words(source)).slice(5)).toEqual([
      'steps: keyword', 'bulk: function', '3: number', 'h: unit', '30: number', 'min: unit', 'room: enumMember', 'half: enumMember', 'figs: part', '75: number', '%: unit',
      'bake: function', '18: number', '22: number', 'min: unit', '215: number', '°C: unit', 'lid off: modifier', '"it is dark": string', 'well: string', '# slowly: comment',
    ]);
  });

  it('count letters as the protocol does', async () => {
    const found = await tokens('dough\n  3 g 👩‍🍳 salt\n  1½ tsp "漢 mix", é 👩‍🍳 # x');
    expect(found.filter(({ line }) => line === 2).map(({ text, character }) => [text, character])).toEqual([
      ['1½', 2], ['tsp', 5], ['漢 mix', 10], ['é 👩‍🍳', 18], ['# x', 26],
    ]);
  });

  it('leave an accepted finding as it is', async () => {
    expect(await words('dough\n  21 g salt # accept salt-high: for crackers')).toEqual(['dough: keyword', '21: number', 'g: unit', 'salt: ingredient salt']);
  });

  it('of a range are those of the whole that it touches', async () => {
    const all = await tokens(RYE);
    const part = await tokens(RYE, { range: { start: { line: 7, character: 0 }, end: { line: 8, character: 0 } } });
    expect(part).toEqual(all.filter(({ line }) => line === 7));
    expect(part.map(({ text }) => text)).toEqual(['60', 'g', 'dark rye flour']);
  });

  it('after an edit differ by one piece that makes the new ones of the old', () => {
    const numbers = fc.array(fc.nat(3), { maxLength: 30 });
    fc.assert(fc.property(numbers, numbers, (before, after) => {
      const edits = tokenEdits(before, after);
      let result = before;
      for (const { start, deleteCount, data = [] } of edits) result = [...result.slice(0, start), ...data, ...result.slice(start + deleteCount)];
      expect(result).toEqual(after);
      expect(edits.length).toBe(JSON.stringify(before) === JSON.stringify(after) ? 0 : 1);
    }));
    expect(tokenEdits([1, 2, 3, 4, 5], [1, 2, 9, 4, 5])).toEqual([{ start: 2, deleteCount: 1, data: [9] }]);
  });
});

describe('the manifest', () => {
  const { semanticTokenTypes, semanticTokenModifiers, semanticTokenScopes } = manifest.contributes;
  const STANDARD = ['keyword', 'property', 'function', 'macro', 'modifier', 'number', 'enumMember', 'string', 'comment', 'declaration'];

  it('declares what the protocol does not have, and has a colour of every theme for each type', () => {
    const declared = [...semanticTokenTypes, ...semanticTokenModifiers].map(({ id }: { id: string }) => id);
    expect([...STANDARD, ...declared].sort()).toEqual([...LEGEND.tokenTypes, ...LEGEND.tokenModifiers].sort());
    expect(Object.keys(semanticTokenScopes[0].scopes).filter(id => !id.includes('.')).sort()).toEqual([...LEGEND.tokenTypes].sort());
  });

  const samples = readdirSync(path.join(ROOT, 'samples')).filter(name => name.endsWith('.bake')).map(name => `samples/${name}`);
  it.each([...samples, 'tests/syntaxes/texts/formula.bake', 'tests/syntaxes/texts/others.bake'])('in %s no colour says another thing than without a server', async name => {
    const text = readFileSync(path.join(ROOT, name), 'utf8').replace(/^\uFEFF/, '');
    const pieces = await colour(text);
    const wrong: string[] = [];
    for (const token of await tokens(text)) {
      // What a name stands for is what the server knows better.
      if (['ingredient', 'part', 'formula'].includes(token.type)) continue;
      const family = (scope: string): string => scope.replace(/\.proofsheet$/, '').split('.').slice(0, 2).join('.');
      const wanted = semanticTokenScopes[0].scopes[token.type].map(family);
      const last = token.text.split(/\s+/).at(-1)!;
      const piece = pieces.find(({ line, text: written, scopes }) => line === token.line && (written.includes(token.text) || token.text.includes(written)) && scopes.map(family).some(one => wanted.includes(one)) && (written.includes(last) || token.text.includes(written)));
      if (piece === undefined) wrong.push(`${token.line + 1}: ${token.text} is ${token.type}, and ${pieces.filter(({ line, text: written }) => line === token.line && token.text.includes(written)).map(p => p.scopes.join(' ')).join(' | ')}`);
    }
    expect(wrong).toEqual([]);
  });
});
