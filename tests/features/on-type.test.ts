import { describe, expect, it } from 'vitest';
import { indentOnNewLine } from '../../server/features/on-type';
import { edited, marked } from './marked';

async function after(source: string, options = { insertSpaces: true, tabSize: 2 }): Promise<string> {
  const { file, offset } = await marked(source);
  return edited(file.text, indentOnNewLine(file, file.lineIndex.positionAt(offset), options));
}

describe('a new line', () => {
  it.each([
    ['dough at 25 C\n┆', 'dough at 25 C\n  '],
    ['formula "A"\r\n┆', 'formula "A"\r\n  '],
    ['total formula\n┆', 'total formula\n  '],
    ['old dough # x\n┆\n\nsteps', 'old dough # x\n  \n\nsteps'],
    ['part "crumble"\n┆', 'part "crumble"\n  '],
    ['dough\n  700 g flour\n┆', 'dough\n  700 g flour\n  '],
    ['steps\n  bulk 3 h\n    fold at 30 min\n┆', 'steps\n  bulk 3 h\n    fold at 30 min\n    '],
    ['dough\n\t700 g flour\n┆', 'dough\n\t700 g flour\n\t'],
  ])('%j is as deep as its line above, under a head one step deeper', async (source, expected) => expect(await after(source)).toBe(expected));

  it('takes the tab or the width of the editor under a head', async () => {
    expect(await after('dough\n┆', { insertSpaces: false, tabSize: 4 })).toBe('dough\n\t');
    expect(await after('dough\n┆', { insertSpaces: true, tabSize: 4 })).toBe('dough\n    ');
  });

  it.each([
    '┆', 'dough\n  ┆', 'dough\n  7 g x\n  ┆', 'dough\n  7 g x\n\n┆', 'dough\n  7 g x\n  \n┆', 'use "a.bake"\n┆', '# a comment\n┆', 'wibble\n┆', 'doughnut\n┆', 'dough\n┆700 g flour',
    'dough\n  2,5 g salt\n  ┆',
  ])('after %j nothing is touched', async source => expect(await after(source)).toBe(source.replace('┆', '')));
});
