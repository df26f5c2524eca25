import { describe, expect, it } from 'vitest';
import { definitionAt } from '../../server/features/definition';
import { foldingRangesOf } from '../../server/features/folding';
import { documentLinksOf } from '../../server/features/links';
import { highlightsAt } from '../../server/features/highlights';
import { referencesAt } from '../../server/features/references';
import { documentSymbolsOf } from '../../server/features/symbols';
import type { DocumentSymbol } from 'vscode-languageserver';
import { lineIndexOf } from '../../server/project/lines';
import { marked, RYE, textIn, uriOf } from './marked';

const PANTRY = 'ingredient "mill flour"\n  like bread flour\n\nformula "Knots"\n\ndough\n  500 g mill flour\n  300 g water\n';
const rye = (before: string, after = '') => RYE.replace(before + after, `${before}┆${after}`);

/** `file:line: text` of every place that the definition leads to. */
async function definition(source: string, others: Record<string, string> = {}) {
  const { file, offset } = await marked(source, others);
  return definitionAt(file, offset).map(link => {
    const name = link.targetUri.replace('file:///stall/', '');
    const text = name === 'main.bake' ? file.text : others[name]!;
    return `${name}:${link.targetSelectionRange.start.line + 1}: ${textIn(text, link.targetSelectionRange)}`;
  });
}

describe('definition', () => {
  it('of a part is its head', async () => {
    expect(await definition(rye('all       lev', 'ain'))).toEqual(['main.bake:7: levain']);
    expect(await definition(rye('all       fi', 'gs'))).toEqual(['main.bake:13: figs']);
    expect(await definition(rye('rest of walnuts, add fi', 'gs'))).toEqual(['main.bake:13: figs']);
  });

  it('of an ingredient of one’s own is its block, in whatever file', async () => {
    expect(await definition('use "pantry.bake"\n\ndough\n  500 g mill fl┆our\n', { 'pantry.bake': PANTRY })).toEqual(['pantry.bake:1: mill flour']);
    expect(await definition('ingredient "mill flour"\n  like bread flour\n\ndough\n  1 g Mill  Flo┆ur\n')).toEqual(['main.bake:1: mill flour']);
  });

  it('of a formula is its head, in whatever file', async () => {
    const other = { 'pantry.bake': PANTRY };
    expect(await definition('use "pantry.bake"\n\nformula "V"\n  based on "Kno┆ts"\n', other)).toEqual(['pantry.bake:4: Knots']);
    expect(await definition('use "pantry.bake"\n\nplan "P"\n  bake 24 knots of "kn┆ots"\n', other)).toEqual(['pantry.bake:4: Knots']);
    expect(await definition(`${RYE}\ndish "D"\n  uses 8 slices of "Fig and wal┆nut rye"\n`)).toEqual(['main.bake:1: Fig and walnut rye']);
  });

  it('of a part of the base, in a variant, is there', async () => {
    expect(await definition(`${RYE}\nformula "V"\n  based on "Fig and walnut rye"\n  swap dried figs for dried apricots in fi┆gs\n`)).toEqual(['main.bake:13: figs']);
  });

  it('of a path is the file', async () => {
    expect(await definition('use "pan┆try.bake"\n', { 'pantry.bake': PANTRY })).toEqual(['pantry.bake:1: ']);
    expect(await definition('use "mis┆sing.bake"\n')).toEqual([]);
  });

  it('of what is in the table, or of nothing, is nowhere', async () => {
    for (const source of [rye('bread fl', 'our'), rye('8 m', 'in'), '┆', 'dough\n  100 g ┆']) expect(await definition(source)).toEqual([]);
  });
});

