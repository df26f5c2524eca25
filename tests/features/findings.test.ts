import { describe, expect, it } from 'vitest';
import type { CodeAction, Diagnostic } from 'vscode-languageserver';
import { codeActionsOf } from '../../server/features/code-actions';
import { FIX_ALL } from '../../server/features/shared/action-kinds';
import type { CodeActionOptions } from '../../server/features/code-actions';
import { codeLensesOf } from '../../server/features/codelens';
import { diagnosticsOf } from '../../server/features/diagnostics';
import { previewAt } from '../../server/features/preview';
import { edited, marked, RYE, textIn } from './marked';

const PLAIN = { relatedInformation: true, codeDescription: true, checksPage: 'https://bakery.example/checks' };
const LOAF = 'formula "Loaf"\n  makes 1 loaf of 860 g\n\ndough\n  500 g bread flour\n  350 g water\n  10 g salt\n';

describe('findings', () => {
  const shown = async (source: string, options = PLAIN) => {
    const { file } = await marked(source);
    return diagnosticsOf(file, options).map(d => ({ ...d, over: textIn(file.text, d.range) }));
  };

  it('have a code that leads to its page, a severity, a source, and stand at their place', async () => {
    expect(await shown(LOAF.replace('10 g salt', '2,5 g salt'))).toEqual(expect.arrayContaining([
      expect.objectContaining({ severity: 2, source: 'Proofsheet', over: '2,5', codeDescription: { href: expect.stringContaining('#') } }),
    ]));
    const bare = await shown(LOAF.replace('10 g salt', '2,5 g salt'), { ...PLAIN, relatedInformation: false, codeDescription: false });
    expect(bare[0]).not.toHaveProperty('codeDescription');
    expect(bare[0]).not.toHaveProperty('relatedInformation');
  });

  it('are none for a formula that is fine', async () => expect(await shown(RYE)).toEqual([]));

  it('stand at the same place after é, 漢 and 👩‍🍳, and with CRLF', async () => {
    const source = `# é 漢 👩‍🍳\n${LOAF.replace('500 g bread flour', '500 g bread flour, é 漢 👩‍🍳').replace('350 g', '350 grmas')}`;
    const places = async (text: string) => (await shown(text)).map(d => [d.over, d.range]);
    expect(await places(source)).not.toEqual([]);
    expect(await places(source.replaceAll('\n', '\r\n'))).toEqual(await places(source));
  });

  it('say that a file is too large to be read', async () => {
    const { project } = await marked('');
    project.update('file:///stall/large.bake', '#'.repeat(10_000_001));
    expect(diagnosticsOf(project.get('file:///stall/large.bake')!, PLAIN)).toMatchObject([{ code: 'file-too-large', severity: 3 }]);
    const described = { ...PLAIN, codeDescription: true, checksPage: 'https://stall.example/checks' };
    expect(diagnosticsOf(project.get('file:///stall/large.bake')!, described)).toMatchObject([{ codeDescription: { href: 'https://stall.example/checks#file-too-large' } }]);
  });
});

