/** Another name for something in a text, and `use` lines that follow a file which moves. Each is read when it is asked for first. */
import { ResponseError } from 'vscode-jsonrpc';
import type { Position } from 'vscode-languageserver';
import { LSPErrorCodes } from '../features/shared/protocol';
import type { ProjectFile } from '../project/file';
import { changed, offsetIn } from './session';
import type { Session } from './session';

export function serveRename(session: Session): void {
  const { connection } = session;
  connection.onPrepareRename(session.answer('rename', null, async (file, { position }) => {
    const found = (await import('../features/rename')).prepareRenameAt(file, offsetIn(file, position));
    return 'refused' in found ? refusal(found.refused) : found;
  }));
  connection.onRenameRequest(session.answer('rename', null, (file, { position, newName }) => renamed(session, file, position, newName)));
  connection.workspace.onWillRenameFiles(session.answerOfAll('use lines', null, async (files, { files: moves }) => (
    (await import('../features/file-rename')).editsForMoved(files, moves, { roots: session.project.roots, ...session.textsOfEditor }) ?? null
  )));
}

async function renamed(session: Session, file: ProjectFile, position: Position, newName: string) {
  const { renameAt } = await import('../features/rename');
  const others = await session.everyFile();
  if (!session.isCurrent(file)) return changed();
  const found = renameAt(file, offsetIn(file, position), newName, {
    others, ...session.textsOfEditor,
    suppose: texts => {
      const supposed = session.project.supposing(texts);
      return uri => supposed.get(uri);
    },
  });
  return 'refused' in found ? refusal(found.refused) : found;
}

/** A request that is answered with a reason why not, which the editor shows. */
function refusal(reason: string): ResponseError<never> {
  return new ResponseError(LSPErrorCodes.RequestFailed, reason);
}
