/** Whole bake days from the command line, at a small invented stall. */
import ICAL from 'ical.js';
import { describe, expect, test } from 'vitest';
import { EARLY, ran } from './in-process';
import { workspace } from './program';

const LOAF = `formula "Plain loaf"
  makes     2 loaves of 800 g

levain
  100 %     rye flour
  100 %     water
  20 %      starter
  ripen     8 h at 24 C

dough
  100 %     bread flour
  68 %      water
  20 %      levain
  2 %       salt
  10 g      rice flour for dusting

steps
  mix       10 min, by hand
  bulk      3 h at 24 C
  shape     15 min
  retard    10 to 14 h at 4 C
  preheat   45 min at 240 C
  bake      40 min at 240 C, with steam
  cool      1 h
`;

const ROLLS = `formula "Rolls"
  makes     20 rolls of 60 g

dough
  100 %     bread flour
  60 %      water
  2 %       salt
  1 %       instant yeast
  10 g      sesame seeds

steps
  mix       8 min, by hand, add 10 g of sesame seeds
  bulk      1 h at 24 C
  shape     15 min
  proof     50 to 60 min at 26 C
  preheat   30 min at 220 C
  bake      15 min at 220 C
  cool      20 min
`;

const PLAN = `plan "Saturday stall"
  ready     2027-03-13 09:30 Europe/Lisbon
  asleep    22:30 to 04:00
  oven      holds 6 loaves or 40 rolls
  fridge    holds 12 loaves
  hands     2
  bake      6 loaves of "Plain loaf"
  bake      40 rolls of "Rolls"
`;

const DAY = `${LOAF}\n${ROLLS}\n${PLAN}`;

interface StepForm { readonly id: string; readonly kind: string; readonly start: string; readonly end: string; readonly hands_on: boolean; readonly person: number | null; readonly load: number | null; readonly pieces: number | null }
interface DayForm {
  readonly name: string; readonly start: string; readonly ready: string; readonly bound: string; readonly gap_minutes: number; readonly proven: boolean; readonly notes: readonly string[];
  readonly batches: readonly { readonly label: string; readonly formula: string; readonly pieces: number; readonly dough_g: number; readonly steps: readonly StepForm[] }[];
  readonly oven_loads: readonly { readonly oven: string; readonly start: string; readonly end: string; readonly filled: number; readonly what: readonly { readonly formula: string; readonly pieces: number }[] }[];
  readonly heatings: readonly { readonly oven: string; readonly start: string }[];
  readonly builds: readonly { readonly name: string; readonly start: string; readonly person: number | null; readonly total_g: number }[];
  readonly weighings: readonly { readonly time: string; readonly what: string; readonly items: readonly { readonly name: string; readonly grams: number; readonly purpose: string | null }[] }[];
  readonly shopping: { readonly rows: readonly { readonly name: string; readonly grams: number; readonly formulas: readonly string[] }[]; readonly starter_g: number };
}

const text = async (args: readonly string[] = [], input = DAY, nowMs = EARLY) => ran(['schedule', '-', ...args], { input, nowMs });
async function form(args: readonly string[] = [], input = DAY): Promise<DayForm> {
  const { out, status, err } = await text(['--json', ...args], input);
  expect({ status, err }).toEqual({ status: 0, err: '' });
  const { formulas, plans } = JSON.parse(out) as { formulas: unknown[]; plans: DayForm[] };
  expect({ formulas, plans: plans.length }).toEqual({ formulas: [], plans: 1 });
  return plans[0]!;
}

