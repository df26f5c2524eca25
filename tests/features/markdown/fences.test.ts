/** Which lines of a Markdown page are formulas. */
import { describe, expect, it } from 'vitest';
import { markdownPageOf } from '../../../server/project/markdown';

const held = (source: string) => markdownPageOf(source).text;

describe('a fence', () => {
  it.each([
    ['of backticks', 'Text.\n```bake\ndough\n```\nText.\n'],
    ['of tildes', '~~~bake\ndough\n~~~\n'],
    ['of more marks, closed by as many or more', '````bake\ndough\n`````\n'],
    ['with a space in front of its name, and capitals', '``` Bake\ndough\n```\n'],
    ['with words after its name', '```bake for the stall, {1}\ndough\n```\n'],
    ['with attributes in braces', '```bake{.wide}\ndough\n```\n'],
    ['that closes with spaces behind', '```bake\ndough\n```  \t\n'],
    ['set in by up to three spaces', '   ```bake\n   dough\n   ```\n'],
    ['in a list', '- a\n\n  ```bake\n  dough\n  ```\n'],
    ['on the line of its list mark', '1.  ```bake\n    dough\n    ```\n'],
    ['in a list in a list', '- a\n  1) b\n\n     ```bake\n     dough\n     ```\n'],
    ['set in by a tab', '- a\n\n\t```bake\n\tdough\n\t```\n'],
    ['whose lines have less indent than it has', '  ```bake\n dough\n```\n'],
    ['behind a comment', '<!-- a -->\n```bake\ndough\n```\n'],
    ['behind one of another language', '```text\nlevain\n```\n```bake\ndough\n```\n'],
  ])('%s is read', (_name, source) => {
    expect(held(source)).toBe('dough\n\n');
  });

  it('that nobody closes runs to the end of the page, or of its list item', () => {
    expect(held('```bake\ndough\n\n  5 g salt')).toBe('dough\n\n  5 g salt');
    expect(held('- a\n\n  ```bake\n  dough\n\n# Next\n')).toBe('dough\n\n\n');
    // A line with the marks of another kind, or fewer, closes nothing.
    expect(held('````bake\ndough\n```\n~~~~\n````\n')).toBe('dough\n```\n~~~~\n\n');
  });

  it('keeps what stands deeper than it does, and its line ends', () => {
    expect(held('  ```bake\r\n  dough\r\n    5 g salt\r\n  ```\r\n')).toBe('dough\r\n  5 g salt\r\n\n');
    expect(held('```bake\rdough\r```\rText.\r')).toBe('dough\r\n');
  });

  it.each([
    ['of another language', '```baker\ndough\n```\n'],
    ['without a name', '```\ndough\n```\nbake\n'],
    ['inside a fence that shows it', '````markdown\n```bake\ndough\n```\n````\n'],
    ['inside a comment', '<!-- for later\n```bake\ndough\n```\n-->\n'],
    ['set in by four spaces, which is text as it stands', '    ```bake\n    dough\n    ```\n'],
    ['in a line of text', 'Write ```bake dough``` for it.\n'],
    ['with a backtick behind its name', '```bake `x`\ndough\n```\n'],
    ['in quoted lines', '> ```bake\n> dough\n> ```\n'],
  ])('%s is not', (_name, source) => {
    expect(held(source)).toBe('');
  });

  it('of many is one text with the others, an empty line between them', () => {
    expect(held('```bake\nformula "A"\n```\n\nProse.\n\n~~~bake\nsteps\n~~~\n')).toBe('formula "A"\n\nsteps\n\n');
  });
});

describe('a large page', () => {
  it('is read as any other, the last fence too', () => {
    const prose = 'A line of prose, as there are many.\n- and a list\n'.repeat(50_000);
    expect(held(prose)).toBe('');
    const page = markdownPageOf(`${prose}\`\`\`bake\ndough\n\`\`\`\n`);
    expect(page.text).toBe('dough\n\n');
    expect(page.lineIndex.positionAt(2)).toEqual({ line: 100_001, character: 2 });
  });
});
