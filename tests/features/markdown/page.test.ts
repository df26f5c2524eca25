/** Everything that an editor asks of a formula, asked of one in a Markdown page. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Range, TextDocumentEdit, TextEdit } from 'vscode-languageserver';
import { format } from '../../../grammar';
import { codeActionsOf } from '../../../server/features/code-actions';
import { codeLensesOf } from '../../../server/features/codelens';
import { completionsAt } from '../../../server/features/completion';
import { definitionAt } from '../../../server/features/definition';
import { diagnosticsOf } from '../../../server/features/diagnostics';
import { foldingRangesOf } from '../../../server/features/folding';
import { formattingOf } from '../../../server/features/formatting';
import { hoverAt } from '../../../server/features/hover';
import { selectionRangesAt } from '../../../server/features/selection';
import { documentSymbolsOf } from '../../../server/features/symbols';
import { lineIndexOf } from '../../../server/project/lines';
import { markdownPageOf } from '../../../server/project/markdown';
import { bakeText } from '../../grammar/arbitrary';
import { edited, textIn } from '../marked';
import { markedPage } from './page';

const NOTES = `# Oat loaf

Inês bakes it on Fridays.

\`\`\`bake
use "pantry.bake"

formula "Oat loaf"
  makes     2 loaves of 865 g

dough
  1000 g    mill flour
  700 g     water
  20 g      salt
  10 g      instant yeast
\`\`\`

1. Then, at the stall:

   ~~~bake the method
   steps
     mix       6 min, by hand
     bulk      2 h at 24 C
     preheat   45 min at 220 C
     bake      40 min at 220 C
   ~~~

Nothing else.
`;
const PANTRY = { 'pantry.bake': 'ingredient "mill flour"\n  like      bread flour\n' };
const options = { relatedInformation: true, codeDescription: false };
const actions = { diagnostics: [], version: 1, documentChanges: true, snippets: false };

const findings = async (source: string) => {
  const { file } = await markedPage(source, PANTRY);
  return diagnosticsOf(file, options).map(({ code, range }) => `${String(code)} ${textIn(source, range)}`);
};

/** The page after the only fix, or the one of that title. */
async function fixed(source: string, title?: string): Promise<string> {
  const { file } = await markedPage(source, PANTRY);
  const all: Range = { start: { line: 0, character: 0 }, end: lineIndexOf(source).positionAt(source.length) };
  const action = codeActionsOf(file, all, actions).find((one) => title === undefined || one.title === title);
  const [change] = action?.edit?.documentChanges as TextDocumentEdit[];
  return edited(source, change!.edits as TextEdit[]);
}

describe('the fences of a page', () => {
  it('are one file: the steps of the second belong to the formula in the first, and `use` goes from where the page is', async () => {
    expect(await findings(NOTES)).toEqual([]);
    const { file } = await markedPage(NOTES, PANTRY);
    expect(file.sections.map(({ section }) => section.name)).toEqual(['', 'Oat loaf']);
    expect(file.sections[1]?.analysis.formula?.method).toHaveLength(4);
  });

  it('may go on in the middle of a block', async () => {
    const { file } = await markedPage('```bake\nformula "A"\n\ndough\n  500 g bread flour\n```\nThen\n```bake\n  350 g water\n```\n');
    expect(file.sections[0]?.analysis.totals?.hydration_pct).toBeCloseTo(70, 9);
  });

  it('have their findings where they stand, behind the indent of a list', async () => {
    expect(await findings(NOTES.replace('20 g  ', '2,5 g ').replace('2 h at', '2,5 h at'))).toEqual(expect.arrayContaining(['comma-decimal 2,5', 'comma-decimal 2,5']));
    const { file } = await markedPage(NOTES.replace('2 h at', '2,5 h at'), PANTRY);
    expect(diagnosticsOf(file, options).find(({ code }) => code === 'comma-decimal')?.range).toEqual({
      start: { line: 22, character: 15 }, end: { line: 22, character: 18 },
    });
  });

  it('name the formulas of other fences, and what is said twice is found', async () => {
    const twice = '```bake\nformula "A"\n  makes 1 loaf\n```\n\n```bake\nformula "A"\n  makes 1 loaf\n```\n';
    expect((await findings(twice)).filter((found) => found.startsWith('formula-twice'))).toHaveLength(2);
  });

  it('have hovers, totals above their formulas, and ways to what they name', async () => {
    const { file, offset } = await markedPage(NOTES.replace('steps', 'st┆eps'), PANTRY);
    expect(hoverAt(file, offset)?.range).toEqual({ start: { line: 20, character: 3 }, end: { line: 20, character: 8 } });
    expect(codeLensesOf(file, { previewCommand: 'p', scheduleCommand: '' }).map(({ range }) => range.start.line)).toContain(7);
    const flour = await markedPage(NOTES.replace('mill flour', 'mill fl┆our'), PANTRY);
    expect(definitionAt(flour.file, flour.offset)[0]).toMatchObject({ targetUri: expect.stringContaining('pantry.bake'), originSelectionRange: { start: { line: 11, character: 12 } } });
  });

  it('are completed, behind their indent', async () => {
    const { file, offset, source } = await markedPage(NOTES.replace('     bulk  ', '     bu┆  '), PANTRY);
    const bulk = completionsAt(file, offset, { snippets: false, paths: [] }).find(({ label }) => label === 'bulk');
    expect(textIn(source, (bulk!.textEdit as TextEdit).range)).toBe('bu');
    const head = await markedPage(NOTES.replace('   steps', '   st┆'), PANTRY);
    expect(completionsAt(head.file, head.offset, { snippets: false, paths: [] }).map(({ label }) => label)).toContain('steps');
  });

  it('are selected step by step, and not beyond a fence', async () => {
    const { file, source, position } = await markedPage(NOTES.replace('700 g     water', '700 g     wat┆er'), PANTRY);
    const taken: string[] = [];
    for (let one = selectionRangesAt(file, [position])[0]; one !== undefined; one = one.parent) taken.push(textIn(source, one.range));
    expect(taken[0]).toBe('water');
    expect(taken.at(-1)).toBe(NOTES.slice(NOTES.indexOf('use "pantry'), NOTES.indexOf('\n```\n')));
    // Each holds the one before it, or the editor would refuse them all.
    taken.slice(1).forEach((wider, index) => expect(wider).toContain(taken[index]));
  });

  it('leave the outline and the folds of the page to its headings', async () => {
    const { file } = await markedPage(NOTES, PANTRY);
    expect([...foldingRangesOf(file), ...documentSymbolsOf(file)]).toEqual([]);
  });
});

