/** Records under a sheet, in words and in JSON. */
import { parse as parseCsv } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { recordsCsv } from '../../server/output/records-csv';
import { recordsJson } from '../../server/output/records-json';
import { comparisonWords, paceWords, recordsText } from '../../server/output/records';
import { plain } from '../../server/output/paint';
import { entryOf } from './from-text';

const LOAF = `formula "Market loaf"
  makes     2 loaves of 900 g
  room      22 C
  loses     15 % in the oven

dough at 25 C
  100 %     bread flour
  70 %      water
  1 %       instant yeast
  2 %       salt

steps
  mix       8 min, by hand
  bulk      2 h at 22 C, until volume 75 %
  retard    10 to 12 h at 4 C
  bake      40 min at 240 C, until core 97 C
`;

const RECORDS = `
record 2026-05-02
  room      22 C
  dough     25 C
  bulk      1 h 40 min, volume 75 %
  retard    11 h at 5 C
  core      96.5 C
  weighed   1530 g, 2 loaves, after 2 h
  ph        5.4
  note      "Pale."

record 2026-05-09
  room      20 C
  bulk      1 h 50 min, volume 75 %
`;
const THIRD = `
record 2026-05-16
  room      24 C
  bulk      1 h 35 min, volume 75 %
`;

const text = (source: string, width = 120) => recordsText(entryOf(source), { width, paint: plain });

