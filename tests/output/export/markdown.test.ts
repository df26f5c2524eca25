/** The card in Markdown, read back by markdown-it: what a file says comes out as text, whatever signs are in it. */
import fc from 'fast-check';
import MarkdownIt from 'markdown-it';
import { describe, expect, test } from 'vitest';
import { escapeMarkdown } from '../../../server/output/card/markdown';
import { exported } from '../../../server/output/export/forms';
import { printable } from '../../../server/output/width';
import { exportsOf, NASTY, sampleEntries } from './samples';

/** With everything that it can read: HTML, addresses as links, tables, struck-out text. */
const reader = new MarkdownIt({ html: true, linkify: true });
type Token = ReturnType<typeof reader.parse>[number];

/** The text that a reader sees, and every kind of token that it is made of. */
function seen(markdown: string): { readonly text: string; readonly kinds: ReadonlySet<string> } {
  const inline = reader.parse(markdown, {}).flatMap((token: Token) => token.children ?? []);
  const kinds = new Set([...reader.parse(markdown, {}), ...inline].map(({ type }) => type));
  return { text: inline.map(({ content }) => content).join(''), kinds };
}

const SIGNS = fc.array(fc.oneof(
  fc.constantFrom(...'\\`*_{}[]<>()#+-=.!|~&@:/\'"^$;,?%0123456789 \t'),
  fc.constantFrom('http://a.example', 'www.a.example', 'a@b.example', '&amp;', '<br>', '<!--', '-->', '```', '~~~', '---', '===', '1. ', '2) ', '![', '](', '**', 'pão', '漢字', '👩‍🍳'),
), { minLength: 1, maxLength: 12 }).map((parts) => printable(parts.join('')).trim()).filter((text) => text !== '');

describe('a text of any signs', () => {
  test('is read as that text in a paragraph', () => {
    fc.assert(fc.property(SIGNS, (text) => {
      const { text: read, kinds } = seen(escapeMarkdown(text));
      expect(read.replace(/\s+/g, ' ')).toBe(text.replace(/\s+/g, ' '));
      expect([...kinds].filter((kind) => !['paragraph_open', 'paragraph_close', 'inline', 'text', 'text_special'].includes(kind))).toEqual([]);
    }));
  });

  test('in an item of a list and in a cell of a table, too', () => {
    fc.assert(fc.property(SIGNS, (text) => {
      expect(seen(`1. ${escapeMarkdown(text)}`).text.replace(/\s+/g, ' ')).toBe(text.replace(/\s+/g, ' '));
      const table = seen(`| a | b |\n| --- | --- |\n| ${escapeMarkdown(text)} | 2 |`);
      expect(table.text.replace(/\s+/g, ' ')).toBe(`ab${text.replace(/\s+/g, ' ')}2`);
      expect(table.kinds).toContain('table_open');
    }));
  });
});

test('nothing of a file with every sign in it is markup', () => {
  const markdown = exported('markdown', exportsOf(NASTY), 0);
  const { text, kinds } = seen(markdown);
  for (const kind of ['html_block', 'html_inline', 'link_open', 'image', 'code_inline', 'code_block', 'fence', 's_open', 'blockquote_open']) expect(kinds).not.toContain(kind);
  expect(text).toContain('<script>alert(1)</script> & `Co` | *pão* ]]>');
  expect(text).toContain('https://example.org www.example.org');
  expect(text).toContain('# no heading, 1. no list, a@example.org');
});

test('headings, lists and tables are there, and as many cells in every row', async () => {
  const markdown = exported('markdown', await sampleEntries('country-loaf.bake'), 0);
  const tokens = reader.parse(markdown, {});
  const headings = tokens.flatMap((token: Token, at: number) => (token.type === 'heading_open' ? [`${token.tag} ${tokens[at + 1]!.content}`] : []));
  expect(headings).toEqual([
    'h1 Two-ferment country loaf', 'h2 What to weigh', 'h3 Poolish', 'h3 Levain', 'h3 Final dough at 24 °C (75 °F)', 'h3 Besides the dough',
    'h2 Method', 'h3 Poolish', 'h3 Levain', 'h3 Dough', 'h2 When', 'h2 Ingredients and allergens', 'h2 Take care', 'h2 Food facts',
  ]);
  const cells: number[] = [];
  for (const { type } of tokens) {
    if (type === 'tr_open') cells.push(0);
    if (type === 'td_open' || type === 'th_open') cells[cells.length - 1]! += 1;
  }
  expect(cells.length).toBeGreaterThan(20);
  expect(cells.every((count) => count === 4)).toBe(true);
  // A fold stands in the item of its bulk.
  expect(markdown).toContain('2. **Bulk** 2 h 30 min at 24 °C (75 °F), until it has grown by 60 %\n   - **Stretch and fold** every 40 min, 3 times\n3. ');
});

test('several cards have a line across the page between them', async () => {
  const tokens = reader.parse(exported('markdown', await sampleEntries('notebook.md'), 0), {});
  expect(tokens.filter(({ type }) => type === 'hr')).toHaveLength(1);
  expect(tokens.filter(({ type, tag }) => type === 'heading_open' && tag === 'h1')).toHaveLength(2);
});
