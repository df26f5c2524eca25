import { readFileSync, readdirSync, statSync, chmodSync } from 'node:fs';
import path from 'node:path';
import { Readable } from 'node:stream';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { run } from '../../server/cli/run';
import type { Terminal } from '../../server/cli/terminal';
import { plain } from '../../server/output/paint';
import { factor, formulaText } from '../core/scaling/arbitrary';
import { proofsheet, workspace } from './program';

const RYE = `# our rye
formula "Rye"
  makes     2 loaves of 800 g

levain
  60 g      dark rye flour
  60 g      water
  12 g      starter

dough
  868 g     bread flour   # from the mill
  580 g     water
  all       levain
  20 g      salt
`;
const PLAIN = 'formula "Plain loaf"\n  makes     1 loaf of 850 g\n\ndough\n  100 %     bread flour\n  68 %      water\n  2 %       salt\n';
const KNOTS = 'formula "Knots"\n  makes 10 knots of 80 g\ndough\n  500 g bread flour\n  190 g milk\n  2 eggs\n  10 g salt\n';
const read = (...names: readonly string[]): string => readFileSync(path.join(...names), 'utf8');

interface Ran {
  readonly status: number;
  readonly out: string;
  readonly err: string;
}

/** The program's own functions, without a process around them. */
async function inProcess(args: readonly string[], input: string): Promise<Ran> {
  let [out, err] = ['', ''];
  const terminal: Terminal = {
    out: (text) => (out += text), say: (sentence) => (err += `${sentence}\n`), progress: () => undefined, paint: plain, width: 100,
  };
  const status = await run(args, { terminal, stdin: Readable.from([Buffer.from(input)]), systemZone: 'Europe/Lisbon', nowMs: 0 }, true);
  return { status, out, err };
}