describe('records under a sheet', () => {
  it('are a table, a line a bake, with what there is', () => {
    const lines = text(LOAF + RECORDS);
    expect(lines.slice(0, 6)).toEqual([
      'Records',
      '            room  dough     bulk        for              rise               core       loss',
      'date           C      C  planned   that day         was     %       retard     C  planned %  was %   pH',
      '2026-05-02    22     25      2 h        2 h  1 h 40 min    75  11 h at 5 C  96.5         15     15  5.4',
      '2026-05-09    20             2 h  2 h 5 min  1 h 50 min    75',
      '2026-05-02: Pale.',
    ]);
  });

  it('leave out columns that nobody fills', () => {
    expect(text(`${LOAF}\nrecord 2026-05-02\n  core 97 C\n`)[2]).toBe('date           C');
  });

  it('become sentences where the table is too wide', () => {
    const lines = text(LOAF + RECORDS, 70);
    expect(lines.every((line) => line.length <= 70)).toBe(true);
    expect(lines.join(' ').replace(/ +/g, ' ')).toContain('2026-05-02: room 22 C, dough 25 C, bulk planned 2 h, for that day 2 h, was 1 h 40 min, rise 75 %, retard 11 h at 5 C');
  });

  it('end with the pace, its spread and a word of caution, or why there is none', () => {
    const words = text(LOAF + RECORDS + THIRD).join(' ');
    expect(words).toMatch(/Your own pace is 1\.\d+ times the formula's, by 3 bakes: fermentation takes \d+ % less time\. In 19 of 20 cases it lies from \d\.\d+ to \d\.\d+; single bakes lie about \d+ % off it\./);
    expect(words).toContain('Watch the dough.');
    expect(text(LOAF + RECORDS).join(' ')).toContain('A pace of your own takes 3 bakes');
    expect(text(LOAF).join(' ')).toMatch(/^Records None yet\. Write what happened/);
  });

  it('say a slower pace as more time', () => {
    expect(paceWords({ pace: 0.8, low: 0.7, high: 0.9, bakes: 4, residualPct: 6, notes: [] })).toContain('takes 25 % more time');
  });

  it('say a difference only where it can be seen', () => {
    const common = { step: undefined, place: { block: 0, start: 0, end: 0 }, meaning: '' } as const;
    expect(comparisonWords({ ...common, what: 'core', unit: 'C', planned: { low: 97, high: 97 }, was: 97.02, difference: 0.02 })).toBe('planned 97 C, was 97 C');
    expect(comparisonWords({ ...common, what: 'length', unit: 'min', planned: { low: 600, high: 960 }, was: 1080, difference: 120 })).toBe('planned 10 to 16 h, was 18 h (2 h more)');
    expect(comparisonWords({ ...common, what: 'ph', unit: '', planned: null, was: 4.1, difference: null })).toBe('was 4.1');
  });

  it('are of the size written, whatever size the sheet is', () => {
    const written = entryOf(LOAF + RECORDS);
    const formula = { ...written.formula, yield: { ...written.formula.yield, pieceGrams: 450 } };
    expect(recordsText({ ...written, formula, asWritten: written.formula }, { width: 120, paint: plain })).toEqual(text(LOAF + RECORDS));
  });
});

describe('records as JSON', () => {
  it('have every figure with its plan, and the pace or the reason', () => {
    const { records, pace } = recordsJson(entryOf(LOAF + RECORDS));
    expect(records).toHaveLength(2);
    expect(records[0]).toMatchObject({
      date: '2026-05-02', line: 18, room_c: 22, dough_c: 25, core_c: 96.5, ph: 5.4, note: 'Pale.',
      loss_pct: expect.closeTo(15, 9) as number,
    });
    expect((records[0] as { figures: unknown[] }).figures).toContainEqual({
      what: 'length', step: 'retard', line: 22, unit: 'min', planned_low: 600, planned_high: 720, was: 660, difference: 0, meaning: 'As planned.',
    });
    expect(records[1]).toMatchObject({ core_c: null, loss_pct: null, note: null });
    expect(pace).toEqual({ reason: expect.stringContaining('2 here do') as string });
    expect(recordsJson(entryOf(LOAF + RECORDS + THIRD)).pace).toMatchObject({ bakes: 3, pace: expect.any(Number) as number, residual_pct: expect.any(Number) as number });
  });
});

describe('records for a spreadsheet', () => {
  const rows = (...sources: readonly string[]): readonly (readonly string[])[] => parseCsv(recordsCsv(sources.map(entryOf)).slice(1), { recordDelimiter: '\r\n' });

  it('are a row each, every figure with its unit in the heading and what was planned beside it', () => {
    const [head, ...bakes] = rows(LOAF + RECORDS);
    expect(bakes.map((bake) => Object.fromEntries(head!.map((name, at) => [name, bake[at]])))).toEqual([
      {
        'date': '2026-05-02', 'formula': 'Market loaf', 'room C': '22', 'room planned C': '22', 'dough C': '25', 'dough planned C': '25',
        'bulk min': '100', 'bulk planned min': '120', 'bulk volume %': '75', 'bulk volume planned %': '75',
        'retard min': '660', 'retard planned least min': '600', 'retard planned most min': '720', 'retard at C': '5', 'retard at planned C': '4',
        'weighed g': '1530', 'core C': '96.5', 'core planned C': '97', 'loss %': '15', 'loss planned %': '15', 'pH': '5.4', 'note': 'Pale.',
      },
      {
        'date': '2026-05-09', 'formula': 'Market loaf', 'room C': '20', 'room planned C': '22', 'dough C': '', 'dough planned C': '',
        'bulk min': '110', 'bulk planned min': '120', 'bulk volume %': '75', 'bulk volume planned %': '75',
        'retard min': '', 'retard planned least min': '', 'retard planned most min': '', 'retard at C': '', 'retard at planned C': '',
        'weighed g': '', 'core C': '', 'core planned C': '', 'loss %': '', 'loss planned %': '', 'pH': '', 'note': '',
      },
    ]);
    expect(head).toHaveLength(22);
  });

  it('of several formulas stand under one head', () => {
    const other = `${LOAF.replace('Market', 'Other, new')}
record 2026-06-01
  fridge    5 C
  proof     50 min
  note      "=cold, and late"
`;
    const [head, ...bakes] = rows(LOAF + RECORDS, other);
    expect(bakes.map((bake) => bake.length)).toEqual([head!.length, head!.length, head!.length]);
    expect(bakes[2]!.slice(0, 2)).toEqual(['2026-06-01', 'Other, new loaf']);
    expect(bakes[2]![head!.indexOf('proof min')]).toBe('50');
    expect(head!.filter((name) => /planned/.test(name) && /^(proof|fridge)/.test(name))).toEqual([]);
    // A spreadsheet must not take a note for a formula of its own.
    expect(bakes[2]!.at(-1)).toBe("'=cold, and late");
  });

  it('tell the second step of a kind from the first', () => {
    const [head, bake] = rows(`${LOAF}
record 2026-05-02
  bake      20 min
  bake      25 min
`);
    expect([bake![head!.indexOf('bake min')], bake![head!.indexOf('bake 2 min')]]).toEqual(['20', '25']);
  });

  it('where there are none are a head', () => {
    expect(rows(LOAF)).toEqual([['date', 'formula', 'weighed g', 'note']]);
  });
});
