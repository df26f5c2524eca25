/**
 * Asks the whole server about a text, as editors do, and looks at what must hold of any text whatever: nothing throws, every place lies in
 * the text, and what is said twice is the same. What does not hold is thrown.
 */
import type { WorkspaceEdit } from 'vscode-languageserver';
import { codeActionsOf } from '../../server/features/code-actions';
import { codeLensesOf } from '../../server/features/codelens';
import { completionsAt, resolvedCompletion } from '../../server/features/completion';
import { definitionAt } from '../../server/features/definition';
import { diagnosticsOf } from '../../server/features/diagnostics';
import { exportAt } from '../../server/features/export';
import { foldingRangesOf } from '../../server/features/folding';
import { formattingOf } from '../../server/features/formatting';
import { highlightsAt } from '../../server/features/highlights';
import { hoverAt } from '../../server/features/hover';
import { inlayHintsOf } from '../../server/features/inlay-hints';
import { documentLinksOf } from '../../server/features/links';
import { indentOnNewLine } from '../../server/features/on-type';
import { planDraft } from '../../server/features/plan-draft';
import { previewAt } from '../../server/features/preview';
import { referencesAt } from '../../server/features/references';
import { prepareRenameAt, renameAt } from '../../server/features/rename';
import { scaleAt } from '../../server/features/scale';
import { scheduleOfAsked } from '../../server/features/schedule';
import { selectionRangesAt } from '../../server/features/selection';
import { semanticTokensOf } from '../../server/features/semantic-tokens';
import { signatureHelpAt } from '../../server/features/signature-help';
import { documentSymbolsOf } from '../../server/features/symbols';
import { workspaceSymbolsOf } from '../../server/features/workspace-symbols';
import type { ProjectFile } from '../../server/project/file';
import { Project } from '../../server/project/project';
import { below, oneOf } from './garble';
import type { Random } from './garble';

const ROOT = 'file:///stall';
const MAIN = `${ROOT}/main.bake`;
const REQUEST = { zone: 'Europe/Lisbon', anchor: { kind: 'start', epochMs: Date.UTC(2026, 2, 28, 20) } } as const;
const SHOWS = { relatedInformation: true, codeDescription: true };

/** A project with these files, by name, beside the text that is asked about. A fault in it is thrown. */
export function projectOf(files: ReadonlyMap<string, string>): Project {
  return new Project({
    reader: { read: uri => Promise.resolve(files.get(uri.slice(ROOT.length + 1))) },
    roots: [ROOT],
    computerZone: 'Europe/Lisbon',
    hints: 'all',
    onFault: (code, fault) => {
      throw new Error(`fault in ${code}: ${fault instanceof Error ? fault.stack : String(fault)}`);
    },
  });
}

/**
 * Everything. Hovers at every place of the text, or at every so-many-th from one that is chosen by chance; what costs more at some places
 * that are chosen by chance.
 */
export async function askEverything(project: Project, text: string, random: Random, hoverEvery = 1): Promise<void> {
  const file = await opened(project, text);
  const places = placesIn(text);
  if (file.tree.blocks.map(({ block }) => block.text).join('') !== text) throw new Error('the blocks put together are not the text');

  aboutFile(file, places);
  for (let offset = below(random, hoverEvery); offset <= text.length; offset += hoverEvery) places.inside(hoverAt(file, offset), 'hover');
  for (let count = 0; count < 8; count++) aboutPlace(project, file, below(random, text.length + 1), places, random);

  for (const section of file.sections) {
    for (const { place } of section.analysis.findings) {
      const { start, end } = section.offsetsOf(place);
      if (start > end || end > text.length) throw new Error(`a finding stands at ${start} to ${end} of ${text.length}`);
      places.agree(start, file.lineIndex.positionAt(start));
      places.agree(end, file.lineIndex.positionAt(end));
    }
  }
  await fixes(project, file, random);
  await layout(project, text);
  await lineEnds(project, text);
}

async function opened(project: Project, text: string): Promise<ProjectFile> {
  project.update(MAIN, text);
  const file = await project.prepare(MAIN);
  if (file === undefined) throw new Error('the text is not there');
  return file;
}

