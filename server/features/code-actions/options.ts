/** What an editor says when it asks for actions, and how their edits are given to it. */
import type { CodeAction, Diagnostic, SnippetTextEdit, TextDocumentEdit, TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import type { Finding, Fix } from '../../core/checks/check';
import { textEditIn } from '../../project/file';
import type { LoadedFile, ProjectFile, SectionInFile } from '../../project/file';

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
  /** The editor asks for the edit of an action once it is chosen: until then it is told only what it is called. */
  readonly resolves?: boolean;
  /** The file as it would be with another text (of the whole page, where it is a Markdown page). */
  readonly supposing?: (text: string) => ProjectFile | undefined;
}

/** Which action of which place of which text it is, for the editor to hand back. */
export interface ActionData {
  readonly uri: string;
  readonly version: number | null;
  readonly id: string;
  /** Offsets in the text. */
  readonly start: number;
  readonly end: number;
}

export function wants({ only }: CodeActionOptions, kind: string): boolean {
  return only === undefined || only.some(one => kind === one || kind.startsWith(`${one}.`));
}

/** The findings of the editor that a finding is shown as. */
export function shownAs({ diagnostics }: CodeActionOptions, { code, message }: Pick<Finding, 'code' | 'message'>): Diagnostic[] {
  return diagnostics.filter(shown => shown.code === code && shown.message === message);
}

export function textEdit(file: LoadedFile, section: SectionInFile, { place, newText }: Fix['edits'][number]): TextEdit {
  const { start, end } = section.offsetsOf(place);
  return textEditIn(file, start, end, newText);
}

export function workspaceEdit(file: LoadedFile, edits: readonly (TextEdit | SnippetTextEdit)[], { version, documentChanges }: Pick<CodeActionOptions, 'version' | 'documentChanges'>): WorkspaceEdit {
  if (documentChanges) {
    const change: TextDocumentEdit = { textDocument: { uri: file.uri, version }, edits: [...edits] };
    return { documentChanges: [change] };
  }
  return { changes: { [file.uri]: edits.filter((edit): edit is TextEdit => 'newText' in edit) } };
}

/** An action with its edit, or with what is needed to find it again. */
export function withEdit(
  action: CodeAction, file: ProjectFile, id: string, at: { readonly start: number; readonly end: number }, edits: () => readonly TextEdit[], options: CodeActionOptions,
): CodeAction {
  if (options.resolves !== true) return { ...action, edit: workspaceEdit(file, edits(), options) };
  const data: ActionData = { uri: file.uri, version: options.version, id, ...at };
  return { ...action, data };
}

export function actionDataOf(value: unknown): ActionData | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { uri, version, id, start, end } = value as Readonly<Record<string, unknown>>;
  if (typeof uri !== 'string' || typeof id !== 'string' || typeof start !== 'number' || typeof end !== 'number') return undefined;
  return typeof version === 'number' || version === null ? { uri, version, id, start, end } : undefined;
}
