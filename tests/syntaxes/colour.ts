/** Colours a text as the editor does before any server runs. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import oniguruma from 'vscode-oniguruma';
import textmate from 'vscode-textmate';

const root = path.join(import.meta.dirname, '..', '..');
const FILES: Readonly<Record<string, string>> = {
  'source.proofsheet': path.join(root, 'syntaxes', 'proofsheet.tmLanguage.json'),
  'markdown.proofsheet.codeblock': path.join(root, 'syntaxes', 'markdown.tmLanguage.json'),
  'text.html.markdown': path.join(import.meta.dirname, 'texts', 'markdown-of-an-editor.tmLanguage.json'),
};
const wasm = createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm');

const registry = new textmate.Registry({
  onigLib: oniguruma.loadWASM(readFileSync(wasm)).then(() => ({
    createOnigScanner: (patterns: string[]) => new oniguruma.OnigScanner(patterns),
    createOnigString: (text: string) => new oniguruma.OnigString(text),
  })),
  loadGrammar: async (scope) => {
    const file = FILES[scope];
    return file === undefined ? null : textmate.parseRawGrammar(readFileSync(file, 'utf8'), file);
  },
  getInjections: (scope) => (scope === 'text.html.markdown' ? ['markdown.proofsheet.codeblock'] : undefined),
});

export interface Piece {
  readonly line: number;
  readonly text: string;
  /** Scopes without `source.` and `meta.` ones and without the language's name, outermost first. */
  readonly scopes: readonly string[];
}

/** The pieces of a text that are more than spaces, in order: of a formula, or of a Markdown page. */
export async function colour(text: string, scope: 'source.proofsheet' | 'text.html.markdown' = 'source.proofsheet'): Promise<readonly Piece[]> {
  const grammar = await registry.loadGrammar(scope);
  const pieces: Piece[] = [];
  let state = textmate.INITIAL;
  for (const [line, content] of text.split(/\r?\n/).entries()) {
    const result = grammar!.tokenizeLine(content, state);
    state = result.ruleStack;
    for (const { startIndex, endIndex, scopes } of result.tokens) {
      const piece = content.slice(startIndex, endIndex);
      const named = scopes.filter((scope) => !/^(source|meta)\./.test(scope)).map((scope) => scope.replace(/\.proofsheet$/, ''));
      if (piece.trim() !== '') pieces.push({ line, text: piece.trim(), scopes: named });
    }
  }
  return pieces;
}
