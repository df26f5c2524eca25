/** What an editor shows of formulas that are based on others. */
import { describe, expect, it } from 'vitest';
import type { TextEdit } from 'vscode-languageserver';
import type { CodeActionOptions } from '../../server/features/code-actions/options';
import { refactoringActions } from '../../server/features/code-actions/refactorings';
import { codeLensesOf } from '../../server/features/codelens';
import { completionsAt } from '../../server/features/completion';
import { definitionAt } from '../../server/features/definition';
import { diagnosticsOf } from '../../server/features/diagnostics';
import { hoverAt } from '../../server/features/hover';
import { inlayHintsOf } from '../../server/features/inlay-hints';
import { referencesAt } from '../../server/features/references';
import { renameAt } from '../../server/features/rename';
import { edited, MARK, marked, RYE, textIn, uriOf } from './marked';

const VARIANT = `
formula "Apricot rye"
  based on  "Fig and walnut rye"
  swap      walnuts for pistachios
  swap      dried figs for dried apricots in figs
  set       water to 620 g
  add       10 g orange zest
  drop      rice flour
`;

const at = (text: string, before: string, after: string): string => {
  const index = text.lastIndexOf(before + after);
  if (index < 0) throw new Error(`No ${before}${after}.`);
  return text.slice(0, index) + before + MARK + text.slice(index + before.length);
};

async function hover(before: string, after: string): Promise<string> {
  const { file, offset } = await marked(at(RYE + VARIANT, before, after));
  const contents = hoverAt(file, offset)?.contents;
  return typeof contents === 'object' && 'value' in contents ? contents.value : '';
}

