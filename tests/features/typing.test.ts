/** Every stage of typing: no feature may fail on a text that is not finished, wherever the cursor stands in it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { codeActionsOf } from '../../server/features/code-actions';
import { codeLensesOf } from '../../server/features/codelens';
import { completionsAt, resolvedCompletion } from '../../server/features/completion';
import { definitionAt } from '../../server/features/definition';
import { diagnosticsOf } from '../../server/features/diagnostics';
import { foldingRangesOf } from '../../server/features/folding';
import { formattingOf } from '../../server/features/formatting';
import { highlightsAt } from '../../server/features/highlights';
import { hoverAt } from '../../server/features/hover';
import { documentLinksOf } from '../../server/features/links';
import { inlayHintsOf, resolvedHint } from '../../server/features/inlay-hints';
import { indentOnNewLine } from '../../server/features/on-type';
import { previewAt } from '../../server/features/preview';
import { referencesAt } from '../../server/features/references';
import { prepareRenameAt } from '../../server/features/rename';
import { selectionRangesAt } from '../../server/features/selection';
import { semanticTokensOf } from '../../server/features/semantic-tokens';
import { signatureHelpAt } from '../../server/features/signature-help';
import { documentSymbolsOf } from '../../server/features/symbols';
import { workspaceSymbolsOf } from '../../server/features/workspace-symbols';
import type { ProjectFile } from '../../server/project/file';
import type { Project } from '../../server/project/project';
import { marked, RYE, uriOf } from './marked';

const REQUEST = { zone: 'Europe/Lisbon', anchor: { kind: 'start', epochMs: Date.UTC(2026, 2, 28, 20) } } as const;

/** Asks everything at an offset; every range that comes back must lie inside the text. */
function askEverything(file: ProjectFile, offset: number): void {
  const lines = file.text.split(/\r\n|\r|\n/);
  const inside = (value: unknown): void => {
    if (Array.isArray(value)) value.forEach(inside);
    else if (typeof value === 'object' && value !== null) {
      if ('line' in value && 'character' in value) {
        const { line, character } = value as { line: number; character: number };
        // Thousands of them: an assertion for each would be most of the work.
        if (line >= lines.length || character > lines[line]!.length) expect.fail(`${line}:${character} lies outside of the text`);
      } else Object.values(value).forEach(inside);
    }
  };
  const range = file.lineIndex.rangeOf(offset, offset);
  inside(diagnosticsOf(file, { relatedInformation: true, codeDescription: true }));
  inside(codeActionsOf(file, range, { diagnostics: [], version: null, documentChanges: false, snippets: false }));
  inside(codeLensesOf(file, { previewCommand: '' }));
  const items = completionsAt(file, offset, { snippets: true, paths: ['pantry.bake'] });
  inside(items);
  if (items[0] !== undefined) resolvedCompletion(file, items[0]);
  for (const link of definitionAt(file, offset)) inside([link.originSelectionRange]);
  inside(documentSymbolsOf(file));
  foldingRangesOf(file).forEach(fold => expect(fold.endLine).toBeLessThan(lines.length));
  inside(formattingOf(file));
  inside(hoverAt(file, offset));
  inside(documentLinksOf(file));
  inside(highlightsAt(file, offset));
  inside(referencesAt(file, offset, [file], true));
  inside(prepareRenameAt(file, offset));
  inside(selectionRangesAt(file, [range.start]));
  inside(workspaceSymbolsOf([file], ''));
  const hints = inlayHintsOf({ ...file, settings: { ...file.settings, hints: 'all' } }, file.lineIndex.rangeOf(0, file.text.length));
  inside(hints.map(({ position }) => position));
  if (hints[0] !== undefined) resolvedHint(file, hints[0]);
  signatureHelpAt(file, offset);
  inside(indentOnNewLine(file, range.start, { insertSpaces: true, tabSize: 2 }));
  let at = { line: 0, character: 0 };
  const tokens = semanticTokensOf(file);
  for (let i = 0; i < tokens.length; i += 5) {
    const [down = 0, along = 0, length = 0] = tokens.slice(i, i + 3);
    // None over another: the next one begins where the last ends at the earliest.
    if (i > 0 && down === 0 && along < (tokens[i - 3] ?? 0)) expect.fail(`tokens overlap in line ${at.line}`);
    at = { line: at.line + down, character: down === 0 ? at.character + along : along };
    inside([at, { line: at.line, character: at.character + length }]);
  }
  previewAt(file, offset, REQUEST);
}