describe('fixes', () => {
  async function actions(source: string, options: Partial<CodeActionOptions> = {}) {
    const { file, offset } = await marked(source);
    const range = file.lineIndex.rangeOf(offset, offset);
    const found = codeActionsOf(file, range, {
      diagnostics: diagnosticsOf(file, PLAIN), version: 3, documentChanges: false, snippets: false, ...options,
    });
    const apply = (action: CodeAction | undefined) => edited(file.text, action?.edit?.changes?.[file.uri] ?? []);
    return { found, apply, titles: found.map(a => a.title), file };
  }

  it('repair the finding and are tied to it', async () => {
    const { found, apply } = await actions(LOAF.replace('10 g salt', '2┆,5 g salt'));
    expect(found[0]).toMatchObject({ kind: 'quickfix', isPreferred: true, diagnostics: [{ code: expect.any(String) }] });
    const after = apply(found[0]);
    expect(after).toBe(LOAF.replace('10 g salt', '2.5 g salt'));
  });

  it('of any finding remove it and add no error', async () => {
    const sources = [
      LOAF.replace('10 g salt', '┆2,5 g salt'), LOAF.replace('dough\n', 'duogh┆\n'), LOAF.replace('makes 1 loaf of 860 g', 'ma┆kes 1 loaf of 500 g'),
    ];
    for (const source of sources) {
      const { found, apply, file } = await actions(source);
      expect(found.filter(a => !a.title.startsWith('Accept')), source).not.toEqual([]);
      for (const action of found.filter(a => !a.title.startsWith('Accept'))) {
        const answered = action.diagnostics as Diagnostic[];
        const after = diagnosticsOf((await marked(apply(action))).file, PLAIN);
        const errors = (list: readonly Diagnostic[]) => list.filter(d => d.severity === 1).length;
        expect(after.filter(d => d.message === answered[0]?.message)).toEqual([]);
        expect(errors(after), action.title).toBeLessThanOrEqual(errors(diagnosticsOf(file, PLAIN)));
      }
    }
  });

  it('of everything certain come as one edit, when asked for by name', async () => {
    const source = LOAF.replace('10 g salt', '1,5 g salt┆').replace('350 g water', '350,5 g water');
    const { found, apply } = await actions(source, { only: [FIX_ALL] });
    expect(found).toMatchObject([{ kind: FIX_ALL }]);
    expect(apply(found[0])).toBe(LOAF.replace('10 g salt', '1.5 g salt').replace('350 g water', '350.5 g water'));
    expect((await actions(source, { only: ['source.fixAll'] })).found).toHaveLength(1);
    expect((await actions(source)).found.map(a => a.kind)).not.toContain(FIX_ALL);
    expect((await actions(LOAF, { only: [FIX_ALL] })).found).toEqual([]);
    expect((await actions(source, { only: ['refactor'] })).found).toEqual([]);
  });

  it('name the version of the text where the editor wants that', async () => {
    const { found } = await actions(LOAF.replace('10 g salt', '2┆,5 g salt'), { documentChanges: true });
    expect(found[0]?.edit?.documentChanges).toMatchObject([{ textDocument: { version: 3 }, edits: [{ newText: expect.any(String) }] }]);
  });

  const SALTY = LOAF.replace('860', '875').replace('10 g salt', '2┆5 g salt');

  it('accept a finding with a reason to be written', async () => {
    const { found, apply } = await actions(SALTY);
    const accept = found.find(a => a.title === 'Accept salt-high here, with a reason');
    expect(apply(accept)).toContain('  25 g salt  # accept salt-high: \n');
    const codes = async (text: string) => diagnosticsOf((await marked(text)).file, PLAIN).map(d => d.code);
    expect(await codes(apply(accept))).toEqual(expect.arrayContaining(['accept-without-reason']));
    expect(await codes(apply(accept).replace('salt-high: ', 'salt-high: for the sea bread'))).toEqual([]);
  });

  it('accept it above a line that has a comment', async () => {
    const { found, apply } = await actions(SALTY.replace('salt', 'salt # from the sea'));
    expect(apply(found.find(a => a.title.startsWith('Accept')))).toContain('  # accept salt-high: \n  25 g salt # from the sea\n');
  });

  it('put the cursor where the reason goes, in an editor that can', async () => {
    const { found } = await actions(SALTY, { documentChanges: true, snippets: true });
    const accept = found.find(a => a.title.startsWith('Accept'));
    expect(accept?.edit?.documentChanges).toMatchObject([{ edits: [{ snippet: { kind: 'snippet', value: '  # accept salt-high: $0' } }] }]);
  });

  it('do not accept what cannot be read', async () => {
    expect((await actions(LOAF.replace('10 g salt', 'wib┆ble'))).titles.filter(t => t.startsWith('Accept'))).toEqual([]);
  });
});

describe('a line of totals', () => {
  const lenses = async (source: string, previewCommand = 'proofsheet.showPreview') => codeLensesOf((await marked(source)).file, { previewCommand });

  it('stands above formulas and parts', async () => {
    const found = await lenses(RYE);
    expect(found.map(l => [l.range.start.line + 1, l.command?.title])).toEqual([
      [1, '946 g flour · 1940 g dough · 70.4 % hydration · 1.9 % salt · 7 % of the flour prefermented · 2 loaves of 970 g'],
      [7, '132 g · 100 % hydration'],
      [13, '190 g'],
      [18, '1940 g · 68.2 % hydration as weighed'],
    ]);
    expect(found[0]?.command).toMatchObject({ command: 'proofsheet.showPreview', arguments: ['file:///stall/main.bake', 'Fig and walnut rye'] });
  });

  it('is text only where there is no preview', async () => {
    expect((await lenses(RYE, ''))[0]?.command).toMatchObject({ command: '', arguments: [] });
  });

  it('stands above parts that no formula opens', async () => {
    expect((await lenses('dough\n  100 g bread flour\n  70 g water\n')).map(l => l.command?.title)).toEqual(['170 g · 70 % hydration']);
    // Its moisture is in the milk: no hydration of 0 % is told.
    expect((await lenses('dough\n  100 g bread flour\n  70 g milk\n')).map(l => l.command?.title)).toEqual(['170 g']);
  });

  it('says so while nothing is known', async () => {
    expect((await lenses('formula "A"\n\ndough\n  100 % bread flour\n'))[0]?.command?.title).toBe('weights not known yet');
  });
});

describe('preview', () => {
  const request = { zone: 'Europe/Lisbon', anchor: { kind: 'ready', epochMs: Date.UTC(2026, 2, 14, 8) } } as const;
  const preview = async (source: string) => {
    const { file, offset } = await marked(source);
    return previewAt(file, offset, request);
  };

  it('shows the formula at the cursor, and names its line', async () => {
    const found = await preview(`# above\n\n${LOAF}\n${RYE.replace('600 g', '60┆0 g')}`);
    expect(found).toMatchObject({ title: 'Fig and walnut rye', formulaName: 'Fig and walnut rye', line: 10 });
    expect(found?.html).toContain('Fig and walnut rye');
  });

  it('shows the nearest formula with the cursor outside of one', async () => {
    expect((await preview(`use "a.b┆ake"\n\n${LOAF}`))?.title).toBe('Loaf');
    expect((await preview(`${LOAF}\n${RYE}\ningredient "Barley"\n  dens┆ity 0.5 g per ml\n`))?.title).toBe('Fig and walnut rye');
    expect((await preview(`${LOAF}\nplan "P"\n  hands ┆2\n`))?.title).toBe('P');
    expect(await preview('use "a.bake"┆\n')).toBeUndefined();
  });
});