describe('a variant in an editor', () => {
  it('says on each of its lines what the base has, what it becomes, and what that does to the totals', async () => {
    const set = await hover('set       wat', 'er');
    expect(set).toContain('**Fig and walnut rye** has 600 g of water in dough, 68.2 %.');
    expect(set).toContain('Here: 620 g of water in dough, 70.5 %.');
    expect(set).toContain('| | without this line | with it |');
    expect(set).toContain('| hydration | 70.4 % | 72.5 % |');
    expect(await hover('62', '0 g')).toContain('Here: 620 g of water in dough, 70.5 %.');
    expect(await hover('dr', 'op')).toContain('Here there is none.');
    expect(await hover('for pista', 'chios')).toContain('Here: 120 g of pistachios in dough');
    expect(await hover('10', ' g orange')).toContain('Here: 10 g of orange zest in dough');
  });

  it('says at its head how its totals differ, in the hover and in the line above', async () => {
    const head = await hover('form', 'ula "Apricot');
    expect(head).toContain('| hydration | 72.5 % |');
    expect(head).toContain('A variant of **Fig and walnut rye**:');
    expect(head).toContain('| hydration | 70.4 % | 72.5 % |');
    const { file } = await marked(RYE + VARIANT);
    const lenses = codeLensesOf(file, { previewCommand: 'show' }).map(({ range, command }) => `${textIn(file.text, range).split('\n')[0]}: ${command?.title}`);
    expect(lenses).toContain('formula "Apricot rye": from “Fig and walnut rye”: hydration 70.4 % → 72.5 %, water in all 74.6 % → 76.7 %, dough 1940 g → 1970 g, one piece 970 g → 985 g');
    // Its parts stand in its base, and so do the lines above them.
    expect(lenses.filter(one => one.startsWith('levain'))).toHaveLength(1);
  });

  it('has hints where its own lines say something, and none for what its base says', async () => {
    const { file, project } = await marked(RYE + VARIANT);
    project.configure({ hints: 'all' });
    const again = project.get(file.uri)!;
    const from = again.text.indexOf('formula "Apricot');
    const hints = inlayHintsOf(again, again.lineIndex.rangeOf(from, again.text.length)).map(({ position, label }) => `${again.text.slice(0, again.lineIndex.offsetAt(position)).split('\n').at(-1)!.trim()} [${label as string}]`);
    expect(hints).toEqual(['swap      walnuts for pistachios [13.6 %]', 'set       water to 620 g [70.5 %]', 'add       10 g orange zest [1.1 %]']);
  });

  it('goes from a name in it to the line of the base, in whatever file', async () => {
    const base = { 'rye.bake': RYE };
    const { file, offset } = await marked(at(`use "rye.bake"\n${VARIANT}`, 'swap      wal', 'nuts'), base);
    expect(definitionAt(file, offset).map(({ targetUri, targetRange }) => `${targetUri} ${textIn(RYE, targetRange)}`)).toEqual([`${uriOf('rye.bake')} 120 g     walnuts, toasted`]);
    const swapped = await marked(at(RYE + VARIANT, 'drop      rice', ' flour'));
    expect(definitionAt(swapped.file, swapped.offset).map(({ targetRange }) => textIn(swapped.file.text, targetRange))).toEqual(['20 g      rice flour for dusting']);
  });

  it('finds an ingredient of the base in the variants of other files', async () => {
    const { file, offset, project } = await marked(at(RYE, 'wal', 'nuts, toasted'), { 'v.bake': `use "main.bake"\n${VARIANT}` });
    const other = (await project.prepare(uriOf('v.bake')))!;
    const found = referencesAt(file, offset, [other], true).map(({ uri, range }) => `${uri.slice(uri.lastIndexOf('/') + 1)}:${range.start.line + 1}`);
    expect(found).toContain('v.bake:5');
    const unlinked = await marked(at(RYE, 'wal', 'nuts, toasted'), { 'v.bake': 'use "main.bake"\n\nformula "B"\n\ndough\n  10 g walnuts\n' });
    const apart = (await unlinked.project.prepare(uriOf('v.bake')))!;
    expect(referencesAt(unlinked.file, unlinked.offset, [apart], true).some(({ uri }) => uri.endsWith('v.bake'))).toBe(false);
  });

  it('takes a new name of an ingredient that nobody knows over into its variants', async () => {
    const base = 'formula "B"\n\ndough\n  500 g bread flour\n  300 g water\n  10 g salt\n  5 g mill┆dust\n';
    const { file, offset, project } = await marked(base, { 'v.bake': 'use "main.bake"\n\nformula "V"\n  based on "B"\n  set milldust to 6 g\n' });
    const other = (await project.prepare(uriOf('v.bake')))!;
    const edit = renameAt(file, offset, 'bran dust', { others: [other], textOf: () => undefined, suppose: (texts: ReadonlyMap<string, string>) => {
      const supposed = project.supposing(texts);
      return (uri: string) => supposed.get(uri);
    } } as never);
    expect(JSON.stringify(edit)).toContain('v.bake');
    expect(JSON.stringify(edit)).not.toContain('refused');
  });

  it('shows the line of the base beside a finding, and never marks another block or file', async () => {
    const { file } = await marked(`use "rye.bake"\n${VARIANT.replace('set       water to 620 g', 'set       salt to 60 g')}`, { 'rye.bake': RYE });
    const found = diagnosticsOf(file, { relatedInformation: true, codeDescription: false });
    const salty = found.find(({ code }) => code === 'salt-high');
    expect(textIn(file.text, salty!.range)).toBe('60 g');
    expect(salty?.relatedInformation?.map(({ location, message }) => `${location.uri} ${textIn(RYE, location.range)}: ${message}`)).toEqual([`${uriOf('rye.bake')} 18 g: Here in “Fig and walnut rye”.`]);
  });

  it('is written out in full, and a formula as a variant of one in another file, where somebody asks', async () => {
    const actions = async (source: string, others: Record<string, string>) => {
      const { file, offset } = await marked(source, others);
      return refactoringActions(file, { start: offset, end: offset }, { isAskedFor: true } as CodeActionOptions).map(action => {
        const edits = Object.values(action.edit?.changes ?? {})[0] ?? action.edit?.documentChanges?.flatMap(change => ('edits' in change ? change.edits : [])) ?? [];
        return { title: action.title, after: edited(file.text, edits as TextEdit[]) };
      });
    };
    const others = { 'rye.bake': RYE };
    const inFull = (await actions(at(`use "rye.bake"\n${VARIANT}`, 'form', 'ula "Apricot'), others)).find(({ title }) => title.endsWith('out in full'));
    expect(inFull?.title).toBe('Write this variant of “Fig and walnut rye” out in full');
    expect(inFull?.after).toContain('  620 g     water\n');
    expect(inFull?.after).not.toContain('based on');
    const again = (await actions(at(inFull!.after, 'form', 'ula "Apricot'), others)).find(({ title }) => title.includes('as a variant'));
    expect(again?.title).toBe('Write this formula as a variant of “Fig and walnut rye”');
    expect(again?.after).toContain(VARIANT.trim().split('\n').find(line => line.includes('set '))!);
    expect(again!.after.length).toBeLessThan(inFull!.after.length / 3);
    expect((await actions(at(RYE, 'form', 'ula'), {})).some(({ title }) => title.includes('variant'))).toBe(false);
  });

  it('completes the lines of the base, of a base that is a variant too', async () => {
    const labels = async (line: string) => {
      const { file, offset } = await marked(`${RYE}${VARIANT}\nformula "Third"\n  based on "Apricot rye"\n  ${line}`);
      return completionsAt(file, offset, { snippets: false, paths: [] }).map(({ label }) => label);
    };
    expect(await labels('drop ┆')).toEqual(expect.arrayContaining(['pistachios', 'orange zest', 'dried apricots']));
    expect(await labels('drop ┆')).not.toContain('walnuts');
    expect(await labels('drop pistachios in ┆')).toEqual(expect.arrayContaining(['dough', 'levain', 'figs']));
  });
});