describe('an edit', () => {
  it('of one line stays on it', async () => {
    expect(await fixed(NOTES.replace('2 h at', '2,5 h at'))).toBe(NOTES.replace('2 h at', '2.5 h at'));
  });

  it('that adds lines puts the indent of the fence in front of them, and stays above the line that closes it', async () => {
    const page = '- a\n\n  ```bake\n  formula "A"\n    makes 1 loaf\n\n  dough\n    500 g bread flour\n    30 g wibble\n  ```\n- b\n';
    expect(await fixed(page, 'Add a block for “wibble”?')).toBe(
      page.replace('wibble\n', 'wibble\n\n  ingredient "wibble"\n    role      other\n'),
    );
  });

  it('above a line leaves that line its indent', async () => {
    const page = '- a\n\n  ```bake\n  dough\n    500 g bread flour\n    30 g wibble  # a remark\n  ```\n';
    expect(await fixed(page, 'Accept unknown-ingredient here, with a reason')).toContain('\n    # accept unknown-ingredient: \n    30 g wibble  # a remark\n');
  });

  it('that takes whole lines away takes their indent too', () => {
    const page = markdownPageOf('- a\n\n  ```bake\n  dough\n    5 g salt\n  ```\n');
    expect(page.edit(6, 17, '')).toEqual({ range: { start: { line: 4, character: 0 }, end: { line: 5, character: 0 } }, newText: '' });
    expect(page.edit(0, 17, 'levain\n\n  5 g rye\n').newText).toBe('  levain\n\n    5 g rye\n');
  });
});

describe('layout', () => {
  const formatted = async (source: string, range?: Range) => edited(source, formattingOf((await markedPage(source)).file, range));

  it('lays out each fence by itself, and nothing around it', async () => {
    const untidy = '* a   \n\n   ```bake\n   dough\n     500 g   bread flour\n   levain\n   60 g rye\n   ```\n\n\n*  b\n\n```bake\n\n\nsteps\n mix 5 min\n\n```\n';
    expect(await formatted(untidy)).toBe(
      '* a   \n\n   ```bake\n   dough\n     500 g     bread flour\n\n   levain\n   60 g rye\n   ```\n\n\n*  b\n\n```bake\nsteps\n  mix       5 min\n```\n',
    );
  });

  it('leaves lines alone that go on with a block of the fence above', async () => {
    const page = '```bake\ndough\n  500 g     bread flour\n```\n\nThen\n\n```bake\n   350 g water\n```\n';
    expect(await formatted(page)).toBe(page);
  });

  it('of a fence with nothing in it but blank lines goes by that fence alone', async () => {
    const page = '```bake\n\n```\n```bake\n\uFEFFtotal formula\n\n```\n';
    expect(await formatted(page)).toBe('```bake\n```\n```bake\ntotal formula\n```\n');
  });

  it('of a range touches the blocks in it', async () => {
    const page = '```bake\ndough\n 500 g bread flour\n```\ntext\n```bake\nsteps\n mix 5 min\n```\n';
    const second: Range = { start: { line: 6, character: 0 }, end: { line: 7, character: 3 } };
    expect(await formatted(page, second)).toBe(page.replace(' mix 5', '  mix       5'));
  });

  it('leaves alone what is fine', async () => {
    expect(formattingOf((await markedPage(NOTES, PANTRY)).file)).toEqual([]);
  });
});

