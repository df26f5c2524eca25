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

  test('a variant is a formula like any other, at another size too', async () => {
    const both = await proofsheet(['sheet', '-'], { input: `${BOOK}\n${VARIANT}` });
    expect(both).toMatchObject({ status: 0, err: '' });
    expect(both.out).toMatch(/^Seed rye\n2 loaves of 800 g\n/m);
    const [rye, seed] = await Promise.all(['Rye', 'Seed rye'].map((name) => forms(['--formula', name, '--pieces', '6'], `${BOOK}\n${VARIANT}`)));
    expect(seed![0]!.totals.dough_g).toBe(rye![0]!.totals.dough_g);
    expect(seed![0]!.totals.hydration_pct).toBe(rye![0]!.totals.hydration_pct);
  });

  test('files without a formula', async () => {
    const { status, out, err } = await proofsheet(['sheet', '-'], { input: 'ingredient "mill flour"\n  like bread flour\n' });
    expect({ status, out, err }).toEqual({ status: 2, out: '', err: 'There is no formula in these files.\n' });
  });
});

describe('sheet --family', () => {
  const FAMILY = `${BOOK}\n${VARIANT}\nformula "Salt rye"\n  based on  "Seed rye"\n  drop      salt\n`;

  test('puts a base and all that is based on it side by side, and marks what differs', async () => {
    const { status, out, err } = await proofsheet(['sheet', '-', '--family'], { input: FAMILY });
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(/^Rye and its 2 variants\n\n {2,}Rye +Seed rye +Salt rye\n/);
    expect(out).toMatch(/^ {2}bread flour +[\d.]+ % +none \* +none \*$/m);
    expect(out).toMatch(/^ {2}whole wheat flour +[\d.]+ % \* +[\d.]+ % \*$/m);
    expect(out).toMatch(/^ {2}salt +[\d.]+ % +[\d.]+ % +none \*$/m);
    expect(out).toMatch(/^ {2}hydration +([\d.]+) % +\1 % +\1 %$/m);
    expect(out).toContain('* not as in Rye.');
    expect(out).not.toContain('Plain loaf');
  });

  test('of one of them by its name, and in the stable form', async () => {
    const { out } = await proofsheet(['sheet', '-', '--family', '--formula', 'salt rye', '--json'], { input: FAMILY });
    const { families } = JSON.parse(out) as { readonly families: readonly { readonly base: string; readonly formulas: readonly { readonly name: string; readonly based_on: string | null }[]; readonly totals: readonly { readonly name: string; readonly values: readonly number[]; readonly differs: readonly boolean[] }[]; readonly rows: readonly { readonly name: string; readonly values: readonly unknown[]; readonly differs: readonly boolean[] }[] }[] };
    expect(families).toHaveLength(1);
    expect(families[0]!.formulas.map(({ name, based_on: base }) => [name, base])).toEqual([['Rye', null], ['Seed rye', 'Rye'], ['Salt rye', 'Seed rye']]);
    expect(families[0]!.totals.find(({ name }) => name === 'salt_pct')?.differs).toEqual([false, false, true]);
    expect(families[0]!.rows.find(({ name }) => name === 'salt')).toMatchObject({ values: [{}, {}, null], differs: [false, false, true] });
  });

  test('over the files of a folder, and with a base that is only used', async () => {
    const cwd = workspace({ 'proofsheet.json': '{}', 'rye.bake': BOOK, 'v/seed.bake': `use "../rye.bake"\n\n${VARIANT}` });
    const whole = await proofsheet(['sheet', '--family'], { cwd });
    const alone = await proofsheet(['sheet', '--family', 'v/seed.bake'], { cwd });
    expect(whole.out).toMatch(/^Rye and its variant\n/);
    expect(alone.out).toBe(whole.out);
  });

  test('says when there is no family', async () => {
    expect(await proofsheet(['sheet', '-', '--family'], { input: BOOK })).toMatchObject({ status: 2, err: 'No formula in these files is based on another. A formula with a "based on" line is a variant.\n' });
    expect(await proofsheet(['sheet', '-', '--family', '--formula', 'Plain loaf'], { input: FAMILY })).toMatchObject({ status: 2, err: '"Plain loaf" is based on no other formula, and none is based on it.\n' });
    expect(await proofsheet(['sheet', '-', '--family', '--formula', 'Plian loaf'], { input: FAMILY })).toMatchObject({ status: 2, err: 'There is no formula "Plian loaf" in these files. Did you mean "Plain loaf"?\n' });
    expect(await proofsheet(['sheet', '-', '--family', '--pieces', '4'], { input: FAMILY })).toMatchObject({ status: 2, err: '--family compares formulas as they are written: leave --pieces out.\n' });
  });
});