describe('references and highlights', () => {
  it('of a part are all its names in its formula', async () => {
    const source = `${rye('all       fi', 'gs')}\n${RYE.replace('Fig and walnut rye', 'Other')}`;
    const { file, offset } = await marked(source);
    expect(referencesAt(file, offset, [], true).map(r => r.range.start.line + 1)).toEqual([13, 25, 34]);
    expect(referencesAt(file, offset, [], false)).toHaveLength(2);
    expect(highlightsAt(file, offset).map(h => [textIn(file.text, h.range), h.kind])).toEqual([['figs', 3], ['figs', 2], ['figs', 2]]);
  });

  it('of an ingredient take all spellings together', async () => {
    const { file, offset } = await marked('dough\n  100 g plain flo┆ur\n  100 g all-purpose flour\n  10 g rye flour\n');
    expect(highlightsAt(file, offset).map(h => textIn(file.text, h.range))).toEqual(['plain flour', 'all-purpose flour']);
  });

  it('know the short words of steps', async () => {
    const highlighted = async (source: string) => {
      const { file, offset } = await marked(source);
      return highlightsAt(file, offset).map(h => `${h.range.start.line + 1}: ${textIn(file.text, h.range)}`);
    };
    const dough = 'soaker "wet f┆igs"\n  100 g figs\n  40 g water\n\ndough\n  500 g bread flour\n  300 g water\n  all wet figs\n  50 g hill nut mix\n\nsteps\n';
    expect(await highlighted(`${dough}  mix 5 min, add soaker\n`)).toEqual(['1: wet figs', '8: wet figs', '12: soaker']);
    expect(await highlighted(`${dough}  mix 5 min, add wet figs and salt\n`)).toEqual(['1: wet figs', '8: wet figs', '12: wet figs']);
    // The dried ones have that name themselves.
    expect(await highlighted(`${dough}  mix 5 min, add figs\n`)).toEqual(['1: wet figs', '8: wet figs']);
    expect(await highlighted(`${dough.replace('┆', '').replace('hill nut', 'hill n┆ut')}  mix 5 min, add nut\n`)).toEqual(['9: hill nut mix', '12: nut']);
  });

  it('tell a part from an ingredient of its name as the sheet does', async () => {
    // A part takes in none of itself, and one below does not take an ingredient’s name away.
    const { file, offset } = await marked('poolish "sal┆t"\n  50 g salt\n  50 g water\n\ndough\n  500 g bread flour\n  10 g salt\n');
    expect(highlightsAt(file, offset).map(h => h.range.start.line + 1)).toEqual([1, 7]);
    const below = await marked('levain\n  50 g hon┆ey\n\nsoaker "honey"\n  20 g water\n\ndough\n  all honey\n');
    expect(highlightsAt(below.file, below.offset).map(h => h.range.start.line + 1)).toEqual([2]);
  });

  it('go across files that mean the same thing, and no further', async () => {
    const others = {
      'pantry.bake': PANTRY, 'knots.bake': 'use "pantry.bake"\n\ndough\n  100 g mill flour\n', 'apart.bake': 'ingredient "mill flour"\n  like rye flour\n',
    };
    const { file, project, offset } = await marked('use "pantry.bake"\n\ndough\n  500 g mill fl┆our\n', others);
    const all = await Promise.all(['pantry.bake', 'knots.bake', 'apart.bake'].map(async name => (await project.prepare(uriOf(name)))!));
    const found = (withDefinition: boolean) => referencesAt(file, offset, [...all, file], withDefinition).map(r => `${r.uri.slice(14)}:${r.range.start.line + 1}`);
    expect(found(true)).toEqual(['main.bake:4', 'pantry.bake:1', 'pantry.bake:7', 'knots.bake:4']);
    expect(found(false)).toEqual(['main.bake:4', 'pantry.bake:7', 'knots.bake:4']);
  });

  it('of water stay in the file', async () => {
    const { file, project, offset } = await marked('use "pantry.bake"\n\ndough\n  500 g wa┆ter\n', { 'pantry.bake': PANTRY });
    const pantry = (await project.prepare(uriOf('pantry.bake')))!;
    expect(referencesAt(file, offset, [pantry], true)).toHaveLength(1);
  });
});

describe('links', () => {
  it('lead from the path to the file, if there is one', async () => {
    const { file } = await marked('use "pantry.bake"\nuse "missing.bake"\nuse "../x.bake"\n', { 'pantry.bake': PANTRY });
    expect(documentLinksOf(file).map(link => [textIn(file.text, link.range), link.target])).toEqual([['pantry.bake', uriOf('pantry.bake')]]);
  });
});

