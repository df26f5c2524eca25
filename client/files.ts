/** Reads and finds files for a server that has no disk of its own. Inside the workspace folders only. */
import * as vscode from 'vscode';
import type { FindFilesAnswer, FindFilesParams, ReadFileAnswer, ReadFileParams } from '../server/requests';

/** Larger than any notebook of formulas; whatever is larger is not one. */
const MOST_BYTES = 4 * 1024 * 1024;

/** The text of a file, or null when it is not there, is too large, or lies outside the workspace. */
export async function readFile({ uri: text }: ReadFileParams): Promise<ReadFileAnswer> {
  try {
    const uri = vscode.Uri.parse(text, true);
    if (!vscode.workspace.getWorkspaceFolder(uri)) return null;
    const { size } = await vscode.workspace.fs.stat(uri);
    if (size > MOST_BYTES) return null;
    return new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
  } catch {
    return null; // not there, or not to be read: the same to the server, which says so at the line that names it
  }
}

/** The `.bake` files of the workspace, or its Markdown pages. Hidden folders and `node_modules` are left out, as they are by a server that has a disk. */
export async function findFiles({ most, pages = false }: FindFilesParams): Promise<FindFilesAnswer> {
  const found = await vscode.workspace.findFiles(pages ? '**/*.{md,markdown}' : '**/*.bake', '**/{node_modules,.*}/**', most);
  return found.map((uri) => uri.toString());
}
