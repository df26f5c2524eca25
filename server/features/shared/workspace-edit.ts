/** Edits of several files as the editor takes them. */
import type { TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import type { ProjectFile } from '../../project/file';

/** What the editor holds of texts, and how it takes edits of them. */
export interface TextsOfEditor {
  /** The version of the text that the editor holds, so that an edit does not land in another; null for a file that is not open. */
  versionOf(uri: string): number | null;
  readonly documentChanges: boolean;
}

export function editOfWorkspace(
  files: readonly { readonly file: ProjectFile; readonly edits: readonly TextEdit[] }[], { versionOf, documentChanges }: TextsOfEditor,
): WorkspaceEdit {
  if (!documentChanges) return { changes: Object.fromEntries(files.map(({ file, edits }) => [file.uri, [...edits]])) };
  return { documentChanges: files.map(({ file, edits }) => ({ textDocument: { uri: file.uri, version: versionOf(file.uri) }, edits: [...edits] })) };
}