describe('outline', () => {
  const outline = (symbols: readonly DocumentSymbol[]): unknown[] => symbols.map(s => (s.children?.length ? [s.name, outline(s.children)] : s.name));

  it('has formulas, their parts, and their lines', async () => {
    const { file } = await marked(`use "a.bake"\n\ningredient "x"\n\n${RYE}\nrecord 2026-03-14\n  room 21 C\n\nplan "P"\n  bake 6 loaves of "Fig and walnut rye"\n`);
    const [use, ingredient, formula, plan] = documentSymbolsOf(file);
    expect([use?.name, ingredient?.name, formula?.name, plan?.name]).toEqual(['a.bake', 'x', 'Fig and walnut rye', 'P']);
    expect(outline(formula!.children!)).toEqual([
      ['levain', ['dark rye flour', 'water', 'starter', 'ripen']],
      ['figs', ['dried figs', 'water', 'rest']],
      ['dough', ['bread flour', 'whole wheat flour', 'water', 'levain', 'salt', 'walnuts', 'figs', 'rice flour']],
      ['steps', ['mix', 'rest', ['bulk', ['fold', 'fold', 'fold', 'coil fold']], 'preshape', 'rest', 'shape', 'retard', 'preheat', 'score', 'bake', 'bake', 'cool']],
      'record 2026-03-14',
    ]);
    expect(formula?.children?.map(c => c.detail)).toEqual(['132 g', 'soaker, 190 g', '1940 g', undefined, undefined]);
    expect(outline(plan!.children!)).toEqual(['Fig and walnut rye']);
  });

  it('has variants with their base', async () => {
    const { file } = await marked('formula "V"\n  based on "B"\n  swap a for b\n');
    expect(documentSymbolsOf(file)).toMatchObject([{ name: 'V', detail: 'variant of B', children: [{ name: 'swap a for b' }] }]);
  });

  it('has no symbol without a name and none outside its parent', async () => {
    for (const source of [RYE, 'formula\n\npart\n  \n', 'formula ""\npart " "\n', 'record\n', 'use\n', 'dough\n  1 g\n', 'plan\n bake 6\n']) {
      const { file } = await marked(source);
      const index = lineIndexOf(file.text);
      const check = (symbols: readonly DocumentSymbol[], from: number, to: number): void => {
        for (const { name, range, selectionRange, children = [] } of symbols) {
          const [start, end] = [index.offsetAt(range.start), index.offsetAt(range.end)];
          expect(name.trim()).not.toBe('');
          expect(start).toBeGreaterThanOrEqual(from);
          expect(end).toBeLessThanOrEqual(to);
          expect(index.offsetAt(selectionRange.start)).toBeGreaterThanOrEqual(start);
          expect(index.offsetAt(selectionRange.end)).toBeLessThanOrEqual(end);
          check(children, start, end);
        }
      };
      check(documentSymbolsOf(file), 0, file.text.length);
    }
  });

  it('leaves out the lines of a very long file', async () => {
    const { file } = await marked(`${RYE}${'\n'.repeat(5000)}`);
    expect(documentSymbolsOf(file)[0]?.children?.map(c => c.children)).toEqual([[], [], [], []]);
  });
});

describe('folding', () => {
  const folds = async (source: string, most?: number) => foldingRangesOf((await marked(source)).file, most).map(f => `${f.startLine + 1}-${f.endLine + 1}${f.kind ?? ''}`);

  it('takes in formulas, blocks, bulks and runs of comments', async () => {
    expect(await folds(`# one\n# two\n\n${RYE}\n\n`)).toEqual(['4-47', '1-2comment', '10-14', '16-19', '21-29', '31-47', '34-38']);
    expect(await folds('ingredient "x"\n  like y\n\nuse "z"\n')).toEqual(['1-2']);
  });

  it('keeps to the limit of the editor, the widest first', async () => {
    expect(await folds(RYE, 2)).toEqual(['1-44', '28-44']);
  });
});
