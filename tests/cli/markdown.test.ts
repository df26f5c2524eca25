/** Markdown pages on the command line: only what stands in their fences is read and written. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { proofsheet, workspace } from './program';

const PAGE = `# Friday

- The dough:

  \`\`\`bake
  formula "Loaf"
    makes     1 loaf of 860 g

  dough
    500 g bread flour
    350 g     water
    10 g      salt
  \`\`\`

dough
 2,5 g of prose
`;
const read = (...names: readonly string[]): string => readFileSync(path.join(...names), 'utf8');

describe('check', () => {
  test('lists what is found in the fences of a page, at its place on the page', async () => {
    const cwd = workspace({ 'friday.md': PAGE.replace('10 g      salt', '2,5 g     salt') });
    const { status, out } = await proofsheet(['check', 'friday.md'], { cwd });
    expect(out).toContain('friday.md:12:5: warning: Write 2.5 with a point');
    expect(out).toContain('  12 |     2,5 g     salt\n     |     ^^^\n');
    expect(status).toBe(0);
  });

  test('reads a page that is named; a folder is walked for .bake files', async () => {
    const cwd = workspace({ 'friday.md': PAGE.replace('10 g', 'ten'), 'a.bake': 'ingredient "x"\n  like      bread flour\n' });
    const { out, err } = await proofsheet(['check', '.'], { cwd });
    expect({ out, err }).toEqual({ out: 'no findings in 1 file\n', err: '' });
  });

  test('says that a page without a fence was not checked', async () => {
    const cwd = workspace({ 'diary.markdown': '# Diary\n\ndough\n' });
    const { status, err } = await proofsheet(['check', 'diary.markdown'], { cwd });
    expect({ status, err }).toEqual({ status: 0, err: 'diary.markdown has no ```bake fence, so nothing in it was checked.\n' });
  });
});

describe('format', () => {
  const tidy = PAGE.replace('500 g bread', '500 g     bread');

  test('lays out the fences of a page and leaves the rest, line ends and byte-order mark too', async () => {
    const crlf = (text: string): string => `\uFEFF${text.replaceAll('\n', '\r\n')}`;
    const cwd = workspace({ 'friday.md': PAGE, 'crlf.md': crlf(PAGE) });
    expect((await proofsheet(['format', 'friday.md'], { cwd })).out).toBe(tidy);
    expect((await proofsheet(['format', '--check', 'friday.md'], { cwd })).status).toBe(1);
    expect((await proofsheet(['format', '--write', 'friday.md', 'crlf.md'], { cwd })).err).toBe('2 rewritten, of 2 files.\n');
    expect(read(cwd, 'friday.md')).toBe(tidy);
    expect(read(cwd, 'crlf.md')).toBe(crlf(tidy));
    expect((await proofsheet(['format', '--check', 'friday.md', 'crlf.md'], { cwd })).status).toBe(0);
  });
});

describe('scale and sheet', () => {
  test('scale a formula of a page where it stands', async () => {
    const cwd = workspace({ 'friday.md': PAGE });
    const twice = PAGE.replace('1 loaf of', '2 loaves of').replace('500 g', '1000 g').replace('350 g ', '700 g ').replace('10 g ', '20 g ');
    expect((await proofsheet(['scale', 'friday.md', '--factor', '2', '--write'], { cwd })).status).toBe(0);
    expect(read(cwd, 'friday.md').replace(/ +/g, ' ')).toBe(twice.replace(/ +/g, ' '));
    expect((await proofsheet(['sheet', 'friday.md'], { cwd })).out).toContain('2 loaves of 860 g');
  });
});