describe('scale', () => {
  test('prints the file at another size, and leaves it alone', async () => {
    const cwd = workspace({ 'rye.bake': RYE });
    const { status, out, err } = await proofsheet(['scale', 'rye.bake', '--pieces', '4'], { cwd });
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toBe(
      RYE.replace('2 loaves', '4 loaves').replace('60 g      dark', '120 g     dark').replace('60 g      water', '120 g     water').replace('12 g ', '24 g ')
        .replace('868 g     ', '1736 g    ').replace('580 g     ', '1160 g    ').replace('20 g      salt', '40 g      salt'),
    );
    expect(read(cwd, 'rye.bake')).toBe(RYE);
  });

  test('--write rewrites it, keeps its permissions, byte-order mark and line ends, and leaves nothing else behind', async () => {
    const crlf = `\uFEFF${RYE.replaceAll('\n', '\r\n')}`;
    const cwd = workspace({ 'rye.bake': crlf });
    chmodSync(path.join(cwd, 'rye.bake'), 0o640);
    const { status, out, err } = await proofsheet(['scale', 'rye.bake', '--factor', '2', '--write'], { cwd });
    expect({ status, out, err }).toEqual({ status: 0, out: '', err: '"Rye" in rye.bake is now 2 times the size it was.\n' });
    expect(read(cwd, 'rye.bake').startsWith('\uFEFF# our rye\r\nformula "Rye"\r\n  makes     4 loaves of 800 g\r\n')).toBe(true);
    expect(read(cwd, 'rye.bake').replaceAll('\r\n', '')).not.toContain('\n');
    expect(statSync(path.join(cwd, 'rye.bake')).mode & 0o777).toBe(0o640);
    expect(readdirSync(cwd)).toEqual(['rye.bake']);
    await proofsheet(['scale', 'rye.bake', '--factor', '0.5', '--write'], { cwd });
    expect(read(cwd, 'rye.bake')).toBe(crlf);
  });

  test.each<readonly [option: string, value: string, wanted: RegExp]>([
    ['--piece', '900 g', /makes {5}2 loaves of 900 g/],
    ['--dough', '3.2kg', /1736 g {4}bread flour/],
    ['--flour', '1868', /1736 g {4}bread flour/],
    ['--have', '24 g starter', /1736 g {4}bread flour/],
    ['--have', '264 g of levain', /1736 g {4}bread flour/],
    ['--tin', '2.24 l', /makes {5}2 loaves of 800 g/],
  ])('%s %s', async (option, value, wanted) => {
    const { status, out } = await inProcess(['scale', '-', option, value], RYE);
    expect(status).toBe(0);
    expect(out).toMatch(wanted);
  });

  test('what rounding and whole eggs did is told on standard error, with its line', async () => {
    const { status, out, err } = await inProcess(['scale', '-', '--factor', '0.75', '--step', '5g', '--small-step', '1g'], KNOTS);
    expect(status).toBe(0);
    expect(out).toBe('formula "Knots"\n  makes 7.5 knots of 80 g\ndough\n  375 g bread flour\n  120 g milk\n  2 eggs\n  8 g salt\n');
    expect(err.split('\n')).toEqual([
      '<stdin>:2: It makes 7.5 knots now: the last one is smaller.',
      '<stdin>:5: milk: 25 g less, for the eggs stay whole.',
      '<stdin>:5: milk: rounding to 5 g moves it by 2.1 %, from 38 to 38.8 baker\'s %.',
      '<stdin>:6: eggs: 1.5 is taken as 2.',
      '<stdin>:7: salt: rounding to 1 g moves it by 6.7 %, from 2 to 2.13 baker\'s %.',
      '',
    ]);
  });

  test('one formula of several, by its name; the others stay as they are', async () => {
    const { status, out } = await inProcess(['scale', '-', '--formula', 'plain  LOAF', '--pieces', '3'], `${RYE}\n${PLAIN}`);
    expect(status).toBe(0);
    expect(out).toBe(`${RYE}\n${PLAIN.replace('1 loaf of', '3 loaves of')}`);
  });

  test('a variant that sets amounts of its own is not forgotten', async () => {
    const variant = 'formula "Seed rye"\n  based on  "Rye"\n  set       water to 620 g\n';
    const { status, err } = await inProcess(['scale', '-', '--formula', 'Rye', '--factor', '2'], `${RYE}\n${variant}`);
    expect({ status, err }).toEqual({ status: 0, err: '<stdin>:18: "Seed rye" is based on it and sets an amount of its own, which stays as it is.\n' });
  });

  test('a variant of a formula in shares is scaled in its own lines, each amount once', async () => {
    const base = 'formula "Buns"\n  makes     12 buns of 80 g\n\nbiga\n  100 %     bread flour\n  60 %      water\n  0.5 %     instant yeast\n\n' +
      'dough\n  100 %     bread flour\n  60 %      water\n  20 %      sugar\n  2 %       salt\n  30 %      biga\n\n';
    // The line of the dough stands before that of the biga, which is made first.
    const variant = (pieces: number, zest: number, malt: number): string =>
      `formula "Orange buns"\n  based on  "Buns"\n  makes     ${String(pieces)} buns of 70 g\n  add       ${String(zest)} g orange zest as spice\n` +
      `  swap      sugar for honey\n  add       ${String(malt)} g malt syrup in biga\n`;
    const { status, out } = await inProcess(['scale', '-', '--formula', 'Orange buns', '--factor', '2'], base + variant(24, 15, 4));
    expect({ status, out }).toEqual({ status: 0, out: base + variant(48, 30, 8) });
  });

  test('a size that the base says is written behind its name, before what the variant changes', async () => {
    const base = PLAIN.replace('formula "Plain loaf"', 'formula "Base"');
    const { out } = await inProcess(['scale', '-', '--formula', 'V', '--factor', '3'], `${base}\nformula "V"\n  based on  "Base"\n  set       water to 70 %\n`);
    expect(out.slice(base.length)).toMatch(/^\nformula "V"\n  based on  "Base"\n  makes .*\n  set       water to 70 %\n$/);
  });

  test('a variant of a variant is told where its weights stand', async () => {
    const variants = 'formula "B"\n  based on "Rye"\n  drop salt\n\nformula "C"\n  based on "B"\n  set water to 620 g\n';
    const { status, err } = await inProcess(['scale', '-', '--factor', '2', '--formula', 'C'], `${RYE}\n${variants}`);
    expect(status).toBe(2);
    expect(err).toContain('Its weights stand in "Rye", which it is based on:');
  });

  test('the size that it has already', async () => {
    expect(await inProcess(['scale', '-', '--pieces', '2'], RYE)).toEqual({ status: 0, out: RYE, err: '"Rye" has that size already.\n' });
  });

  test('ingredients that another file brings in are known', async () => {
    const cwd = workspace({
      'pantry.bake': 'ingredient "stall yolk"\n  role egg\n  each 18 g\n',
      'a.bake': 'use "pantry.bake"\n\nformula "A"\ndough\n  500 g bread flour\n  300 g water\n  3 stall yolk\n',
    });
    const { out, err } = await proofsheet(['scale', 'a.bake', '--factor', '1.5'], { cwd });
    // 4.5 yolks are 5, half of one too much.
    expect(out).toContain('  441 g water\n  5 stall yolk\n');
    expect(err).toContain('a.bake:6: water: 9 g less, for the eggs stay whole.');
  });

  test.each<readonly [why: string, args: readonly string[], input: string, sentence: string]>([
    ['several formulas and no name', ['--factor', '2'], `${RYE}\n${PLAIN}`, 'Say which formula, with --formula NAME. There are "Rye", "Plain loaf".\n'],
    ['a name that is not there', ['--factor', '2', '--formula', 'Rey'], `${RYE}\n${PLAIN}`, 'There is no formula "Rey" in these files. Did you mean "Rye"?\n'],
    ['two of one name', ['--factor', '2', '--formula', 'Rye'], `${RYE}\n${RYE}`, '<stdin> has 2 formulas named "Rye": rename one of them first.\n'],
    ['no formula', ['--factor', '2'], 'ingredient "mill flour"\n  like bread flour\n', 'There is no formula in these files.\n'],
    ['an ingredient that is not in it', ['--have', '3 g saffron'], RYE, '"Rye" cannot be scaled. There is no "saffron" in this formula.\n'],
    ['no size', ['--factor', '2'], PLAIN.replace(' of 850 g', ''), '<stdin>:4: "Plain loaf" cannot be scaled. Nothing says how much of "dough" there is, so there is nothing to scale: give one weight, or write, for example, "makes 2 loaves of 900 g".\n'],
    ['a variant', ['--factor', '2', '--formula', 'B'], `${RYE}\nformula "B"\n  based on "Rye"\n  set water to 620 g\n`, '<stdin>:17: "B" cannot be scaled. Its weights stand in "Rye", which it is based on: scale that one and by hand what this one sets in grams, or write this one out in full first.\n'],
    ['a line that is not read', ['--factor', '2'], RYE.replace('580 g     water', 'water, 580'), '<stdin>:12: "Rye" cannot be scaled. This line cannot be read, so it would keep its old size.\n'],
    ['absurd', ['--dough', '900000 kg'], RYE, '"Rye" cannot be scaled. That is more than 100,000 times the size written, which no baker means: look at the number again.\n'],
  ])('cannot: %s', async (_, args, input, sentence) => {
    expect(await inProcess(['scale', '-', ...args], input)).toEqual({ status: 2, out: '', err: sentence });
  });

  test('a folder of several files, a file that is not there, one that may not be written', async () => {
    const cwd = workspace({ 'a.bake': RYE, 'b.bake': PLAIN });
    expect(await proofsheet(['scale', '.', '--factor', '2'], { cwd })).toEqual({ status: 2, out: '', err: '. holds 2 files, and scale takes one at a time.\n' });
    expect(await proofsheet(['scale', 'c.bake', '--factor', '2', '--write'], { cwd })).toEqual({ status: 2, out: '', err: 'There is no file or folder c.bake.\n' });
  });

  test('a formula with errors is scaled, and fails', async () => {
    const { status, out } = await inProcess(['scale', '-', '--factor', '2'], RYE.replace('all       levain', 'all       levian'));
    expect(status).toBe(1);
    expect(out).toContain('1736 g    bread flour');
  });

  test('what a coarse scale brings about is told', async () => {
    const text = 'formula "A"\n  makes 1 loaf of 170 g\n\ndough\n  100 g bread flour\n  68 g water\n  2 g salt\n';
    const { err, status } = await inProcess(['scale', '-', '--factor', '1.2', '--step', '50 g', '--small-step', '0.1g'], text);
    expect(status).toBe(0);
    expect(err).toMatch(/^<stdin>:4: rounding brings a new finding, hydration-high: /m);
  });
});

