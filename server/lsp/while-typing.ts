/** What the editor asks for while a text is written, beside completion: colours, hints, the shape of a line, indents. */
import type { CancellationToken, Connection, ResponseError, TextDocumentIdentifier } from 'vscode-languageserver';
import { inlayHintsOf, resolvedHint } from '../features/inlay-hints';
import { indentOnNewLine } from '../features/on-type';
import { semanticTokensOf, tokenEdits } from '../features/semantic-tokens';
import { signatureHelpAt } from '../features/signature-help';
import type { ProjectFile } from '../project/file';
import type { Where } from './pages';

export type Asked = Where & { readonly textDocument: TextDocumentIdentifier };

/** As the server answers: with the file of a request loaded, and with `nothing` after a fault. */
export type Answer = <P extends Asked, R, N>(
  what: string, nothing: N, work: (file: ProjectFile, params: P) => R | Promise<R>,
) => (params: P, token: CancellationToken) => Promise<R | N | ResponseError<never>>;

export interface Typing {
  readonly connection: Connection;
  readonly answer: Answer;
}

/** The answer is told of a text that is closed. */
export function serveTyping({ connection, answer }: Typing): { readonly closed: (uri: string) => void } {
  const tokens = new TokensSent();
  connection.languages.semanticTokens.on(answer('colours', { data: [] }, file => tokens.full(file)));
  connection.languages.semanticTokens.onDelta(answer('colours', { data: [] }, (file, { previousResultId }) => tokens.since(file, previousResultId)));
  connection.languages.semanticTokens.onRange(answer('colours', { data: [] }, (file, { range }) => ({ data: semanticTokensOf(file, range) })));
  connection.languages.inlayHint.on(answer('hints', null, (file, { range }) => inlayHintsOf(file, range)));
  connection.languages.inlayHint.resolve((hint, token) => {
    const { uri } = (hint.data ?? {}) as { readonly uri?: unknown };
    return typeof uri === 'string' ? answer('hints', hint, file => resolvedHint(file, hint))({ textDocument: { uri } }, token) : hint;
  });
  connection.onSignatureHelp(answer('shape of a line', null, (file, { position, context }) => (
    signatureHelpAt(file, file.lineIndex.offsetAt(position), context) ?? null
  )));
  connection.onDocumentOnTypeFormatting(answer('indent', null, (file, { position, options }) => indentOnNewLine(file, position, options)));
  return { closed: uri => tokens.forget(uri) };
}

/** What was sent of each file last, so that after an edit only what differs is. */
class TokensSent {
  readonly #sent = new Map<string, { readonly id: string; readonly data: readonly number[] }>();
  #count = 0;

  full(file: ProjectFile) {
    const data = semanticTokensOf(file);
    return { resultId: this.#remember(file, data), data };
  }

  since(file: ProjectFile, previousResultId: string) {
    const before = this.#sent.get(file.uri);
    const data = semanticTokensOf(file);
    const resultId = this.#remember(file, data);
    return before?.id === previousResultId ? { resultId, edits: tokenEdits(before.data, data) } : { resultId, data };
  }

  forget(uri: string): void {
    this.#sent.delete(uri);
  }

  #remember({ uri }: ProjectFile, data: readonly number[]): string {
    const id = String(++this.#count);
    this.#sent.set(uri, { id, data });
    return id;
  }
}
