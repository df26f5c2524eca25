import { describe, expect, test } from 'vitest';
import { proofsheet, workspace } from './program';

const BOOK = `formula "Rye"
  makes     2 loaves of 800 g

levain
  60 g      dark rye flour
  60 g      water
  12 g      starter

dough
  868 g     bread flour
  580 g     water
  all       levain
  20 g      salt

formula "Plain loaf"
  makes     1 loaf of 850 g

dough
  100 %     bread flour
  68 %      water
  2 %       salt
  0.6 %     instant yeast
`;

const VARIANT = 'formula "Seed rye"\n  based on  "Rye"\n  swap      bread flour for whole wheat flour\n';

interface Form { readonly name: string; readonly totals: Readonly<Record<string, number | null>>; readonly yield: Readonly<Record<string, unknown>> }

async function forms(args: readonly string[], text: string = BOOK): Promise<readonly Form[]> {
  const { out, status } = await proofsheet(['sheet', '-', '--json', ...args], { input: text });
  expect(status).toBe(0);
  return (JSON.parse(out) as { readonly formulas: readonly Form[] }).formulas;
}

describe('sheet', () => {
  test('prints every formula of the files', async () => {
    const { status, out, err } = await proofsheet(['sheet'], { cwd: workspace({ 'book.bake': BOOK }) });
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(/^Rye\n2 loaves of 800 g\n/);
    expect(out).toMatch(/\n\n\nPlain loaf\n1 loaf of 850 g\n/);
    expect(out).toMatch(/^bread flour +868 /m);
  });

  test('--formula takes one, whatever its case', async () => {
    expect((await forms(['--formula', 'plain  LOAF'])).map(({ name }) => name)).toEqual(['Plain loaf']);
    const { status, err } = await proofsheet(['sheet', '-', '--formula', 'Rey'], { input: BOOK });
    expect({ status, err }).toEqual({ status: 2, err: 'There is no formula "Rey" in these files. Did you mean "Rye"?\n' });
  });

  test.each<readonly [string, string, string, number]>([
    ['--pieces', '6', 'dough_g', 4800],
    ['--piece', '900', 'piece_g', 900],
    ['--dough', '5 kg', 'dough_g', 5000],
    ['--flour', '2kg', 'flour_g', 2000],
    ['--factor', '0.5', 'dough_g', 800],
    ['--have', '60 g starter', 'dough_g', 8000],
    ['--have', '264 g of levain', 'dough_g', 3200],
    ['--piece', '2 lb', 'piece_g', 907.18474],
  ])('%s %s is a view of another size', async (option, value, name, expected) => {
    const [form] = await forms(['--formula', 'Rye', option, value]);
    expect(form?.totals[name]).toBeCloseTo(expected, 3);
    expect(form?.totals.hydration_pct).toBeCloseTo((await forms(['--formula', 'Rye']))[0]!.totals.hydration_pct!, 5);
  });

  test('a size that a formula cannot be brought to', async () => {
    const { status, out, err } = await proofsheet(['sheet', '-', '--formula', 'Rye', '--have', '100 g saffron'], { input: BOOK });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toBe('"Rye" cannot be brought to that size. There is no "saffron" in this formula.\n');
  });

  test('a formula with errors is printed as far as it goes, and fails', async () => {
    const cwd = workspace({ 'a.bake': BOOK.replace('all       levain', 'all       levian') });
    const { status, out, err } = await proofsheet(['sheet', 'a.bake', '--formula', 'Rye'], { cwd });
    expect(status).toBe(1);
    expect(err).toMatch(/^a\.bake: \d+ errors? in "Rye", so what is printed may have gaps\. See: proofsheet check a\.bake$/m);
    expect(out).toMatch(/^Rye\n/);
  });

  test('a variant is said to be left out, never passed over', async () => {
    const sentence = '<stdin>: "Seed rye" is based on another formula, and such variants are not computed in this version yet.\n';
    const both = await proofsheet(['sheet', '-'], { input: `${BOOK}\n${VARIANT}` });
    expect(both).toMatchObject({ status: 0, err: sentence });
    expect(both.out).not.toContain('Seed rye');
    const alone = await proofsheet(['sheet', '-', '--formula', 'Seed rye'], { input: `${BOOK}\n${VARIANT}` });
    expect(alone).toEqual({ status: 2, out: '', err: sentence });
  });

  test('files without a formula', async () => {
    const { status, out, err } = await proofsheet(['sheet', '-'], { input: 'ingredient "mill flour"\n  like bread flour\n' });
    expect({ status, out, err }).toEqual({ status: 2, out: '', err: 'There is no formula in these files.\n' });
  });
});
