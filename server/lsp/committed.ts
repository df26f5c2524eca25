/** The committed versions of open files, as the editor has told them, and comparing with them. */
import type { CancellationToken } from 'vscode-languageserver';
import type { ProjectFile } from '../project/file';
import { canonicalUri } from '../project/uris';
import { COMMITTED_NOTIFICATION, COMPARE_REQUEST, type CommittedParams, type CompareAnswer, type CompareParams } from '../requests';
import type { Session } from './session';

export interface Committed {
  /** The committed version of a file, with what the file uses today; undefined where nobody has told it. */
  of(file: ProjectFile): ProjectFile | undefined;
}

interface Known {
  readonly text: string;
  readonly visible: ProjectFile['visible'];
  readonly settings: ProjectFile['settings'];
  readonly file: ProjectFile | undefined;
}

export function serveCommitted(session: Session): Committed {
  const { connection, project } = session;
  const texts = new Map<string, string>();
  /** Read once, and again only when the commit or something that it uses is another: not for each key that is typed. */
  const known = new Map<string, Known>();
  const asCommitted = (file: ProjectFile, text: string): ProjectFile | undefined => {
    const key = canonicalUri(file.uri);
    const last = known.get(key);
    const { visible, settings } = file;
    if (last?.text === text && last.settings === settings && last.visible.length === visible.length && last.visible.every((one, i) => one === visible[i])) return last.file;
    const fresh = project.supposing(new Map([[file.uri, text]])).get(file.uri);
    known.set(key, { text, visible, settings, file: fresh });
    return fresh;
  };
  connection.onNotification(COMMITTED_NOTIFICATION, ({ uri, text }: CommittedParams) => {
    const key = canonicalUri(uri);
    if ((texts.get(key) ?? null) === text) return;
    if (text === null) {
      texts.delete(key);
      known.delete(key);
    } else texts.set(key, text);
    session.lookAtLensesAgain();
  });
  connection.onRequest(COMPARE_REQUEST, ({ uri, committed }: CompareParams, token: CancellationToken) => (
    session.answer('comparison', null, async (file): Promise<CompareAnswer | null> => {
      const before = asCommitted(file, committed);
      return before === undefined ? null : (await import('../features/compare')).comparison(file, before);
    })({ textDocument: { uri } }, token)
  ));
  return {
    of(file) {
      const text = texts.get(canonicalUri(file.uri));
      return text === undefined ? undefined : asCommitted(file, text);
    },
  };
}