describe('scale and sheet', () => {
  interface Form {
    readonly totals: Readonly<Record<string, number | null>>;
    readonly yield: Readonly<Record<string, unknown>>;
  }
  const sheetOf = async (text: string, args: readonly string[] = []): Promise<Form> => {
    const { out } = await inProcess(['sheet', '-', '--json', ...args], text);
    return (JSON.parse(out) as { readonly formulas: readonly [Form] }).formulas[0];
  };
  const sizes = fc.oneof(
    fc.tuple(fc.constant('--factor'), factor.map((by) => by.toFixed(4))),
    fc.tuple(fc.constant('--flour'), fc.integer({ min: 300, max: 30_000 }).map((grams) => `${grams} g`)),
    fc.tuple(fc.constant('--dough'), fc.integer({ min: 1, max: 60 }).map((kilos) => `${kilos}kg`)),
    fc.tuple(fc.constant('--tin'), fc.integer({ min: 4, max: 40 }).map((decilitres) => `${decilitres / 10}l`)),
    fc.tuple(fc.constant('--have'), fc.constantFrom('30 g honey', '1.5 kg bread flour', '2 lb water')),
  );

  test('the sheet of the scaled file is the file\'s sheet at that size', async () => {
    await fc.assert(fc.asyncProperty(formulaText, sizes, async (text, size) => {
      const { status, out } = await inProcess(['scale', '-', ...size], text);
      if (status === 2) {
        expect((await inProcess(['sheet', '-', ...size], text)).status).toBe(2);
        return;
      }
      const [now, view] = [await sheetOf(out), await sheetOf(text, size)];
      for (const [name, value] of [...Object.entries(view.totals), ...Object.entries(view.yield)]) {
        const other = now.totals[name] ?? now.yield[name] ?? null;
        if (typeof value === 'number' && typeof other === 'number') expect(Math.abs(other - value), name).toBeLessThanOrEqual(5e-6 * Math.abs(value) + 2e-6);
        else if (name !== 'noun') expect(other, name).toBe(value);
      }
    }), { numRuns: 60 });
  });

  test('--step on a sheet is what the scale shows, and its columns still add up', async () => {
    const { out } = await inProcess(['sheet', '-', '--step', '5g', '--small-step', '0.1g'], RYE);
    expect(out).toMatch(/^bread flour +870 /m);
    expect(out).toMatch(/^salt +20 /m);
    const dough = out.split('\n').filter((line) => /^(?:bread flour|dark rye flour|water|starter|salt) /.test(line)).map((line) => Number(/ ([\d.]+) /.exec(line)?.[1]));
    expect(dough.reduce((sum, grams) => sum + grams)).toBe(Number(/^in all +([\d.]+)/m.exec(out)?.[1]));
  });

  test('--tin on a sheet names the tin, and a figure that is only usual', async () => {
    const tins = 'formula "Tin"\n  makes 2 tins of 1.8 l\n  style pan\ndough\n  100 % bread flour\n  68 % water\n  2 % salt\n';
    expect((await inProcess(['sheet', '-'], tins)).out).toContain('2 tins of 1.8 l · 640 g each (2.8 ml a gram, a usual figure)');
    expect((await inProcess(['sheet', '-', '--tin', '2.4l'], tins)).out).toContain('2 tins of 2.4 l · 860 g each (2.8 ml a gram, a usual figure) · pan · 1.333 times');
    expect((await inProcess(['sheet', '-'], tins.replace('100 %', '800 g'))).out).toContain('2 tins of 1.8 l · 680 g each (2.6 ml a gram)');
    const { err, out } = await inProcess(['sheet', '-', '--tin', '1.8l', '--formula', 'Rye'], RYE);
    expect(err).toMatch(/^"Rye": The formula names no tin, so 643 g a piece is by a usual figure/);
    expect(out).toContain('2 loaves of 643 g');
  });
});
