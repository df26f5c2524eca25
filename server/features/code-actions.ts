/** Repairs of findings, one at a time or all that are certain at once; and silencing one, with a reason. */
import { CodeActionKind } from 'vscode-languageserver';
import type { CodeAction, Diagnostic, Range, SnippetTextEdit, TextDocumentEdit, TextEdit } from 'vscode-languageserver';
import type { Finding, Fix } from '../core/checks/check';
import { blockAt, everyLine, sectionAt, textEditIn } from '../project/file';
import type { LoadedFile, PlacedSection, ProjectFile, SectionInFile } from '../project/file';
import { findingsOf, SCHEDULE_CODE, type PlacedFinding } from './shared/schedule-findings';

export interface CodeActionOptions {
  /** Findings that the editor shows in the range: an action says which of them it answers. */
  readonly diagnostics: readonly Diagnostic[];
  /** Kinds that the editor asks for; all when undefined. */
  readonly only?: readonly string[];
  /** The version of the text in the editor, for an edit that must not land in another. */
  readonly version: number | null;
  readonly documentChanges: boolean;
  /** The editor can put the cursor where the reason goes. */
  readonly snippets: boolean;
  /** The editor's command that scales the formula at the cursor; '' when it has none. */
  readonly scaleCommand?: string;
  /** Somebody asked for actions; otherwise the editor only looks whether there are any. */
  readonly isAskedFor?: boolean;
}

export const FIX_ALL = `${CodeActionKind.SourceFixAll}.proofsheet`;

export function codeActionsOf(file: ProjectFile, range: Range, options: CodeActionOptions): CodeAction[] {
  const wants = (kind: string): boolean => options.only === undefined || options.only.some(only => kind === only || kind.startsWith(`${only}.`));
  const actions: CodeAction[] = [];
  if (wants(CodeActionKind.QuickFix)) {
    const start = file.lineIndex.offsetAt(range.start);
    const end = file.lineIndex.offsetAt(range.end);
    for (const { finding, fixIn } of findingsIn(file, start, end)) {
      const own = options.diagnostics.filter(d => d.code === finding.code && d.message === finding.message);
      finding.fixes.forEach((fix, index) => actions.push({
        title: fix.title,
        kind: CodeActionKind.QuickFix,
        diagnostics: own,
        ...(fix.certain && index === 0 && { isPreferred: true }),
        edit: workspaceEdit(fixIn.file, fix.edits.map(edit => textEdit(fixIn.file, fixIn.section, edit)), fixIn.file === file ? options : { ...options, version: null }),
      }));
    }
    for (const { section, finding } of findingsIn(file, start, end)) {
      const accept = acceptAction(file, section, finding, options);
      if (accept !== undefined && !actions.some(other => other.title === accept.title)) actions.push(accept);
    }
  }
  if (options.scaleCommand !== undefined && options.scaleCommand !== '' && wants(CodeActionKind.RefactorRewrite)) {
    if (canScaleAt(file, file.lineIndex.offsetAt(range.start), options)) {
      const title = 'Scale this formula…';
      actions.push({ title, kind: CodeActionKind.RefactorRewrite, command: { title, command: options.scaleCommand } });
    }
  }
  // Asked for by name only: an action on the whole file has no business in the light bulb of a line.
  if (options.only !== undefined && wants(FIX_ALL)) {
    const edits = certainEdits(file);
    if (edits.length > 0) {
      actions.push({ title: 'Fix everything that has one certain fix', kind: FIX_ALL, edit: workspaceEdit(file, edits, options) });
    }
  }
  return actions;
}

/** Anywhere in a formula when it is asked for; a light bulb shows it at the head and at `makes` only. */
function canScaleAt(file: ProjectFile, offset: number, { isAskedFor, only }: CodeActionOptions): boolean {
  const section = sectionAt(file, offset);
  if (section?.analysis.formula === undefined || section.analysis.formula.deltas.length > 0) return false;
  if (isAskedFor === true || only !== undefined) return true;
  const { namePlace, makes } = section.analysis.formula;
  const line = (at: number): number => file.lineIndex.positionAt(at).line;
  return [namePlace, ...(makes === undefined ? [] : [makes.place])].some(place => line(section.offsetsOf(place).start) === line(offset));
}