// --- any page ---------------------------------------------------------------------------------------------------------

const prose = fc.constantFrom('', 'Prose.', '# Heading', '* star', '1. one', '```text', '```', '<!-- note -->', '  deep', '> quoted');
const indent = fc.constantFrom('', '', '  ', '   ', '\t', '- ', '1. ');

/** A fence, with the lines that stand in it set in as it is. */
const fence = fc.record({ indent, mark: fc.constantFrom('```', '~~~~'), text: bakeText, closed: fc.boolean() }).map(({ indent: own, mark, text, closed }) => {
  const inner = own.replace(/\S/g, ' ');
  const rows = text.split(/\r\n|\n|\r/).map((row) => inner + row);
  return `${own}${mark}bake\n${rows.join('\n')}\n${closed ? `${inner}${mark}\n` : ''}`;
});
const anyPage = fc.tuple(fc.array(fc.oneof({ weight: 1, arbitrary: prose.map((line) => `${line}\n`) }, { weight: 2, arbitrary: fence }), { maxLength: 8 }), fc.constantFrom('\n', '\r\n'))
  .map(([parts, end]) => parts.join('').replaceAll('\n', end));

describe('any page', () => {
  it('has every character of its fences where the positions say, and back', () => {
    fc.assert(fc.property(anyPage, (source) => {
      const { text, lineIndex, fences } = markdownPageOf(source);
      const onPage = lineIndexOf(source);
      for (const { start, end } of fences) {
        for (let offset = start; offset < end; offset++) {
          const position = lineIndex.positionAt(offset);
          if (/[\r\n]/.test(text[offset]!)) continue;
          expect(source[onPage.offsetAt(position)]).toBe(text[offset]);
          expect(lineIndex.offsetAt(position)).toBe(offset);
        }
      }
    }));
  });

  it('has no finding outside its fences, and each in one', async () => {
    await fc.assert(fc.asyncProperty(anyPage, async (source) => {
      const { file, page } = await markedPage(source);
      for (const { range, code } of diagnosticsOf(file, options)) {
        expect(page.holds(range.start), String(code)).toBe(true);
        expect(page.holds(range.end), String(code)).toBe(true);
        expect(page.within(range), String(code)).toEqual(range);
      }
    }), { numRuns: 60 });
  });

  it('keeps all but its fences when they are laid out or mended, and those are fences still', async () => {
    const around = (source: string): readonly string[] => {
      const { holds } = markdownPageOf(source);
      return source.split(/\r\n|\n|\r/).filter((_line, line) => !holds({ line, character: 0 }));
    };
    await fc.assert(fc.asyncProperty(anyPage, async (source) => {
      const { file } = await markedPage(source);
      const all: Range = { start: { line: 0, character: 0 }, end: lineIndexOf(source).positionAt(source.length) };
      const edits = [formattingOf(file), ...codeActionsOf(file, all, actions).flatMap(({ edit }) => (
        (edit?.documentChanges ?? []).map((change) => (change as TextDocumentEdit).edits as TextEdit[])
      ))];
      for (const one of edits) expect(around(edited(source, one))).toEqual(around(source));
    }), { numRuns: 60 });
  });

  it('laid out twice is as laid out once', async () => {
    const laidOut = async (source: string): Promise<string> => edited(source, formattingOf((await markedPage(source)).file));
    // Lines left of their fence: what is indented there?
    const ragged = '   ```bake\n   \n  ```bake\n  \n  steps\n  # a note\n    mix\n';
    expect(await laidOut(ragged)).toBe(ragged);
    await fc.assert(fc.asyncProperty(anyPage, async (source) => {
      const once = await laidOut(source);
      expect(await laidOut(once)).toBe(once);
    }), { numRuns: 60 });
  });

  it('holds in a fence what the formatter makes of the formula', async () => {
    await fc.assert(fc.asyncProperty(bakeText, async (text) => {
      const canonical = format(text).replace(/\r\n/g, '\n');
      fc.pre(canonical.endsWith('\n') && format(canonical) === canonical && !/^\s*[`~]{3}|\r/m.test(canonical) && !canonical.includes('\uFEFF'));
      const source = `\`\`\`bake\n${canonical}\`\`\`\n`;
      expect(formattingOf((await markedPage(source)).file)).toEqual([]);
    }), { numRuns: 60 });
  });
});
