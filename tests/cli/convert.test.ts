import { existsSync, readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { proofsheet, workspace } from './program';

const CARD = `Stall loaf

500 g bread flour
350 g water
10 g salt
flour for dusting

Mix for 5 minutes. Sing to it.
Bake at 230 C for 40 minutes.
`;

const DRAFT = `formula "Stall loaf"

dough
  500 g     bread flour
  350 g     water
  10 g      salt
  # to decide: how much? flour for dusting

steps
  mix       5 min, "Mix for 5 minutes."
  note      "Sing to it."
  bake      40 min at 230 C, "Bake at 230 C for 40 minutes."
`;

const PAGE = `<html><script type="application/ld+json">{"@type":"Recipe","name":"Bun","recipeIngredient":["500 g bread flour"]}</script></html>`;

describe('proofsheet convert', () => {
  test('prints the draft, and says on standard error how much was understood and what to look at', async () => {
    const cwd = workspace({ 'card.txt': CARD });
    expect(await proofsheet(['convert', 'card.txt'], { cwd })).toEqual({
      status: 0, out: DRAFT,
      err: 'Drafted "Stall loaf" from 7 lines: 6 understood, 1 to decide or to look at, 0 kept as text.\nLine 6: "flour for dusting": how much?\n',
    });
  });

  test('reads standard input, under a name that is given', async () => {
    const { status, out } = await proofsheet(['convert', '-', '--name', 'Market "big" loaf'], { input: CARD });
    expect({ status, out }).toEqual({ status: 0, out: DRAFT.replace('formula "Stall loaf"', 'formula "Market \'big\' loaf"\n  # Stall loaf') });
  });

  test('check lists what is left to decide, and has no other fault to find that the converter made', async () => {
    const { out } = await proofsheet(['check', '-', '--json'], { input: DRAFT });
    const { files } = JSON.parse(out) as { files: readonly { findings: readonly { code: string; severity: string; line: number }[] }[] };
    const findings = files.flatMap((file) => file.findings);
    expect(findings.find(({ code }) => code === 'to-decide')).toMatchObject({ severity: 'warning', line: 7 });
    expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  test('writes a file, and never over another one unbidden', async () => {
    const cwd = workspace({ 'page.html': PAGE, 'there.bake': 'mine\n' });
    const fresh = await proofsheet(['convert', 'page.html', '--out', 'bun.bake'], { cwd });
    expect(fresh).toEqual({ status: 0, out: '', err: 'Drafted "Bun" from 2 lines: 2 understood, 0 to decide or to look at, 0 kept as text.\nWrote bun.bake.\n' });
    expect(readFileSync(path.join(cwd, 'bun.bake'), 'utf8')).toBe('formula "Bun"\n\ndough\n  500 g     bread flour\n');
    const refused = await proofsheet(['convert', 'page.html', '--out', 'there.bake'], { cwd });
    expect(refused.status).toBe(2);
    expect(refused.err).toMatch(/^there\.bake is there already, and is left as it is\./);
    expect(readFileSync(path.join(cwd, 'there.bake'), 'utf8')).toBe('mine\n');
    expect((await proofsheet(['convert', 'page.html', '--out', 'there.bake', '--force'], { cwd })).status).toBe(0);
    expect(readFileSync(path.join(cwd, 'there.bake'), 'utf8')).toContain('formula "Bun"');
    expect((await proofsheet(['convert', 'page.html', '--out', 'page.html', '--force'], { cwd })).status).toBe(2);
    expect(readFileSync(path.join(cwd, 'page.html'), 'utf8')).toBe(PAGE);
    expect(readdirSync(cwd).filter((name) => name.endsWith('.tmp'))).toEqual([]);
  });

  test('--json has the draft and what became of each line', async () => {
    const { status, out } = await proofsheet(['convert', '-', '--json'], { input: CARD });
    expect(status).toBe(0);
    const { draft, lines, formulas } = JSON.parse(out) as { draft: string; lines: unknown; formulas: readonly { name: string; lines: readonly unknown[] }[] };
    expect(draft).toBe(DRAFT);
    expect(lines).toEqual({ lines: 7, understood: 6, doubtful: 1, text: 0 });
    expect(formulas[0]?.lines[4]).toEqual({ line: 6, text: 'flour for dusting', reading: 'doubtful', why: ['how much?'] });
  });

  test.each([
    ['nothing named', ['convert'], {}, /^Name a file to convert, or "-" for standard input\.$/m],
    ['two files', ['convert', 'a', 'b'], {}, /^Convert takes one file at a time\.$/m],
    ['no such file', ['convert', 'none.txt'], {}, /^There is no file or folder none\.txt\.$/m],
    ['a folder', ['convert', '.'], {}, /^\. is a folder, and one file is asked for\./m],
    ['nothing in it', ['convert', '-'], { input: '' }, /^<stdin> cannot be converted\. There are no words in it/m],
    ['no text', ['convert', '-'], { input: new Uint8Array([0, 1, 2]) }, /^<stdin> is not a text file\.$/m],
    ['too much', ['convert', '-'], { input: 'a'.repeat(5_000_000) }, /^<stdin> is larger than 2 MB, which no recipe is\.$/m],
    ['100,000 lines', ['convert', '-'], { input: 'a\n'.repeat(100_000) }, /^<stdin> cannot be converted\. There are 100000 lines in it, and at most 2000/m],
    ['data that is broken', ['convert', '-'], { input: '<script type="application/ld+json">{</script>' }, /^<stdin> cannot be converted\. The recipe data is not valid JSON: close brace expected at line 1, column 37\./m],
    ['a folder that is not there', ['convert', '-', '--out', 'none/x.bake'], { input: CARD }, /^There is no folder none\.$/m],
  ] as const)('%s is said in a sentence, with exit status 2', async (_what, args, setting, sentence) => {
    const cwd = workspace({});
    const { status, out, err } = await proofsheet(args, { cwd, ...setting });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toMatch(sentence);
    expect(existsSync(path.join(cwd, 'none'))).toBe(false);
  });
});
