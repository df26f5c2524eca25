/** HTML as text: the words of a page line by line, its JSON-LD, and strings that have marks or entities in them. */
import { Parser } from 'htmlparser2';
import { tidyLines } from './characters';

export interface Page {
  /** What stands in `<script type="application/ld+json">`, with the place in the page that it begins at, from 1. */
  readonly scripts: readonly { readonly text: string; readonly line: number; readonly column: number }[];
  /** The words of the page, a block of it on a line; headings begin with `#`. */
  readonly text: string;
  /** Of the first `<h1>`. */
  readonly title: string | undefined;
}

/** Nothing in these is read as words of the page. */
const SILENT = new Set(['script', 'style', 'template', 'noscript', 'svg', 'head', 'nav', 'footer', 'form', 'button', 'select', 'textarea', 'iframe']);
const BLOCKS = new Set(['p', 'div', 'li', 'ul', 'ol', 'br', 'tr', 'table', 'section', 'article', 'main', 'header', 'aside', 'h1', 'h2', 'h3', 'h4', 'h5', 'h6', 'dt', 'dd',
  'blockquote', 'pre', 'hr', 'figure', 'figcaption', 'label', 'body', 'html', 'address', 'details', 'summary']);

export function readPage(html: string): Page {
  const scripts: { text: string; line: number; column: number }[] = [];
  const pieces: string[] = [];
  let script: { pieces: string[]; at: number } | undefined;
  let silent = 0;
  let title: string[] | undefined;
  let isTitleOpen = false;
  const parser = new Parser({
    onopentag(name, attributes) {
      if (name === 'script' && /^application\/ld\+json/i.test((attributes.type ?? '').trim())) script = { pieces: [], at: parser.endIndex + 1 };
      if (SILENT.has(name)) silent += 1;
      if (silent > 0) return;
      if (BLOCKS.has(name)) pieces.push('\n');
      if (/^h[1-6]$/.test(name)) pieces.push(name === 'h1' ? '# ' : '## ');
      if (name === 'td' || name === 'th') pieces.push('\t');
      if (name === 'h1' && title === undefined) {
        title = [];
        isTitleOpen = true;
      }
    },
    ontext(text) {
      script?.pieces.push(text);
      if (silent > 0) return;
      pieces.push(text.replace(/[\r\n\t]/g, ' '));
      if (isTitleOpen) title?.push(text);
    },
    onclosetag(name) {
      if (name === 'script' && script !== undefined) {
        scripts.push({ text: withoutWrapping(script.pieces.join('')), ...placeAt(html, script.at) });
        script = undefined;
      }
      if (SILENT.has(name)) silent = Math.max(0, silent - 1);
      else if (silent === 0 && BLOCKS.has(name)) pieces.push('\n');
      if (name === 'h1') isTitleOpen = false;
    },
  });
  parser.end(html);
  const text = tidyLines(pieces.join('')).map((line) => line.replace(/^\t/, '')).filter((line) => line !== '' && line !== '#' && line !== '##').join('\n');
  return { scripts, text, title: title === undefined ? undefined : title.join('').replace(/\s+/g, ' ').trim() };
}

/** A string of JSON-LD without its marks and entities, a block of it on a line. */
export function plainLines(text: string): readonly string[] {
  const plain = /[<&]/.test(text) ? readPage(text).text.replaceAll('\n## ', '\n') : text;
  return tidyLines(plain).map((line) => line.replace(/^#{1,2} /, '')).filter((line) => line !== '');
}

/** Some pages wrap their data for browsers of long ago. */
function withoutWrapping(text: string): string {
  return text.trimEnd().replace(/^(\s{0,99})(?:\/\/ ?)?(?:<!--|<!\[CDATA\[)/, '$1').replace(/(?:\/\/ ?)?(?:-->|\]\]>)$/, '');
}

function placeAt(text: string, offset: number): { readonly line: number; readonly column: number } {
  let line = 1;
  let start = 0;
  for (let at = text.indexOf('\n'); at >= 0 && at < offset; at = text.indexOf('\n', at + 1)) {
    line += 1;
    start = at + 1;
  }
  return { line, column: offset - start + 1 };
}

/** Whether a text is a page rather than words. */
export function looksLikeHtml(text: string): boolean {
  return /^\s*</.test(text.slice(0, 200)) || /<(?:!doctype|html|head|body|script|div|ul|ol|li|p|br|table|h[1-6]|span|article)[\s/>]/i.test(text.slice(0, 20_000));
}
