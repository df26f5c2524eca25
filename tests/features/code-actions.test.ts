/** Repairs and other ways to write, as an editor is offered them. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CodeAction, Diagnostic, TextEdit } from 'vscode-languageserver';
import { checks } from '../../server/core/checks';
import { codeActionsOf, resolvedCodeAction, type CodeActionOptions } from '../../server/features/code-actions';
import { FIX_ALL } from '../../server/features/shared/action-kinds';
import { diagnosticsOf } from '../../server/features/diagnostics';
import type { ProjectFile } from '../../server/project/file';
import { marked as markedPlace } from '../core/bake';
import { edited, marked, uriOf } from './marked';

const SHOWN = { relatedInformation: false, codeDescription: false, checksPage: undefined };
const LOAF = 'formula "Loaf"\n  makes 1 loaf of 860 g\n\ndough\n  500 g bread flour\n  350 g water\n  10 g salt\n';

async function asked(source: string, more: Partial<CodeActionOptions> = {}) {
  const { file, offset, offsets, project } = await marked(source);
  const options: CodeActionOptions = {
    diagnostics: diagnosticsOf(file, SHOWN), version: 1, documentChanges: false, snippets: false,
    supposing: text => project.supposing(new Map([[file.uri, text]])).get(file.uri), ...more,
  };
  const actions = codeActionsOf(file, file.lineIndex.rangeOf(offset, offsets[1] ?? offset), options);
  return { file, actions, options, titles: actions.map(({ title }) => title), after: (action: CodeAction | undefined) => edited(sourceOf(file), editsOf(file, action)) };
}

const sourceOf = (file: ProjectFile): string => file.page?.source ?? file.text;
const editsOf = (file: ProjectFile, action: CodeAction | undefined): readonly TextEdit[] => action?.edit?.changes?.[file.uri] ?? [];
const errorsIn = (found: readonly Diagnostic[]) => found.filter(({ severity }) => severity === 1).map(({ code }) => String(code)).sort();

describe('repairs', () => {
  it('that are certain are preferred and come first; what is a choice is a question', async () => {
    const { actions } = await asked(LOAF.replace('10 g salt', '┆2,5 g salt┆').replace('makes 1 loaf of 860 g', 'makes 1 loaf of 500 g'));
    expect(actions[0]).toMatchObject({ isPreferred: true, title: 'Write 2.5' });
    const choice = await asked(LOAF.replace('makes 1 loaf of 860 g', 'ma┆kes 1 loaf of 500 g'));
    const repairs = choice.actions.filter(({ title }) => !title.startsWith('Accept'));
    expect(repairs.length).toBeGreaterThan(1);
    for (const one of repairs) expect(one).toMatchObject({ kind: 'quickfix', title: expect.stringMatching(/\?$/) });
    for (const one of repairs) expect(one).not.toHaveProperty('isPreferred');
  });

  it('of a selection are made at once, each told of', async () => {
    const source = LOAF.replace('350 g water', '350,┆5 g water').replace('10 g salt', '10,5 g s┆alt');
    const { actions, after } = await asked(source);
    const both = actions.find(({ title }) => title === 'Make these 2 repairs');
    expect(both).toMatchObject({ kind: 'quickfix', diagnostics: [{ code: 'comma-decimal' }, { code: 'comma-decimal' }] });
    expect(after(both)).toBe(LOAF.replace('350 g', '350.5 g').replace('10 g', '10.5 g'));
  });

  it('of one code are made in all of the file', async () => {
    const source = LOAF.replace('350 g water', '350,5 g water').replace('10 g salt', '10┆,5 g salt');
    const { actions, after } = await asked(source);
    expect(after(actions.find(({ title }) => title === 'Repair all 2 of comma-decimal in this file'))).toBe(LOAF.replace('350 g', '350.5 g').replace('10 g', '10.5 g'));
    expect((await asked(LOAF.replace('10 g salt', '10┆,5 g salt'))).titles.filter(title => title.startsWith('Repair all'))).toEqual([]);
  });

  it('of everything certain go on until none is left', async () => {
    // Two comments that touch cannot go at one time: the second goes after the first.
    const source = LOAF.replace('  350 g water', '  # accept salt-high: last year\n  # accept sugar-high: last year\n  350,5 g water');
    const { actions, after, file } = await asked(source, { only: [FIX_ALL] });
    expect(after(actions[0])).toBe(LOAF.replace('350 g', '350.5 g'));
    expect(editsOf(file, actions[0])).toHaveLength(2);
  });
});

describe('the edit of an action', () => {
  const RESOLVES = { resolves: true, isAskedFor: true } as const;

  it('comes once it is chosen, and is the one that would have come at once', async () => {
    const source = LOAF.replace('dough', 'do┆ugh').replace('10 g salt', '10,5 g salt').replace('350 g', '350,5 g');
    const eager = await asked(source, { isAskedFor: true, only: ['refactor', 'source'] });
    const lazy = await asked(source, { ...RESOLVES, only: ['refactor', 'source'] });
    expect(lazy.titles).toEqual(eager.titles);
    expect(lazy.titles.length).toBeGreaterThan(0);
    for (const [index, action] of lazy.actions.entries()) {
      expect(action).not.toHaveProperty('edit');
      expect(resolvedCodeAction(lazy.file, action, lazy.options)?.edit).toEqual(eager.actions[index]?.edit);
    }
  });

  it('does not come for a text that has changed', async () => {
    const { actions, file, options } = await asked(LOAF.replace('dough', 'do┆ugh'), RESOLVES);
    const [action] = actions.filter(({ data }) => data !== undefined);
    expect(action).toBeDefined();
    expect(resolvedCodeAction(file, action!, { ...options, version: 2 })).toBeUndefined();
    expect(resolvedCodeAction(file, { ...action!, data: { ...action!.data as object, id: 'no such' } }, options)).toBeUndefined();
    const other = { title: 'Of another server', data: 7 };
    expect(resolvedCodeAction(file, other, options)).toBe(other);
  });
});

describe('other ways to write', () => {
  it('are there when they are asked for, and light no bulb', async () => {
    const source = LOAF.replace('dough', 'do┆ugh');
    expect((await asked(source, { isAskedFor: true })).titles).toContain("Write the dough in baker's percentages");
    expect((await asked(source, { isAskedFor: false })).titles).toEqual([]);
    expect((await asked(source, { only: ['refactor.extract'] })).titles).toEqual([]);
    const yeasted = source.replace('10 g salt', '10 g salt\n  5 g instant yeast').replace('860', '865');
    expect((await asked(yeasted, { only: ['refactor.extract'] })).actions.map(({ kind, title }) => `${kind}: ${title}`)).toEqual([
      'refactor.extract: Make 20 % of the flour into a poolish', 'refactor.extract: Make 20 % of the flour into a biga',
    ]);
  });

  it('are not there for a selection over several blocks', async () => {
    expect((await asked(LOAF.replace('Loaf', 'Lo┆af').replace('dough', 'do┆ugh'), { isAskedFor: true })).titles).toEqual([]);
  });

  it('keep within the fence of a page, with its indent', async () => {
    const page = `# Notes\n\n- Saturdays:\n\n  \`\`\`bake\n${`${LOAF.replace('10 g salt', '10 g salt\n  5 g instant yeast').replace('860', '865')}`.replace(/^(?=.)/gm, '  ')}  \`\`\`\n\nMore.\n`;
    const { project } = await marked('');
    project.update(uriOf('notes.md'), page);
    const file = (await project.prepare(uriOf('notes.md')))!;
    const at = file.text.indexOf('dough');
    const actions = codeActionsOf(file, file.lineIndex.rangeOf(at, at), { diagnostics: [], version: 1, documentChanges: false, snippets: false, isAskedFor: true });
    const after = edited(page, editsOf(file, actions.find(({ title }) => title.includes('poolish'))));
    expect(after).toContain('\n\n  poolish\n    100 g bread flour\n    100 g water\n    0.08 g instant yeast\n    ripen 12 to 14 h at 21 C\n\n  dough\n    400 g bread flour\n    250 g water\n    all   poolish\n');
    expect(after.endsWith('  ```\n\nMore.\n')).toBe(true);
  });

  it('put a new block into a fence, where the dough begins another', async () => {
    const page = '```bake\nformula "Loaf"\n  makes 1 loaf of 865 g\n```\n\nThe dough:\n\n```bake\ndough\n  500 g bread flour\n  350 g water\n  10 g salt\n  5 g instant yeast\n```\n';
    const { project } = await marked('');
    project.update(uriOf('notes.md'), page);
    const file = (await project.prepare(uriOf('notes.md')))!;
    const at = file.text.indexOf('dough');
    const actions = codeActionsOf(file, file.lineIndex.rangeOf(at, at), { diagnostics: [], version: 1, documentChanges: false, snippets: false, isAskedFor: true });
    const after = edited(page, editsOf(file, actions.find(({ title }) => title.includes('poolish'))));
    expect(after.replace(/^ {2}ripen.*\n/m, '')).toMatch(/poolish\n {2}100 g bread flour\n {2}100 g water\n {2}0\.08 g instant yeast\n/);
    expect(after.match(/^```/gm)).toHaveLength(4);
    const outside = after.split(/^```.*\n[^]*?^```\n/m).join('');
    expect(outside.trim()).toBe('The dough:');
  });
});

describe('every repair of every finding', () => {
  const samples = path.join(import.meta.dirname, '../../samples');
  const texts = [
    ...checks.map(({ code, trips }) => ({ name: code, text: markedPlace(trips).text })),
    ...readdirSync(samples).filter(name => name.endsWith('.bake')).map(name => ({ name, text: readFileSync(path.join(samples, name), 'utf8') })),
  ];

  it.each(texts)('of $name takes its finding away and adds no error', async ({ text }) => {
    const { file, options } = await asked(text);
    const before = diagnosticsOf(file, SHOWN);
    for (const shown of before) {
      for (const action of codeActionsOf(file, shown.range, { ...options, diagnostics: [shown] })) {
        if (action.diagnostics?.length !== 1 || action.title.startsWith('Accept')) continue;
        const after = diagnosticsOf((await marked(edited(file.text, editsOf(file, action)))).file, SHOWN);
        const same = (found: readonly Diagnostic[]) => found.filter(({ code, message }) => code === shown.code && message === shown.message).length;
        expect(same(after), `${action.title}: ${shown.message}`).toBeLessThan(same(before));
        expect(errorsIn(after).length, `${action.title}: ${errorsIn(after).join(', ')}`).toBeLessThanOrEqual(errorsIn(before).length);
      }
    }
  });

  const repaired = async (text: string): Promise<string> => {
    const { actions, after } = await asked(text, { only: [FIX_ALL] });
    return after(actions[0]);
  };

  it('that is certain is made at once, until none is left, and adds no error', async () => {
    await fc.assert(fc.asyncProperty(fc.array(fc.constantFrom(...texts.map(({ text }) => text), LOAF.replace('10 g', '1,5 g'), 'formula "Open\n'), { minLength: 1, maxLength: 3 }), fc.boolean(), async (some, windows) => {
      const text = some.join('\n').replaceAll('\n', windows ? '\r\n' : '\n');
      const now = await repaired(text);
      expect((await asked(now, { only: [FIX_ALL] })).actions).toEqual([]);
      const [was, is] = [await marked(text), await marked(now)].map(({ file }) => errorsIn(diagnosticsOf(file, SHOWN)));
      expect(is!.filter(code => !was!.includes(code))).toEqual([]);
    }), { numRuns: 40 });
  });
});