function aboutFile(file: ProjectFile, { inside, lines }: Places): void {
  const whole = file.lineIndex.rangeOf(0, file.text.length);
  inside(diagnosticsOf(file, SHOWS).map(({ relatedInformation: _, ...own }) => own), 'findings');
  inside(codeLensesOf(file, { previewCommand: 'preview', scheduleCommand: 'schedule' }), 'lenses');
  inside(documentSymbolsOf(file), 'outline');
  inside(formattingOf(file), 'layout');
  inside(documentLinksOf(file), 'links');
  inside(inlayHintsOf(file, whole), 'hints');
  inside(workspaceSymbolsOf([file], ''), 'symbols');
  for (const { startLine, endLine } of foldingRangesOf(file)) if (startLine > endLine || endLine >= lines.length) throw new Error(`a fold from ${startLine} to ${endLine}`);
  colours(semanticTokensOf(file), lines);
}

/** Tokens lie in their lines, one after another. */
function colours(data: readonly number[], lines: readonly string[]): void {
  let line = 0;
  let character = 0;
  let end = 0;
  for (let i = 0; i < data.length; i += 5) {
    const [down = 0, right = 0, length = 0] = data.slice(i, i + 3);
    if (down > 0) end = 0;
    character = down > 0 ? right : character + right;
    line += down;
    if (character < end || length <= 0 || character + length > (lines[line]?.length ?? -1)) throw new Error(`a colour at ${line}:${character}, ${length} long`);
    end = character + length;
  }
}

function aboutPlace(project: Project, file: ProjectFile, offset: number, { inside }: Places, random: Random): void {
  const position = file.lineIndex.positionAt(offset);
  const range = file.lineIndex.rangeOf(offset, Math.min(file.text.length, offset + below(random, 40)));
  const items = completionsAt(file, offset, { snippets: true, paths: ['pantry.bake'] });
  inside(items.slice(0, 40), 'completion');
  if (items.length > 0) resolvedCompletion(file, oneOf(random, items));
  inside(definitionAt(file, offset).map(({ originSelectionRange }) => originSelectionRange), 'definition');
  inside(highlightsAt(file, offset), 'highlights');
  inside(referencesAt(file, offset, [file], true).filter(({ uri }) => uri === file.uri), 'references');
  inside(selectionRangesAt(file, [position]), 'selection');
  inside(indentOnNewLine(file, position, { insertSpaces: true, tabSize: 2 }), 'indent');
  inside(formattingOf(file, range), 'layout of a range');
  signatureHelpAt(file, offset);
  inside(codeActionsOf(file, range, {
    diagnostics: diagnosticsOf(file, SHOWS), version: 1, documentChanges: false, snippets: false, isAskedFor: true, scaleCommand: 'scale',
    supposing: text => project.supposing(new Map([[MAIN, text]])).get(MAIN),
  }), 'actions');
  const size = { by: 'factor', value: '1.5', step: '1 g' };
  previewAt(file, offset, REQUEST, undefined, oneOf(random, [{}, { sizes: file.sections.map(({ section }) => ({ formula: section.name, size })) }]));
  for (const { section } of file.sections.slice(0, 3)) {
    inside((planDraft(file, { uri: file.uri, formula: section.name, size, ...REQUEST })?.edits ?? []).map(({ range: place }) => place), 'a plan');
  }
  scaleAt(file, offset, { request: { by: 'factor', value: '1.5' }, step: '1 g' });
  exportAt(file, offset, { form: oneOf(random, ['html', 'markdown', 'csv', 'jsonld', 'json']) }, 0);
  scheduleOfAsked(file, { position, zone: REQUEST.zone, wanted: { kind: 'ready', text: '2026-03-29 01:30' } });
  const prepared = prepareRenameAt(file, offset);
  if (!('range' in prepared)) return;
  inside(prepared.range, 'name');
  const renamed = renameAt(file, offset, oneOf(random, ['brown rye', 'é漢 👩‍🍳', '12', 'all']), {
    others: [file], documentChanges: false, versionOf: () => 1,
    suppose: texts => {
      const supposed = project.supposing(texts);
      return uri => supposed.get(uri);
    },
  });
  if (!('refused' in renamed)) inside(renamed.changes?.[MAIN], 'rename');
}