describe('a plan without any time asked', () => {
  test('is the day that it says, as JSON', async () => {
    const day = await form();
    expect(day).toMatchObject({ name: 'Saturday stall', ready: '2027-03-13T09:30:00+00:00' });
    expect(day.batches.map(({ formula, pieces }) => [formula, pieces])).toEqual([['Plain loaf', 6], ['Rolls', 40]]);
    const baked = new Map<string, number>();
    for (const { formula, pieces } of day.oven_loads.flatMap(({ what }) => what)) baked.set(formula, (baked.get(formula) ?? 0) + pieces);
    expect(Object.fromEntries(baked)).toEqual({ 'Plain loaf': 6, Rolls: 40 });
    expect(day.builds).toMatchObject([{ name: 'levain', person: expect.any(Number) as number }]);
    expect(Date.parse(day.bound)).toBeGreaterThanOrEqual(Date.parse(day.start));
    expect(day.gap_minutes).toBe((Date.parse(day.bound) - Date.parse(day.start)) / 60_000);
    for (const { hands_on, person } of day.batches.flatMap(({ steps }) => steps)) expect(person !== null).toBe(hands_on);
    const weighed = day.weighings.flatMap(({ items }) => items.filter(({ name }) => name === 'bread flour')).reduce((sum, { grams }) => sum + grams, 0);
    const flour = day.shopping.rows.find(({ name }) => name === 'bread flour')!;
    expect(flour.formulas).toEqual(['Plain loaf', 'Rolls']);
    expect(flour.grams).toBeCloseTo(weighed, 4);
  });

  test('is printed by the oven, by the person, with what to weigh and what to have', async () => {
    const { out, err, status } = await text();
    expect({ err, status }).toEqual({ err: '', status: 0 });
    expect(out).toMatch(/^Saturday stall\nstart {2}Fri 12 March 2027, \d\d:\d\d\nready {2}Sat 13 March 2027, 09:30 {3}\(Europe\/Lisbon\)\n(No better schedule exists|Begins .+ earlier than the latest start that could not be ruled out)/);
    const heads = ['Oven', 'Person 1', 'Person 2', 'Whoever is near', 'To weigh, by the time it is needed', 'To have in the house'];
    expect(out.split('\n').filter((line) => heads.includes(line))).toEqual(heads);
    expect(out).toMatch(/^ {2}\d\d:\d\d – \d\d:\d\d {3}6 loaves of Plain loaf, 240 °C \(465 °F\), 100 % full$/m);
    expect(out).toMatch(/── asleep 22:30 to 04:00 ──/);
    expect(out).toMatch(/^ {2}Ripe starter: \d+ g\.$/m);
  });

  test('no line is wider than there is room, however long the names', async () => {
    const long = 'Slow hearth loaf of the mill at the weir with seeds';
    const { out } = await text([], DAY.replaceAll('Plain loaf', long).replaceAll('"Rolls"', '"Rolls of the long table at the end of the quay"'));
    expect(out).toContain(long);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(100);
    expect(out).toMatch(/^ +\d+ g {3}bread flour +Slow hearth loaf.+\n {20,}\S/m);
  });

  test('has every piece of work in the list of the one who does it, once', async () => {
    const day = await form();
    const { out } = await text();
    const listOf = (person: number): string => out.slice(out.indexOf(`Person ${String(person)}\n`)).split('\n\n')[0]!;
    for (const { label, steps } of day.batches) {
      for (const { start, end, kind, person } of steps.filter(({ hands_on }) => hands_on)) {
        const line = new RegExp(`^ {2}${start.slice(11, 16)} – ${end.slice(11, 16)} +${label}.* ${kind}`, 'gm');
        expect(listOf(person!).match(line), `${label} ${kind}`).toHaveLength(1);
      }
    }
  });

  test('leaves out weights that are those of another size', async () => {
    const { out } = await text();
    expect(out).toContain('mix, by hand, add sesame seeds');
    expect(out).toMatch(/20 g\s+sesame seeds/);
  });

  test('one pair of hands has one list', async () => {
    const { out } = await text([], DAY.replace('hands     2', 'hands     1'));
    expect(out).toMatch(/^Work$/m);
    expect(out).not.toMatch(/^Person|^Whoever/m);
  });

  test('is a calendar, with an alarm where hands are needed, read back by another program', async () => {
    const day = await form();
    const { out } = await text(['--to', 'ics']);
    const events = new ICAL.Component(ICAL.parse(out) as unknown[]).getAllSubcomponents('vevent').map((component) => new ICAL.Event(component));
    const steps = day.batches.flatMap(({ label, steps: own }) => own.map((step) => ({ ...step, label })));
    expect(events).toHaveLength(steps.length + day.heatings.length + day.builds.length);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
    for (const { label, start, end, kind, hands_on } of steps) {
      const found = events.find(({ summary, startDate, endDate }) => (
        summary.startsWith(`${label}: ${kind}`) && startDate.toUnixTime() * 1000 === Date.parse(start) && endDate.toUnixTime() * 1000 === Date.parse(end)
      ));
      expect(found, `${label} ${kind}`).toBeDefined();
      if (hands_on) expect(found!.component.getAllSubcomponents('valarm')).toHaveLength(1);
    }
    expect(events.filter(({ summary }) => summary.startsWith('Saturday stall: ')).map(({ startDate }) => startDate.toUnixTime() * 1000).sort()).toEqual(
      [...day.heatings, ...day.builds].map(({ start }) => Date.parse(start)).sort(),
    );
  });
});

