/** What is around the texts: settings, folders, files on disk, and the times that the baker has chosen. */
import { SETTINGS_FILE } from '../core/settings/settings';
import { WatchKind } from '../features/shared/protocol';
import { isSettings } from '../project/settings';
import { canonicalUri } from '../project/uris';
import { CHOSEN_TIMES_NOTIFICATION } from '../requests';
import type { ChosenTimesParams } from '../requests';
import { askedFrom, configurationOf, sameConfiguration } from './configuration';
import type { Configuration } from './configuration';
import type { Session } from './session';

export function serveAround(session: Session): void {
  const { connection, client, project, workspaceFindings } = session;

  const adopt = (wanted: Configuration): void => {
    if (sameConfiguration(wanted, session.configuration)) return; // a mere word of a change
    session.configuration = wanted;
    project.adopt(wanted.editor, wanted.folders);
    workspaceFindings.reset(wanted.mostBackgroundFiles);
    session.lookAtAllAgain();
  };
  const ask = async (): Promise<void> => {
    if (client.configuration) adopt(await askedFrom(connection, project.roots));
  };

  connection.onInitialized(() => {
    session.settled = session.contained('settings', async () => {
      if (client.registersConfiguration) await connection.register('workspace/didChangeConfiguration', { section: 'proofsheet' });
      if (client.registersWatchers) {
        await connection.register('workspace/didChangeWatchedFiles', {
          // A folder that comes or goes is one event, and none for each file in it.
          watchers: [{ globPattern: '**/*.bake' }, { globPattern: '**/*.{md,markdown}' }, { globPattern: `**/${SETTINGS_FILE}` }, { globPattern: '**/*', kind: WatchKind.Create | WatchKind.Delete }],
        });
      }
      await ask();
    });
    workspaceFindings.touchAll();
  });
  if (client.workspaceFolders) {
    connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
      const gone = new Set(removed.map(folder => folder.uri));
      for (const uri of session.problems) if (removed.some(folder => uri.startsWith(`${canonicalUri(folder.uri)}/`))) session.sendProblems(uri, undefined);
      project.configure({ roots: [...project.roots.filter(root => !gone.has(root)), ...added.map(folder => folder.uri)] });
      session.settled = session.contained('settings', ask);
      workspaceFindings.reset(session.configuration.mostBackgroundFiles);
      session.lookAtAllAgain();
    });
  }
  connection.onDidChangeConfiguration(({ settings }: { readonly settings: unknown }) => {
    session.settled = session.contained('settings', async () => {
      if (client.configuration) await ask();
      else if (isRecord(settings)) adopt(configurationOf(settings['proofsheet']));
    });
  });
  connection.onDidChangeWatchedFiles(({ changes }) => {
    const touched = new Set<string>();
    const changed: string[] = [];
    for (const uri of workspaceFindings.changedOnDisk(changes)) {
      // What the editor holds counts, whatever it or another program saved.
      if (session.openAs.has(canonicalUri(uri))) continue;
      if (workspaceFindings.hasAnswered) touched.add(uri);
      if (!project.invalidate(uri)) continue;
      if (isSettings(uri)) session.readSettings(uri);
      changed.push(uri);
    }
    for (const user of project.dependents(...changed)) touched.add(user);
    session.lookAgain([...touched]);
  });
  connection.onNotification(CHOSEN_TIMES_NOTIFICATION, ({ times }: ChosenTimesParams) => {
    if (!project.chooseTimes(times)) return;
    workspaceFindings.touchAll();
    session.lookAtAllAgain();
  });
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}
