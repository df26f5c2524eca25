import { describe, expect, it } from 'vitest';
import { insertionAt } from '../../client/convert-place';

const DRAFT = 'formula "New"\n\ndough\n  1 kg flour\n';

/** The text with the draft in it; `|` is the cursor. */
function pasted(source: string): { readonly text: string; readonly head: string | undefined } {
  const cursorLine = source.slice(0, source.indexOf('|')).split('\n').length - 1;
  const lines = source.replace('|', '').split('\n');
  const { line, character, text, headLine } = insertionAt(lines, cursorLine, DRAFT);
  const at = lines.slice(0, line).reduce((sum, each) => sum + each.length + 1, 0) + character;
  const whole = lines.join('\n');
  const after = whole.slice(0, at) + text + whole.slice(at);
  return { text: after, head: after.split('\n')[headLine] };
}

describe('a draft is put', () => {
  it.each([
    ['into an empty text', '|', DRAFT],
    ['into a text of blank lines', '\n|\n', `\n\n${DRAFT}`],
    ['behind the only formula, where the cursor is in it', 'formula "A"\n\ndough\n  5 g| salt\n', `formula "A"\n\ndough\n  5 g salt\n\n${DRAFT}`],
    ['behind it where its last line has no end', 'formula "A"\n  note x|', `formula "A"\n  note x\n\n${DRAFT}`],
    ['between two formulas, never into the first', 'formula "A"\n|\ndough\n  5 g salt\n\nformula "B"\n', `formula "A"\n\ndough\n  5 g salt\n\n${DRAFT}\nformula "B"\n`],
    ['in front of the comments of the next', 'formula "A"\n|\n\n# of B\nformula "B"\n', `formula "A"\n\n\n${DRAFT}\n# of B\nformula "B"\n`],
    ['in front of all, where the cursor is at the top', '|formula "A"\n', `${DRAFT}\nformula "A"\n`],
    ['at the end, where the cursor is on a blank line there', 'formula "A"\n\n|', `formula "A"\n\n${DRAFT}`],
  ])('%s', (_where, source, expected) => {
    const { text, head } = pasted(source);
    expect(text).toBe(expected);
    expect(head).toBe('formula "New"');
  });
});