function type(project: Project, text: string, offset = text.length): void {
  project.update(uriOf('main.bake'), text);
  askEverything(project.get(uriOf('main.bake'))!, offset);
}

const CONSTRUCTS = [
  'use "pantry.bake"\n', 'formula "Knots"\n  makes 24 knots of 90 g\n  style enriched, pan\n  loses 11 % in the oven\n',
  'levain\n  60 g rye flour\n  12 g starter at 60 % hydration\n  keep 40 g\n', 'dough at 25 C\n  1 1/2 tsp (4.5 g) vanilla extract, fine\n  all levain\n  20 g flour for dusting # x\n',
  'total formula\n  100 % bread flour\n  15 % of flour in levain\n', 'steps\n  bulk 3 h 30 min at 24 C\n    fold at 30 min, add half of walnuts\n  bake 18 to 22 min at 215 C, until core 97 C\n',
  'ingredient "mill rye"\n  like dark rye flour\n  density 0.53 g per ml\n  costs 2.40 EUR per kg\n  contains milk, nuts\n',
  'formula "V"\n  based on "Fig and walnut rye"\n  swap walnuts for pistachios\n  set water to 620 g\n  add 10 g orange zest\n  drop rice flour in dough\n',
  'dish "D"\n  serves 4\n  uses 8 slices of "Fig and walnut rye"\n', 'record 2026-03-14\n  bulk 4 h 10 min, volume 70 %\n  weighed 1512 g, 2 loaves, after 3 h\n  ph 4.1\n',
  'plan "S"\n  ready 2026-03-14 08:00 Europe/Lisbon\n  asleep 22:30 to 05:30\n  oven holds 4 loaves\n  bake 6 loaves of "V"\n', '# accept salt-high: the sea\nwibble é 漢 👩‍🍳\n  “x\n',
];

describe('every stage of typing', () => {
  it.each(CONSTRUCTS)('%j, alone, at the end and with text after it', async construct => {
    const { project } = await marked(RYE);
    for (let length = 0; length <= construct.length; length++) {
      const typed = construct.slice(0, length);
      type(project, typed);
      if (length % 2 === 0) type(project, `${RYE}\n${typed}`);
      if (length % 4 === 0) type(project, `${RYE}\n${typed}\n\n${RYE}`, RYE.length + 1 + length);
    }
  });

  it('of a file that is deleted from its end, letter by letter', async () => {
    const { project } = await marked(RYE);
    for (let length = RYE.length; length >= 0; length -= 3) type(project, RYE.slice(0, length));
  });

  it('of a garbled file, anywhere in it', async () => {
    const { project } = await marked(RYE);
    const source = CONSTRUCTS.join('\n') + RYE;
    const scrap = fc.constantFrom('', '"', '\n', '\r\n', '\t', '  ', '#', '%', ' to ', 'all ', '🍞', '\u0000', '1/0', ',', 'in ', '“', '漢', 'at ');
    const cut = fc.record({ at: fc.nat(source.length), drop: fc.nat(40), scrap });
    fc.assert(fc.property(fc.array(cut, { minLength: 1, maxLength: 8 }), fc.nat(source.length), (cuts, offset) => {
      let text = source;
      for (const { at, drop, scrap: inserted } of cuts) text = text.slice(0, at) + inserted + text.slice(at + drop);
      type(project, text, Math.min(offset, text.length));
    }), { numRuns: 80 });
  });
});
