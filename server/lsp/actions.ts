/** What changes a text when the baker says so: completion, layout, repairs and other ways to write it. Each is read when it is asked for first. */
import type { CodeAction, ResponseError } from 'vscode-languageserver';
import type { CodeActionOptions } from '../features/code-actions';
import { CodeActionTriggerKind } from '../features/shared/protocol';
import type { ProjectFile } from '../project/file';
import { relativeUse } from '../project/uris';
import { changed, offsetIn, uriIn } from './session';
import type { Session } from './session';

export function serveActions(session: Session): void {
  const { connection, client } = session;
  connection.onCompletion(session.answer('completion', null, async (file, { position, context }) => {
    const { asksForPath, completionsAt } = await import('../features/completion');
    const offset = offsetIn(file, position);
    return completionsAt(file, offset, {
      snippets: client.snippets,
      paths: asksForPath(file, offset) ? await pathsFrom(session, file) : [],
      ...(context?.triggerCharacter !== undefined && { trigger: context.triggerCharacter }),
    });
  }));
  connection.onCompletionResolve((item, token) => {
    const uri = uriIn(item.data);
    return uri === undefined ? item : session.answer('completion', item, async file => (await import('../features/completion')).resolvedCompletion(file, item))({ textDocument: { uri } }, token);
  });
  connection.onDocumentFormatting(session.answer('formatting', null, async file => (await import('../features/formatting')).formattingOf(file)));
  connection.onDocumentRangeFormatting(session.answer('formatting', null, async (file, { range }) => (await import('../features/formatting')).formattingOf(file, range)));
  connection.onCodeAction(session.answer('fixes', null, async (file, { range, context, textDocument: { uri } }) => (await import('../features/code-actions')).codeActionsOf(file, range, {
    ...optionsFor(session, uri),
    diagnostics: context.diagnostics,
    ...(context.only !== undefined && { only: context.only }),
    scaleCommand: client.scaleCommand,
    isAskedFor: context.triggerKind !== CodeActionTriggerKind.Automatic,
  })));
  connection.onCodeActionResolve((action, token) => {
    const uri = uriIn(action.data);
    return uri === undefined ? action : session.answer('edit', action, async (file): Promise<CodeAction | ResponseError<never>> => (
      (await import('../features/code-actions')).resolvedCodeAction(file, action, optionsFor(session, uri)) ?? changed()
    ))({ textDocument: { uri } }, token);
  });
}

function optionsFor({ client, open, project }: Session, uri: string): CodeActionOptions {
  return {
    diagnostics: [],
    version: open.get(uri)?.version ?? null,
    documentChanges: client.documentChanges,
    snippets: client.snippetEdits,
    resolves: client.resolvesActions,
    supposing: text => project.supposing(new Map([[uri, text]])).get(uri),
  };
}

/** Paths that a `use` line in the file could name. */
async function pathsFrom({ host, project }: Session, file: ProjectFile): Promise<readonly string[]> {
  const { roots } = project;
  const found = await host.find?.(roots) ?? [];
  const paths = [...found, ...project.loaded()].map(uri => relativeUse(file.uri, uri, roots));
  return [...new Set(paths.filter(path => path !== undefined))].sort();
}