/** A fix that is the one to take takes its finding away. */
async function fixes(project: Project, file: ProjectFile, random: Random): Promise<void> {
  const found = diagnosticsOf(file, SHOWS);
  if (found.length === 0) return;
  const one = oneOf(random, found);
  const actions = codeActionsOf(file, one.range, { diagnostics: [one], only: ['quickfix'], version: null, documentChanges: false, snippets: false });
  const fix = actions.find(({ isPreferred, diagnostics }) => isPreferred === true && diagnostics?.includes(one));
  const fixed = fix?.edit && appliedTo(file, fix.edit);
  if (fix === undefined || fixed === undefined) return;
  const count = (after: ProjectFile): number => diagnosticsOf(after, SHOWS).filter(({ code }) => code === one.code).length;
  const before = count(file);
  if (count(await opened(project, fixed)) >= before) throw new Error(`“${fix.title}” leaves as many of ${String(one.code)}: ${JSON.stringify(one.range)}`);
}

function appliedTo(file: ProjectFile, { changes }: WorkspaceEdit): string | undefined {
  const edits = changes?.[file.uri]?.map(({ range, newText }) => ({ start: file.lineIndex.offsetAt(range.start), end: file.lineIndex.offsetAt(range.end), newText }));
  if (edits === undefined) return undefined;
  let { text } = file;
  for (const { start, end, newText } of edits.reverse().sort((a, b) => b.start - a.start)) text = text.slice(0, start) + newText + text.slice(end);
  return text;
}

/** Laid out twice is laid out once. */
async function layout(project: Project, text: string): Promise<void> {
  const file = await opened(project, text);
  const once = appliedTo(file, { changes: { [file.uri]: formattingOf(file) } }) ?? text;
  const again = formattingOf(await opened(project, once));
  if (again.length > 0) throw new Error(`laid out once, ${JSON.stringify(once)} is laid out again: ${JSON.stringify(again)}`);
}

/** With LF and with CRLF the same is found at the same places. */
async function lineEnds(project: Project, text: string): Promise<void> {
  const lf = text.replace(/\r\n?/g, '\n');
  const [a, b] = [await foundIn(project, lf), await foundIn(project, lf.replaceAll('\n', '\r\n'))];
  if (a !== b) throw new Error(`with LF ${a}\nwith CRLF ${b}`);
}

async function foundIn(project: Project, text: string): Promise<string> {
  return JSON.stringify(diagnosticsOf(await opened(project, text), SHOWS).map(({ code, message, range }) => [code, message, range]));
}

interface Places {
  readonly lines: readonly string[];
  /** Throws when a place in what an editor is told is not in the text. */
  inside(value: unknown, what: string): void;
  /** Throws when a position is not that of an offset. */
  agree(offset: number, position: { readonly line: number; readonly character: number }): void;
}

/** Lines and UTF-16 columns, found out by other means than the server's. */
function placesIn(text: string): Places {
  const lines = text.split(/\r\n|\r|\n/);
  const inside = (value: unknown, what: string): void => {
    if (Array.isArray(value)) for (const one of value) inside(one, what);
    else if (typeof value === 'object' && value !== null) {
      if ('uri' in value && value.uri !== MAIN) return; // a place in another file
      if ('line' in value && 'character' in value) {
        const { line, character } = value as { line: number; character: number };
        if (!(line >= 0 && character >= 0 && character <= (lines[line]?.length ?? -1))) throw new Error(`${what} at ${line}:${character}, outside of the text`);
      } else for (const one of Object.values(value)) inside(one, what);
    }
  };
  return {
    lines, inside,
    agree(offset, { line, character }) {
      const before = text.slice(0, offset).split(/\r\n|\r|\n/);
      // Between CR and LF is the end of the line.
      const isBetween = text.charAt(offset - 1) === '\r' && text.charAt(offset) === '\n';
      const own = isBetween ? { line: before.length - 2, character: before.at(-2)?.length } : { line: before.length - 1, character: before.at(-1)?.length };
      if (own.line !== line || own.character !== character) throw new Error(`offset ${offset} is at ${own.line}:${own.character}, not at ${line}:${character}`);
    },
  };
}