interface FindingInSection extends PlacedFinding {
  readonly section: PlacedSection;
}

function findingsIn(file: ProjectFile, start: number, end: number): readonly FindingInSection[] {
  return file.sections.flatMap(section => findingsOf(file, section).flatMap(found => {
    const place = section.offsetsOf(found.finding.place);
    return place.start <= end && place.end >= start ? [{ ...found, section }] : [];
  }));
}

function textEdit(file: LoadedFile, section: SectionInFile, { place, newText }: Fix['edits'][number]): TextEdit {
  const { start, end } = section.offsetsOf(place);
  return textEditIn(file, start, end, newText);
}

/** The edits of the first certain fix of every finding, those left out that would touch a line already being edited. */
function certainEdits(file: ProjectFile): readonly TextEdit[] {
  const taken: { readonly start: number; readonly end: number }[] = [];
  const edits: TextEdit[] = [];
  for (const section of file.sections) {
    for (const finding of section.analysis.findings) {
      const fix = finding.fixes.find(one => one.certain);
      if (fix === undefined) continue;
      const spans = fix.edits.map(({ place }) => section.offsetsOf(place));
      if (spans.some(span => taken.some(other => span.start <= other.end && other.start <= span.end))) continue;
      taken.push(...spans);
      edits.push(...fix.edits.map(edit => textEdit(file, section, edit)));
    }
  }
  return edits;
}

/**
 * `# accept CODE: ` at the end of the finding's line, or above it when the line has a comment of its own. The reason is for
 * the baker to write: until it is there, the comment silences nothing, and says so.
 */
function acceptAction(file: ProjectFile, section: PlacedSection, finding: Finding, options: CodeActionOptions): CodeAction | undefined {
  // What cannot be read cannot be silenced, and neither can a comment on silence.
  // A time that cannot be kept is not accepted either: it is no check of the text.
  if (finding.severity === 'error' || finding.code.startsWith('accept') || finding.code === SCHEDULE_CODE) return undefined;
  const { start } = section.offsetsOf(finding.place);
  const block = blockAt(file, start);
  if (block === undefined) return undefined;
  const at = start - block.offset;
  const line = [block.block.head, ...everyLine(block.block)].find(one => at >= one.start && at <= one.end);
  if (line === undefined) return undefined;
  const { text } = block.block;
  const lineEnd = file.text.includes('\r\n') ? '\r\n' : '\n';
  const indent = /[ \t]*$/.exec(text.slice(0, line.start))?.[0] ?? '';
  const above = line.comment !== undefined;
  const offset = block.offset + (above ? line.start : line.end);
  const before = above ? `# accept ${finding.code}: ` : `  # accept ${finding.code}: `;
  const after = above ? `${lineEnd}${indent}` : '';
  const { range, newText } = textEditIn(file, offset, offset, `${before}${after}`);
  const edit: TextEdit | SnippetTextEdit = options.snippets && options.documentChanges
    ? { range, snippet: { kind: 'snippet', value: newText.replace(before, () => `${before}$0`) } }
    : { range, newText };
  return {
    title: `Accept ${finding.code} here, with a reason`,
    kind: CodeActionKind.QuickFix,
    diagnostics: options.diagnostics.filter(d => d.code === finding.code && d.message === finding.message),
    edit: workspaceEdit(file, [edit], options),
  };
}

function workspaceEdit(file: LoadedFile, edits: readonly (TextEdit | SnippetTextEdit)[], { version, documentChanges }: CodeActionOptions) {
  if (documentChanges) {
    const change: TextDocumentEdit = { textDocument: { uri: file.uri, version }, edits: [...edits] };
    return { documentChanges: [change] };
  }
  return { changes: { [file.uri]: edits.filter((edit): edit is TextEdit => 'newText' in edit) } };
}
