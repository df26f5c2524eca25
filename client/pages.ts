/** Which documents have formulas: `.bake` files, and Markdown pages with a ```bake fence. */
import * as vscode from 'vscode';

/** What the server is told of. Of a Markdown page it looks at the fences only. */
export const WITH_FORMULAS: { language: string }[] = [{ language: 'proofsheet' }, { language: 'markdown' }];

const FENCE = /(?:`{3}|~{3})[ \t]*bake/i;

export function hasFormulas(document: vscode.TextDocument): boolean {
  return document.languageId === 'proofsheet' || (document.languageId === 'markdown' && FENCE.test(document.getText()));
}

/**
 * Calls `begin` once, as soon as a document with formulas is open: at once if one is. Most Markdown has nothing to do with
 * bread, and whoever reads it shall not have a server started for it.
 */
export function whenFormulasOpen(begin: () => Promise<void>): { readonly begun: Promise<void>; readonly waiting: vscode.Disposable } {
  if (vscode.workspace.textDocuments.some(hasFormulas)) return { begun: begin(), waiting: { dispose: () => undefined } };
  const look = (document: vscode.TextDocument): void => {
    if (!hasFormulas(document)) return;
    waiting.dispose();
    void begin();
  };
  const waiting = vscode.Disposable.from(
    vscode.workspace.onDidOpenTextDocument(look),
    vscode.workspace.onDidChangeTextDocument(({ document }) => look(document)),
  );
  return { begun: Promise.resolve(), waiting };
}
