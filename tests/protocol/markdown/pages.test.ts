/** Markdown pages at the other end of a real server. */
import { describe, expect, it } from 'vitest';
import type { CodeAction, CodeLens, CompletionItem, DocumentSymbol, Hover, LocationLink, TextDocumentEdit, TextEdit } from 'vscode-languageserver-protocol';
import { PUSHED } from '../editor';
import { open, quit } from '../one-editor';

const PANTRY = 'ingredient "mill flour"\n  like bread flour\n';
const PAGE = `# Friday

The dough, for the stall.

- By hand:

  \`\`\`bake
  use "pantry.bake"

  formula "Loaf"
    makes 1 loaf of 860 g

  dough
    500 g mill flour
    350 g water
    10 g salt
  \`\`\`

The dough rests.
`;

describe('a Markdown page', () => {
  it('has findings in its fences, fixes, and nothing outside', async () => {
    const e = await open({ files: { 'pantry.bake': PANTRY } });
    await e.openText('friday.md', PAGE.replace('10 g salt', '2,5 g salt'), 'markdown');
    const { items } = await e.pulled('friday.md');
    expect(items?.map(({ code }) => code)).toContain('comma-decimal');
    expect(items?.find(({ code }) => code === 'comma-decimal')?.range).toEqual({ start: { line: 15, character: 4 }, end: { line: 15, character: 7 } });
    const { range } = items!.find(({ code }) => code === 'comma-decimal')!;
    const fixes = await e.about<CodeAction[]>('codeAction', 'friday.md', { range, context: { diagnostics: [] } });
    const fix = fixes.find(({ title }) => title === 'Write 2.5');
    await e.apply('friday.md', (fix!.edit!.documentChanges![0] as TextDocumentEdit).edits as TextEdit[]);
    expect(e.text('friday.md')).toBe(PAGE.replace('10 g salt', '2.5 g salt'));
    const outside = { start: { line: 2, character: 0 }, end: { line: 2, character: 9 } };
    expect(await e.about('codeAction', 'friday.md', { range: outside, context: { diagnostics: [] } })).toBeNull();
    await quit();
  });

  it('has hovers, completion, definitions and totals in its fences only', async () => {
    const e = await open({ files: { 'pantry.bake': PANTRY } });
    await e.openText('friday.md', PAGE, 'markdown');
    expect((await e.ask<Hover>('hover', 'friday.md', '  do┆ugh\n')).range).toMatchObject({ start: { line: 12, character: 2 } });
    expect(await e.ask('hover', 'friday.md', 'The do┆ugh rests')).toBeNull();
    expect(await e.ask('hover', 'friday.md', '```ba┆ke')).toBeNull();
    const items = await e.ask<CompletionItem[]>('completion', 'friday.md', '350 g wa┆ter');
    expect(items.map(({ label }) => label)).toContain('water');
    expect(await e.ask('completion', 'friday.md', 'The do┆ugh rests')).toBeNull();
    const [link] = await e.ask<LocationLink[]>('definition', 'friday.md', 'mill fl┆our');
    expect(link?.targetUri).toContain('pantry.bake');
    expect((await e.about<CodeLens[]>('codeLens', 'friday.md')).map(({ range }) => range.start.line)).toEqual(expect.arrayContaining([9, 12]));
    expect(await e.about<DocumentSymbol[]>('documentSymbol', 'friday.md')).toEqual([]);
    await quit();
  });

  it('is laid out in its fences, all of it or what is marked', async () => {
    const e = await open({ files: { 'pantry.bake': PANTRY } });
    await e.openText('friday.md', PAGE, 'markdown');
    const options = { tabSize: 2, insertSpaces: true };
    const outside = { start: { line: 0, character: 0 }, end: { line: 5, character: 0 } };
    expect(await e.about('rangeFormatting', 'friday.md', { options, range: outside })).toBeNull();
    const across = { start: { line: 0, character: 0 }, end: { line: 10, character: 2 } };
    await e.apply('friday.md', await e.about<TextEdit[]>('rangeFormatting', 'friday.md', { options, range: across }));
    expect(e.text('friday.md')).toBe(PAGE.replace('    makes 1', '    makes     1'));
    await e.apply('friday.md', await e.about<TextEdit[]>('formatting', 'friday.md', { options }));
    expect(e.text('friday.md')).toBe(PAGE.replace('makes 1', 'makes     1').replace(/^( {4}\d+ g) +/gm, (start) => start.trimEnd().padEnd(14)));
    await quit();
  });

  it('is shown in the preview: the formula at the cursor, or above it', async () => {
    const e = await open({ files: { 'pantry.bake': PANTRY } });
    await e.openText('friday.md', PAGE, 'markdown');
    const anchor = { kind: 'ready', epochMs: Date.UTC(2027, 2, 13, 9) };
    for (const line of [0, 13, 18]) {
      const answer = await e.request<{ title: string; line: number } | null>('proofsheet/preview', {
        uri: e.uri('friday.md'), position: { line, character: 0 }, zone: 'Europe/Lisbon', anchor,
      });
      expect(answer).toMatchObject({ title: 'Loaf', line: 9 });
    }
    await quit();
  });

  it('without a fence has nothing, and no findings are sent of it until it has one, nor after they are gone', async () => {
    const e = await open({ capabilities: PUSHED, files: { 'pantry.bake': PANTRY } });
    await e.openText('diary.md', '# Diary\n\ndough\n  2,5 g salt\n', 'markdown');
    expect(await e.ask('hover', 'diary.md', 'do┆ugh')).toBeNull();
    expect(await e.about('codeLens', 'diary.md')).toBeNull();
    expect(await e.about('formatting', 'diary.md', { options: { tabSize: 2, insertSpaces: true } })).toBeNull();
    await e.replace('diary.md', 'dough', '```bake\ndough');
    expect((await e.published('diary.md')).map(({ code }) => code)).toContain('comma-decimal');
    await e.replace('diary.md', '```bake\n', '');
    expect(await e.published('diary.md')).toEqual([]);
    await e.replace('diary.md', '# Diary', '# Diary of a baker');
    expect(await e.ask('hover', 'diary.md', 'do┆ugh')).toBeNull();
    await e.closeText('diary.md');
    expect(await e.published('diary.md')).toEqual([]);
    await quit();
  });

  it('is one by its language, whatever its name', async () => {
    const e = await open();
    await e.openText('untitled:Untitled-1', 'dough\n\n```bake\nlevain\n  60 g rye flour\n```\n', 'markdown');
    expect(await e.ask('hover', 'untitled:Untitled-1', 'do┆ugh')).toBeNull();
    expect(await e.ask('hover', 'untitled:Untitled-1', 'lev┆ain')).not.toBeNull();
    await quit();
  });
});
