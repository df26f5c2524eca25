/**
 * HTML by template: `html` escapes every text put into it, so that nothing from a file can become markup. Only what is
 * itself made by `html` goes in as it is.
 */

/** Text that is safe as HTML: made by `html` or `joined`, by nothing else. */
export interface Markup {
  readonly markup: string;
}

type Piece = Markup | string | number | undefined | false | readonly Markup[];

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** Escapes text for use between tags and inside a quoted attribute. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (character) => ENTITIES[character] ?? character);
}

/** A template whose texts are escaped; `undefined` and `false` leave nothing. */
export function html(literals: TemplateStringsArray, ...pieces: readonly Piece[]): Markup {
  let markup = literals[0] ?? '';
  pieces.forEach((piece, index) => {
    markup += write(piece) + (literals[index + 1] ?? '');
  });
  return { markup };
}

function write(piece: Piece): string {
  if (piece === undefined || piece === false) return '';
  if (typeof piece === 'string' || typeof piece === 'number') return escapeHtml(String(piece));
  if ('markup' in piece) return piece.markup;
  return piece.map(({ markup }) => markup).join('');
}

/** ` data-line="12"` for something that stands for a line of the file (from 1): a click on it goes there. */
export function lineAttribute(line: number | undefined): Markup {
  return line === undefined ? { markup: '' } : html` data-line="${line}"`;
}

/** Words that lead to a line of the file: a button, so that they work by keyboard; plain words where there is no line. */
export function toLine(line: number | undefined, content: Markup | string): Markup {
  return line === undefined ? html`${content}` : html`<button type="button" class="to-line"${lineAttribute(line)}>${content}</button>`;
}

/** A sentence as a page sets it: words of the language, which stand between backticks, in a face of their own; quotes in pairs. */
export function said(sentence: string): Markup {
  return html`${sentence.split(/`([^`]*)`/).map((piece, at) => (at % 2 === 1 ? html`<code>${piece}</code>` : html`${piece.replace(/"([^"]*)"/g, '“$1”')}`))}`;
}