describe('what is asked of a plan', () => {
  test('another time than its own', async () => {
    const day = await form(['--plan', 'saturday  STALL', '--ready', '2027-03-20 10:00']);
    expect(day.ready).toBe('2027-03-20T10:00:00+00:00');
    expect((await form(['--plan', 'Saturday stall', '--start', '2027-03-19 08:00'])).start.slice(0, 10)).toBe('2027-03-19');
  });

  test('a plan of another name is not there', async () => {
    expect(await text(['--plan', 'Saturday stal'])).toEqual({ status: 2, out: '', err: 'There is no plan "Saturday stal" in these files. Did you mean "Saturday stall"?\n' });
  });

  test('hours off of the command line win over the plan kind by kind, and the plan over the settings', async () => {
    const cwd = workspace({ 'day.bake': DAY, 'proofsheet.json': '{ "asleep": "20:00 to 02:00", "away": "12:00 to 12:30" }' });
    const out = async (...args: readonly string[]) => (await ran(['schedule', cwd, ...args])).out;
    const plan = await out();
    expect(plan).toContain('── asleep 22:30 to 04:00 ──');
    expect(plan).toContain('── away 12:00 to 12:30 ──');
    expect(plan).not.toContain('20:00 to 02:00');
    const asked = await out('--asleep', '23:00 to 03:00');
    expect(asked).toContain('── asleep 23:00 to 03:00 ──');
    expect(asked).not.toContain('22:30');
    expect(await out('--away', 'none')).not.toContain('away');
  });

  test('what is of one dough is refused, and says what is meant', async () => {
    expect(await text(['--dough', '26'])).toMatchObject({ status: 2, err: expect.stringMatching(/^--dough is what one dough measures/) as string });
    expect(await text(['--pace', 'own'])).toMatchObject({ status: 2, err: expect.stringMatching(/^--pace own goes by the records of one formula\. .* --pace 1\.1\.\n$/) as string });
    expect((await text(['--pace', '1.1'])).status).toBe(0);
  });

  test('how long a better day is looked for', async () => {
    const many = DAY.replace('bake      40 rolls', 'bake      80 rolls').replace('6 loaves of', '18 loaves of').replace('fridge    holds 12', 'fridge    holds 40');
    const hurried = await text(['--within', '0.001 s'], many);
    expect(hurried.err).toMatch(/^"Saturday stall": the search ended after 0\.001s\. Longer may find a better day: --within 60s\.$/m);
    expect(hurried.status).toBe(0);
    expect((await text(['--within', '2min'])).err).toBe('');
    for (const wrong of ['soon', '0', '-3s', '2h', '5000']) {
      expect(await text(['--within', wrong])).toMatchObject({ status: 2, err: expect.stringContaining(`such as 30s or 2min, not "${wrong}".`) as string });
    }
    expect(await text(['--ready', '2027-03-13 09:00', '--within', '5s'], LOAF)).toMatchObject({ status: 2, err: '--within is for plans: the times of one formula are found at once.\n' });
  });

  test('a day that has gone by is said to have', async () => {
    const late = await text([], DAY, Date.UTC(2027, 2, 13, 12));
    expect(late).toMatchObject({ status: 0, err: expect.stringMatching(/^"Saturday stall": 2027-03-13 09:30 went by /) as string });
    const short = await text([], DAY, Date.UTC(2027, 2, 13, 1));
    expect(short.err).toMatch(/^"Saturday stall" would have had to begin at Fri 2027-03-12 \d\d:\d\d, which has passed\. Choose a later time\.\n$/);
  });
});

describe('a day that cannot be', () => {
  test('says which lines are in the way, in which file, and what would help', async () => {
    const cwd = workspace({ 'loaf.bake': LOAF, 'day.bake': `use "loaf.bake"\n\n${ROLLS}\n${PLAN.replace('22:30 to 04:00', '22:30 to 08:00')}` });
    const { out, status } = await ran(['schedule', `${cwd}/day.bake`]);
    expect(status).toBe(1);
    expect(out).toMatch(/^Saturday stall\n\S/);
    expect(out).toMatch(/^ {2}line \d+ +asleep 22:30 to 08:00$/m);
    expect(out).toMatch(/loaf\.bake line \d+ +Plain loaf: \S|^ {2}line \d+ +Rolls: \S/m);
    const { conflict } = JSON.parse((await ran(['schedule', `${cwd}/day.bake`, '--json'])).out) as { conflict: { plan: string; message: string; facts: { text: string; line: number | null; file?: string; formula: string | null }[]; ways_out: unknown[] } };
    expect(conflict.plan).toBe('Saturday stall');
    expect(conflict.facts.length).toBeGreaterThan(1);
    expect(conflict.facts.some(({ line, formula }) => line !== null && formula !== null)).toBe(true);
    const ics = await ran(['schedule', `${cwd}/day.bake`, '--to', 'ics']);
    expect(ics.status).toBe(1);
    expect(ics.out).not.toContain('VEVENT');
    expect(ics.err).toMatch(/^Saturday stall\n/);
  });

  test('a plan with nothing to do says so', async () => {
    const { out, status } = await text([], 'plan "Empty"\n  ready 2027-03-13 09:30 Europe/Lisbon\n');
    expect(out).toBe('Empty\nNothing to schedule: no formula that this plan bakes has steps.\n');
    expect(status).toBeLessThan(2);
  });
});
