/** What the editor asks for while a text is written, beside completion: colours, hints, the shape of a line, indents. Each is read when it is asked for first. */
import type { CancellationToken, ResponseError, TextDocumentIdentifier } from 'vscode-languageserver';
import type { ProjectFile } from '../project/file';
import type { Where } from './pages';
import type { Connection } from './wire/connection';

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
  connection.languages.semanticTokens.onRange(answer('colours', { data: [] }, async (file, { range }) => ({ data: (await import('../features/semantic-tokens')).semanticTokensOf(file, range) })));
  connection.languages.inlayHint.on(answer('hints', null, async (file, { range }) => (await import('../features/inlay-hints')).inlayHintsOf(file, range)));
  connection.languages.inlayHint.resolve((hint, token) => {
    const { uri } = (hint.data ?? {}) as { readonly uri?: unknown };
    return typeof uri === 'string' ? answer('hints', hint, async file => (await import('../features/inlay-hints')).resolvedHint(file, hint))({ textDocument: { uri } }, token) : hint;
  });
  connection.onSignatureHelp(answer('shape of a line', null, async (file, { position, context }) => (
    (await import('../features/signature-help')).signatureHelpAt(file, file.lineIndex.offsetAt(position), context) ?? null
  )));
  connection.onDocumentOnTypeFormatting(answer('indent', null, async (file, { position, options }) => (await import('../features/on-type')).indentOnNewLine(file, position, options)));
  return { closed: uri => tokens.forget(uri) };
}

/** What was sent of each file last, so that after an edit only what differs is. */
class TokensSent {
  readonly #sent = new Map<string, { readonly id: string; readonly data: readonly number[] }>();
  #count = 0;

  async full(file: ProjectFile) {
    const { semanticTokensOf } = await import('../features/semantic-tokens');
    const data = semanticTokensOf(file);
    return { resultId: this.#remember(file, data), data };
  }

  async since(file: ProjectFile, previousResultId: string) {
    const { semanticTokensOf, tokenEdits } = await import('../features/semantic-tokens');
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
