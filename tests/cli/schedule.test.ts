import { describe, expect, test } from 'vitest';
import { ran } from './in-process';
import { proofsheet, workspace } from './program';

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

/** Rises in the room. */
const ROOM_LOAF = LOAF.replace('makes', 'room      24 C\n  makes');

const PLAN = '\nplan "Saturday stall"\n  ready     2026-03-14 08:00 Europe/Lisbon\n  bake      6 loaves of "Plain loaf"\n';

interface Form { readonly formulas: readonly { readonly start: string; readonly ready: string; readonly steps: readonly { readonly kind: string; readonly start: string }[] }[] }

async function formOf(args: readonly string[]): Promise<Form['formulas'][number]> {
  const { out, status, err } = await ran(['schedule', '-', '--json', ...args], { input: LOAF });
  expect({ status, err }).toEqual({ status: 0, err: '' });
  return (JSON.parse(out) as Form).formulas[0]!;
}

test('what keeps a variant from being ready stands in its base, and that is named', async () => {
  const variants = 'formula "Seed loaf"\n  based on  "Plain loaf"\n  add       80 g pumpkin seeds\n\nformula "Wet seed loaf"\n  based on  "Seed loaf"\n  set       water to 72 %\n';
  const { out } = await ran(['schedule', '-', '--formula', 'Wet seed loaf', '--ready', '2026-03-14 08:00', '--zone', 'Europe/Lisbon', '--asleep', '22:30-05:30'], { input: `${LOAF}\n${variants}` });
  expect(out).toMatch(/^ {2}in "Plain loaf" +bulk 2 h$/m);
  expect(out).not.toMatch(/line \d/);
});

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

  test('a plan beside a time is said to be left out, never passed over', async () => {
    const both = await ran(['schedule', '-', '--ready', '2026-03-14 08:00'], { input: LOAF + PLAN });
    expect(both).toMatchObject({
      status: 0, err: '<stdin>: the plan "Saturday stall" is left out, for it has a time of its own. To have it scheduled, give no time, or name it: --plan "Saturday stall".\n',
    });
    expect(both.out).toMatch(/^Plain loaf\n/);
    const named = await ran(['schedule', '-', '--ready', '2026-03-14 08:00', '--formula', 'plain loaf'], { input: LOAF + PLAN });
    expect(named).toMatchObject({ status: 0, err: '' });
  });

  test('a variant has the steps of its base', async () => {
    const base = await ran(['schedule', '-', '--ready', '2026-03-14 08:00'], { input: LOAF });
    const { status, out, err } = await ran(['schedule', '-', '--ready', '2026-03-14 08:00', '--formula', 'B'], { input: `${LOAF}\nformula "B"\n  based on "Plain loaf"\n` });
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toBe(base.out.replace('Plain loaf', 'B'));
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

  test('a settings file says when nobody works and how warm the room is; the command line wins over it, kind by kind', async () => {
    const cwd = workspace({
      'loaf.bake': ROOM_LOAF,
      'proofsheet.json': '{ "zone": "Europe/Lisbon", "asleep": "22:00 to 02:00", "away": "12:00 to 13:00", "roomTodayCelsius": 20 }',
    });
    const at = async (...args: readonly string[]) => (await ran(['schedule', cwd, '--ready', '2026-03-14 15:00', ...args])).out;
    const settings = await at();
    expect(settings).toContain('── away 12:00 to 13:00 ──');
    expect(settings).toContain('the room is at 20 C, not 24 C');
    expect(await at('--away', '09:00 to 10:00')).toContain('── away 09:00 to 10:00 ──');
    expect(await at('--away', '09:00 to 10:00')).not.toContain('12:00 to 13:00');
    expect(await at('--away', 'none')).not.toContain('away');
    expect(await at('--room', '75.2 F')).not.toContain('the room is at');
  });

  test('hours may be given several times', async () => {
    const { out } = await ran(['schedule', '-', '--ready', '2026-03-14 22:00', '--away', '09:00-10:00', '--away', '19:30 to 20:30 on Sat', '--asleep', '23:00-06:00'], { input: LOAF });
    expect(out).toContain('── away 19:30 to 20:30 ──');
    const { out: sunday } = await ran(['schedule', '-', '--ready', '2026-03-14 22:00', '--away', '19:30 to 20:30 on Sun'], { input: LOAF });
    expect(sunday).not.toContain('away');
  });

  test('nothing that needs a hand is placed in hours off, or the facts say what is in the way and what would help', async () => {
    const { out, status } = await ran(['schedule', '-', '--ready', '2026-03-14 08:00', '--asleep', '22:30 to 05:30'], { input: LOAF });
    expect(status).toBe(1);
    expect(out).toMatch(/^Plain loaf\n(?:\S.*\n)+(?: {2}(?:line \d+|asked) +\S.*\n)+Ways out:\n(?: {2}[- ] \S.*\n| {4}\S.*\n)+$/);
    expect(out).toMatch(/^ {2}asked +asleep 22:30 to 05:30$/m);
    const { conflict } = JSON.parse((await ran(['schedule', '-', '--ready', '2026-03-14 08:00', '--asleep', '22:30-05:30', '--json'], { input: LOAF })).out) as {
      conflict: { facts: { text: string; line: number | null }[]; ways_out: { text: string }[] };
    };
    expect(conflict.facts).toContainEqual({ text: 'asleep 22:30 to 05:30', line: null });
    expect(conflict.ways_out.length).toBeGreaterThan(0);
  });

  test('the room, the dough and the pace change lengths, and JSON says from what', async () => {
    const bulk = async (...args: readonly string[]) => {
      const { out } = await ran(['schedule', '-', '--json', '--ready', '2026-03-14 15:00', ...args], { input: ROOM_LOAF });
      const [formula] = (JSON.parse(out) as { formulas: { notes: string[]; steps: { kind: string; start: string; end: string; adapted: { why: string; written_low_minutes: number } | null }[] }[] }).formulas;
      const step = formula!.steps.find(({ kind }) => kind === 'bulk')!;
      return { minutes: (Date.parse(step.end) - Date.parse(step.start)) / 60_000, adapted: step.adapted };
    };
    expect(await bulk()).toEqual({ minutes: 120, adapted: null });
    const cold = await bulk('--room', '20');
    expect(cold.minutes).toBeGreaterThan(140);
    expect(cold.adapted).toMatchObject({ written_low_minutes: 120, why: expect.stringContaining('the room is at 20 C') as string });
    expect((await bulk('--room', '68F')).minutes).toBe(cold.minutes);
    expect((await bulk('--dough', '20')).minutes).toBeGreaterThan(120);
    expect((await bulk('--pace', '1.2')).minutes).toBe(100);
  });

  test('the pace of the records, or why there is none', async () => {
    const none = await ran(['schedule', '-', '--ready', '2026-03-14 15:00', '--pace', 'own'], { input: ROOM_LOAF });
    expect(none).toMatchObject({ status: 0, err: expect.stringMatching(/^"Plain loaf" is given at its written pace: \S.+\n$/) as string });
    const rises = ROOM_LOAF.replace('2 h at 24 C', '2 h at 24 C, until volume 75 %');
    const bakes = ['01', '02', '03', '04'].map((day) => `record 2026-02-${day}\n  room 24 C\n  dough 25 C\n  bulk 1 h 40 min, volume 75 %\n`);
    const own = await ran(['schedule', '-', '--ready', '2026-03-14 15:00', '--pace', 'own'], { input: `${rises}\n${bakes.join('\n')}` });
    expect(own.err).toBe('');
    expect(own.out).toMatch(/1 h 45 min instead of 2 h: your own pace is 1\.\d+ times the/);
  });

  test('a time that has passed is said to have, and given all the same', async () => {
    const at = (now: string) => ran(['schedule', '-', '--ready', '2026-03-14 08:00'], { input: LOAF, nowMs: Date.parse(now) });
    expect(await at('2026-03-13T12:00:00Z')).toMatchObject({ status: 0, err: '' });
    const late = await at('2026-03-14T04:00:00Z');
    expect(late).toMatchObject({ status: 0, err: '"Plain loaf" would have had to begin at Sat 2026-03-14 03:00, which has passed. Choose a later time.\n' });
    const past = await at('2026-03-14T09:00:00Z');
    expect(past).toMatchObject({ status: 0, err: 'Sat 2026-03-14 08:00 has passed. The times are given all the same.\n' });
    expect([late.out, past.out].every((out) => out.startsWith('Plain loaf\nstart'))).toBe(true);
  });

  test('as a calendar file, stamped with the time it is', async () => {
    const { out, err, status } = await ran(['schedule', '-', '--ready', '2026-03-14 08:00', '--to', 'ics'], { input: LOAF, nowMs: Date.UTC(2026, 2, 1, 12) });
    expect({ err, status }).toEqual({ err: '', status: 0 });
    expect(out).toMatch(/^BEGIN:VCALENDAR\r\nVERSION:2\.0\r\n/);
    expect(out).toMatch(/SUMMARY:Plain loaf: bulk at 24 °C\r\n/);
    expect(out.match(/DTSTAMP:20260301T120000Z\r\n/g)).toHaveLength(7);
  });

  test('a calendar of steps that cannot be placed: the calendar is empty, and why is said', async () => {
    const { out, err, status } = await ran(['schedule', '-', '--ready', '2026-03-14 08:00', '--asleep', '22:30-05:30', '--to', 'ics'], { input: LOAF });
    expect(status).toBe(1);
    expect(out).not.toContain('VEVENT');
    expect(err).toMatch(/^Plain loaf\n\S.+/);
    expect(err).toContain('Ways out:');
  });

  test('for the bench', async () => {
    const { out, status } = await ran(['schedule', '-', '--ready', '2026-03-14 08:00', '--bench'], { input: LOAF });
    expect(status).toBe(0);
    expect(out).toMatch(/^\[ \] {2}03:00 {3}dough {3}mix, 10 min$/m);
  });
});
