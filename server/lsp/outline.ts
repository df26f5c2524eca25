/** What the editor shows of a text and finds in it: hovers, places of a name, the outline, folds, links, totals above formulas. Each is read when it is asked for first. */
import type { Committed } from './committed';
import { offsetIn } from './session';
import type { Session } from './session';

export function serveOutline(session: Session, committed: Committed): void {
  const { connection, client } = session;
  connection.onHover(session.answer('hover', null, async (file, { position }) => (await import('../features/hover')).hoverAt(file, offsetIn(file, position))));
  connection.onDefinition(session.answer('definition', null, async (file, { position }) => {
    const links = (await import('../features/definition')).definitionAt(file, offsetIn(file, position));
    return client.definitionLinks ? links : links.map(link => ({ uri: link.targetUri, range: link.targetSelectionRange }));
  }));
  connection.onReferences(session.answer('references', null, async (file, { position, context }) => (
    (await import('../features/references')).referencesAt(file, offsetIn(file, position), await session.everyFile(), context.includeDeclaration)
  )));
  connection.onDocumentHighlight(session.answer('highlights', null, async (file, { position }) => (await import('../features/highlights')).highlightsAt(file, offsetIn(file, position))));
  connection.onSelectionRanges(session.answer('selection', null, async (file, { positions }) => (await import('../features/selection')).selectionRangesAt(file, positions)));
  connection.onWorkspaceSymbol(session.answerOfAll('symbols', null, async (files, { query }) => (await import('../features/workspace-symbols')).workspaceSymbolsOf(files, query)));
  connection.onDocumentSymbol(session.answer('outline', null, async file => (await import('../features/symbols')).documentSymbolsOf(file)));
  connection.onFoldingRanges(session.answer('folding', null, async file => (await import('../features/folding')).foldingRangesOf(file, client.mostFolds)));
  connection.onDocumentLinks(session.answer('links', null, async file => (await import('../features/links')).documentLinksOf(file)));
  connection.onCodeLens(session.answer('totals', null, async file => {
    const before = client.compareCommand === '' ? undefined : committed.of(file);
    const differences = before === undefined ? undefined : (await import('../features/compare')).differences(file, before);
    return (await import('../features/codelens')).codeLensesOf(file, { ...client, ...(differences && { differences }) });
  }));
}
