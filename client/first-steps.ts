/** Tells the walkthrough of what happens by itself: that a finding was seen. */
import * as vscode from 'vscode';

/** The context that a step of the walkthrough waits for. */
const FINDING_SEEN = 'proofsheet.findingSeen';

export function watchFirstSteps(): vscode.Disposable {
  const watching = vscode.languages.onDidChangeDiagnostics(({ uris }) => {
    if (!uris.some((uri) => isOnScreen(uri) && vscode.languages.getDiagnostics(uri).some(({ source }) => source === 'Proofsheet'))) return;
    watching.dispose();
    void vscode.commands.executeCommand('setContext', FINDING_SEEN, true);
  });
  return watching;
}

function isOnScreen(uri: vscode.Uri): boolean {
  return vscode.window.visibleTextEditors.some(({ document }) => document.uri.toString() === uri.toString());
}
