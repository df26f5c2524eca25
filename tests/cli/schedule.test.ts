import { describe, expect, test } from 'vitest';
import { ran } from './in-process';
import { proofsheet } from './program';

const LOAF = `formula "Plain loaf"
  makes     1 loaf of 850 g

dough
  100 %     bread flour
  68 %      water
  2 %       salt
  0.6 %     instant yeast

steps
  mix       10 min
  bulk      2 h at 24 C
  shape     10 min
  proof     1 h
  preheat   45 min at 240 C
  bake      40 min at 240 C
  cool      1 h
`;

const PLAN = '\nplan "Saturday stall"\n  ready     2026-03-14 08:00 Europe/Lisbon\n  bake      6 loaves of "Plain loaf"\n';

interface Form { readonly formulas: readonly { readonly start: string; readonly ready: string; readonly steps: readonly { readonly kind: string; readonly start: string }[] }[] }

async function formOf(args: readonly string[]): Promise<Form['formulas'][number]> {
  const { out, status, err } = await ran(['schedule', '-', '--json', ...args], { input: LOAF });
  expect({ status, err }).toEqual({ status: 0, err: '' });
  return (JSON.parse(out) as Form).formulas[0]!;
}

describe('schedule', () => {
  test('back from a ready time, on the clock of a zone', async () => {
    const { start, ready } = await formOf(['--ready', '2026-03-14 08:00', '--zone', 'Europe/Lisbon']);
    expect([start, ready]).toEqual(['2026-03-14T03:00:00+00:00', '2026-03-14T08:00:00+00:00']);
  });

  test('on from a start', async () => {
    const { start, ready } = await formOf(['--start', '2026-06-13 17:00', '--zone', 'Europe/Lisbon']);
    expect([start, ready]).toEqual(['2026-06-13T17:00:00+01:00', '2026-06-13T22:00:00+01:00']);
  });

  test('without a zone, that of the machine', async () => {
    const { out } = await proofsheet(['schedule', '-', '--start', '2100-06-13 17:00'], { input: LOAF, env: { TZ: 'Atlantic/Azores' } });
    expect(out).toContain('(Atlantic/Azores)');
  });

  test('as text', async () => {
    const { out } = await ran(['schedule', '-', '--ready', '2026-03-14 08:00'], { input: LOAF });
    expect(out).toMatch(/^Plain loaf\nstart {2}Sat 14 March 2026, 03:00\nready {2}Sat 14 March 2026, 08:00 {3}\(Europe\/Lisbon\)\n\nSat 14 March 2026\n• 03:00 – 03:10 /);
  });

  test('an hour that comes twice is said to', async () => {
    const { err, status } = await ran(['schedule', '-', '--start', '2026-10-25 01:30', '--zone', 'Europe/Lisbon'], { input: LOAF });
    expect(err).toMatch(/^01:30 comes twice on 2026-10-25 in Europe\/Lisbon/);
    expect(status).toBe(0);
  });

  test('a plan is said to be left out, never passed over', async () => {
    const sentence = '<stdin>: the plan "Saturday stall" is not scheduled: this version takes one formula at a time, not a whole bake day.\n';
    const both = await ran(['schedule', '-', '--ready', '2026-03-14 08:00'], { input: LOAF + PLAN });
    expect(both).toMatchObject({ status: 0, err: sentence });
    expect(both.out).toMatch(/^Plain loaf\n/);
    const alone = await ran(['schedule', '-', '--ready', '2026-03-14 08:00', '--formula', 'saturday stall'], { input: LOAF + PLAN });
    expect(alone).toEqual({ status: 2, out: '', err: sentence });
  });

  test('a variant likewise', async () => {
    const { status, out, err } = await ran(['schedule', '-', '--ready', '2026-03-14 08:00', '--formula', 'B'], { input: `${LOAF}\nformula "B"\n  based on "Plain loaf"\n` });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toMatch(/^<stdin>: "B" is based on another formula, and such variants are not scheduled in this version yet\.$/m);
  });

  test('steps that cannot be placed: the facts with their lines, and a status of 1', async () => {
    const text = LOAF.replace('dough\n', 'levain\n  10 g rye flour\n  10 g sponge\n  ripen 8 h\n\nsponge\n  10 g rye flour\n  10 g levain\n  ripen 2 h\n\ndough\n  all levain\n');
    const printed = await ran(['schedule', '-', '--ready', '2026-03-14 08:00'], { input: text });
    expect(printed.status).toBe(1);
    expect(printed.out).toMatch(/^Plain loaf\n\S.+\n(?: {2}line \d+ {3,}\S.*\n)+$/);
    expect(printed.out).toMatch(/^ {2}line 6 +sponge in levain$/m);
    const { conflict } = JSON.parse((await ran(['schedule', '-', '--json', '--ready', '2026-03-14 08:00'], { input: text })).out) as { conflict: { message: string; facts: { line: number }[] } };
    expect(conflict.message).not.toBe('');
    expect(conflict.facts.map(({ line }) => line)).toContain(6);
  });
});
