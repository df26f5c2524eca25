/** Everything that answers an editor, put together for one connection. */
import { parse } from '../../grammar';
import { builtInCatalogue } from '../core/ingredients/catalogue';
import { turn } from '../project/turns';
import { serveActions } from './actions';
import { serveAround } from './around';
import type { Client } from './client';
import { serveCommitted } from './committed';
import { serveFindings } from './findings-asked';
import type { Host } from './host';
import { serveOutline } from './outline';
import { serveOwn } from './own-requests';
import { serveRename } from './rename';
import { Session } from './session';
import { serveTexts } from './texts';
import { serveTyping } from './while-typing';
import type { Answer } from './while-typing';
import type { Connection } from './wire/connection';

export function serveAll(connection: Connection, host: Host, client: Client, roots: readonly string[]): void {
  const session = new Session(connection, host, client, roots);
  const answer: Answer = (what, nothing, work) => session.answer(what, nothing, work);
  const typing = serveTyping({ connection, answer });
  serveTexts(session, uri => typing.closed(uri));
  serveAround(session);
  if (client.pullsDiagnostics) serveFindings(session);
  serveOutline(session, serveCommitted(session));
  serveActions(session);
  serveRename(session);
  serveOwn({ connection, answer, showsProgress: client.showsProgress, isCurrent: file => session.isCurrent(file) });
  void turn().then(warmUp);
}

/** Makes what the first file needs, while the editor is about to send it. */
function warmUp(): void {
  parse('dough\n  1 g water\n');
  builtInCatalogue.find('water');
}
