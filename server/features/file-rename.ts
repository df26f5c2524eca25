/** Files and folders that are about to move: the `use` lines that lead to them, and their own, follow. */
import type { FileRename, TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import { textEditIn } from '../project/file';
import type { ProjectFile, UseLink } from '../project/file';
import { canonicalUri, relativeUse, resolveUse } from '../project/uris';
import { withoutQuotes } from './shared/names';
import { editOfWorkspace } from './shared/workspace-edit';
import type { TextsOfEditor } from './shared/workspace-edit';

export interface FileRenameOptions extends TextsOfEditor {
  /** URIs of the workspace folders. */
  readonly roots: readonly string[];
}

/** Undefined when no line changes. A file that leaves the workspace cannot be named any more: lines that use it stay as they are. */
export function editsForMoved(files: readonly ProjectFile[], moves: readonly FileRename[], options: FileRenameOptions): WorkspaceEdit | undefined {
  const edits = files.flatMap(file => {
    const own = file.uses.flatMap(use => editOfUse(file, use, moves, options.roots) ?? []);
    return own.length === 0 ? [] : [{ file, edits: own }];
  });
  return edits.length === 0 ? undefined : editOfWorkspace(edits, options);
}

function editOfUse(file: ProjectFile, { block, path, uri }: UseLink, moves: readonly FileRename[], roots: readonly string[]): TextEdit | undefined {
  if (uri === undefined) return undefined;
  const from = movedTo(file.uri, moves);
  const to = movedTo(uri, moves);
  if (from === canonicalUri(file.uri) && to === canonicalUri(uri)) return undefined;
  const still = resolveUse(from, path.text, roots);
  if (still.kind === 'file' && still.uri === to) return undefined;
  const changed = relativeUse(from, to, roots);
  // A quotation mark would end the path before its end.
  if (changed === undefined || /["“”„‟«»]/.test(changed)) return undefined;
  const offset = file.tree.blocks[block]?.offset ?? 0;
  const dotted = /^\.[\\/](?!\.\.)/.test(path.text) && !changed.startsWith('../') ? `./${changed}` : changed;
  const { start, end } = withoutQuotes(file.text, { start: offset + path.start, end: offset + path.end, quoted: path.quoted });
  return textEditIn(file, start, end, path.quoted ? dotted : `"${dotted}"`);
}

/** Where a file will be, in canonical spelling; the same place when it does not move. */
function movedTo(uri: string, moves: readonly FileRename[]): string {
  const own = canonicalUri(uri);
  for (const { oldUri, newUri } of moves) {
    const old = canonicalUri(oldUri);
    if (own === old) return canonicalUri(newUri);
    if (own.startsWith(`${old}/`)) return canonicalUri(newUri) + own.slice(old.length);
  }
  return own;
}
