/** Texts that the editor opens, edits and closes. */
import { changedText, indexedText } from '../project/lines';
import { isSettings } from '../project/settings';
import { canonicalUri } from '../project/uris';
import { isMarkdown } from './pages';
import type { OpenText, Session } from './session';

/** @param closed told of each text that is closed. */
export function serveTexts(session: Session, closed: (uri: string) => void): void {
  const { connection, client, project, findings, workspaceFindings, open, openAs } = session;

  const take = (uri: string, text: OpenText): void => {
    open.set(uri, text);
    openAs.set(canonicalUri(uri), uri);
    workspaceFindings.touch(uri);
    project.update(uri, text.text, isMarkdown(text.languageId) || undefined, text.lineIndex);
    if (isSettings(uri)) session.lookAgain(project.dependents(uri));
    else if (!client.pullsDiagnostics) session.sendFindings([uri, ...project.dependents(uri)]); // others ask for this file, and for those that use it
  };

  connection.onDidOpenTextDocument(({ textDocument: { uri, languageId, version, text } }) => take(uri, { version, languageId, ...indexedText(text) }));
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) => {
    const known = open.get(uri);
    if (known !== undefined) take(uri, { ...known, version, ...changedText(known, contentChanges) });
  });
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) => {
    const users = project.dependents(uri);
    const wasMarkdown = isMarkdown(open.get(uri)?.languageId ?? '');
    open.delete(uri);
    openAs.delete(canonicalUri(uri));
    project.close(uri);
    closed(uri);
    if (isSettings(uri)) session.readSettings(uri);
    else if (client.pullsDiagnostics || !findings.wants(uri)) workspaceFindings.touch(uri);
    else if (wasMarkdown) findings.clear(uri);
    else {
      // The findings on the screen are those of an unsaved text, perhaps. What counts is on disk.
      findings.giveUp(uri);
      workspaceFindings.close(uri);
    }
    session.lookAgain(users);
  });
}
