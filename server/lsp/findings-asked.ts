/** Findings for an editor that asks for them, of one file and of all. */
import type { Session } from './session';

export function serveFindings(session: Session): void {
  const { connection, host, findings, workspaceFindings } = session;
  connection.languages.diagnostics.on(async ({ textDocument: { uri }, previousResultId }, token) => {
    await session.settled;
    try {
      return await findings.report(uri, previousResultId, token);
    } catch (fault) {
      host.onFault('findings', fault);
      return { kind: 'full', items: [] };
    }
  });
  connection.languages.diagnostics.onWorkspace(async (params, token, progress, parts) => {
    try {
      return await workspaceFindings.report(params, token, progress, parts);
    } catch (fault) {
      host.onFault('findings of the workspace', fault);
      return { items: [] };
    }
  });
}
