/** Records of bakes against their formula. */
import { describe, expect, it } from 'vitest';
import { compareRecord, comparisonsAt, lossPctOf, recordsOf } from '../../../server/core/records';
import { analyseFormula } from '../bake';

const LOAF = `formula "Market loaf"
  makes     2 loaves of 900 g
  style     hearth
  room      22 C
  fridge    4 C
  loses     15 % in the oven

levain
  100 %     rye flour
  100 %     water
  20 %      starter
  ripen     8 h at 24 C

dough at 25 C
  100 %     bread flour
  68 %      water
  20 %      levain
  2 %       salt

steps
  mix         8 min, by hand
  bulk        4 h at 25 C, until volume 75 %
    fold      at 60 min
  shape       10 min
  retard      10 to 14 h at fridge
  preheat     60 min at 240 C
  bake        20 min at 240 C, lid on
  bake        20 min at 215 C, until core 97 C
  cool        2 h
`;

const withRecord = (lines: string, loaf = LOAF) => {
  const { formula, totals } = analyseFormula(`${loaf}\nrecord 2026-05-09\n${lines.split('\n').map((line) => `  ${line}\n`).join('')}`);
  const [record] = recordsOf(formula);
  if (!record) throw new Error('no record');
  return { formula, totals, record, compared: compareRecord(formula, record) };
};

/** Each figure as `planned → was (difference)`. */
const said = (lines: string, loaf?: string) => Object.fromEntries(withRecord(lines, loaf).compared.comparisons.map(({ what, step, planned, was, difference }) => [
  [step, what].filter(Boolean).join(' '),
  [planned && (planned.low === planned.high ? planned.low : [planned.low, planned.high]), Number(was.toFixed(2)), difference === null ? null : Number(difference.toFixed(2))],
]));

const meant = (lines: string, loaf?: string) => withRecord(lines, loaf).compared.comparisons.map(({ meaning }) => meaning);

describe('reading a record', () => {
  it('takes every figure with its line', () => {
    const { record } = withRecord('room 19.5 C\nfridge 5 C\ndough 24.6 C\nbulk 3 h 10 min at room, volume 70 %\n  fold at 30 min\nretard 13 h at fridge\nbake 38 min, core 97 C\nweighed 1530 g, 2 loaves, after 2 h\nph 4.1\nnote "Warmer water next time."');
    expect(record).toMatchObject({
      date: '2026-05-09',
      roomCelsius: { value: 19.5 }, fridgeCelsius: { value: 5 }, doughCelsius: { value: 24.6 },
      coreCelsius: { value: 97 }, ph: { value: 4.1 }, note: 'Warmer water next time.',
      weighed: { value: { grams: 1530, pieces: 2, afterMinutes: 120 } },
    });
    expect(record.steps).toMatchObject([
      { kind: 'bulk', minutes: 190, celsius: 19.5, volumePct: 70 }, { kind: 'fold' }, { kind: 'retard', minutes: 780, celsius: 5 }, { kind: 'bake', minutes: 38, coreCelsius: 97 },
    ]);
  });

  it('leaves out what is not there, and reads Fahrenheit', () => {
    const { record } = withRecord('room 68 F');
    expect(record.roomCelsius?.value).toBeCloseTo(20, 9);
    expect([record.doughCelsius, record.coreCelsius, record.weighed, record.ph, record.note, record.steps]).toEqual([undefined, undefined, undefined, undefined, '', []]);
  });

  it('never touches the totals', () => {
    const without = analyseFormula(LOAF);
    const { totals } = withRecord('weighed 999 g, 2 loaves\ndough 40 C\nbulk 9 h');
    expect(totals).toEqual(without.totals);
  });
});

describe('planned and was', () => {
  it('for every figure', () => {
    expect(said('room 19.5 C\ndough 24.6 C\nbulk 3 h 10 min, volume 70 %\nretard 16 h at 6 C\ncore 95 C\nweighed 1494 g, 2 loaves\nph 4.1')).toEqual({
      room: [22, 19.5, -2.5],
      dough: [25, 24.6, -0.4],
      'bulk length': [240, 190, -50],
      'bulk volume': [75, 70, -5],
      'retard length': [[600, 840], 960, 120],
      'retard temperature': [4, 6, 2],
      core: [97, 95, -2],
      // 1494 g of 1800 g of dough: 17 %.
      loss: [15, 17, 2],
      ph: [null, 4.1, null],
    });
  });

  it('of two bakes in one line adds their lengths up, and of each in its own line compares each', () => {
    expect(said('bake 45 min')).toEqual({ 'bake length': [40, 45, 5] });
    expect(said('bake 20 min at 245 C\nbake 22 min at 215 C')).toMatchObject({ 'bake length': [20, 22, 2], 'bake temperature': [215, 215, 0] });
  });

  it('of the levain is that of its own steps', () => {
    expect(said('ripen 9 h at 24 C')).toEqual({ 'ripen length': [480, 540, 60], 'ripen temperature': [24, 24, 0] });
  });

  it('of all loaves when nobody counts them, and of nothing when the dough is not known', () => {
    expect(lossPctOf(withRecord('weighed 1530 g').formula, withRecord('weighed 1530 g').record)).toBeCloseTo(15, 9);
    const unsized = withRecord('weighed 1530 g', 'formula "F"\n\ndough\n  500 g flour\n  300 g water\n');
    expect(lossPctOf(unsized.formula, unsized.record)).toBeNull();
  });

  it('is found again by its line', () => {
    const { compared, record } = withRecord('room 20 C\nbulk 4 h, volume 75 %');
    const [bulk] = record.steps;
    expect(comparisonsAt(compared, bulk?.place ?? { start: -1, end: -1 }).map(({ what }) => what)).toEqual(['length', 'volume']);
  });
});

describe('what it means', () => {
  it('is said in a sentence', () => {
    expect(meant('room 19.5 C\ndough 23 C\nfridge 7 C')).toEqual([
      "2.5 C cooler than the formula's room: all that ferments there was slower.",
      '2 C cooler than the dough that was wanted: a slower bulk; take warmer water next time.',
      "3 C warmer than the formula's fridge: the dough fermented on for longer.",
    ]);
    expect(meant('core 90 C\nweighed 1440 g, 2 loaves')).toEqual([
      '7 C under the plan: a moist, perhaps gummy crumb; bake it on next time.',
      '5 points more lost than planned: the loaves are lighter than the sheet says.',
    ]);
  });

  it('of a bulk goes by the day it was', () => {
    const [, cool] = meant('room 18 C\nbulk 4 h');
    expect(cool).toMatch(/^In that room and with that dough the formula's pace gives 4 h 35 min: this dough was quicker, or was shaped younger\.$/);
    expect(meant('room 22 C\nbulk 4 h')[1]).toBe("In that room and with that dough the formula's pace gives 4 h: this dough kept to it.");
    expect(meant('bulk 4 h')).toEqual(['As planned.']);
    expect(meant('room 22 C\nbulk 6 h')[1]).toContain('this dough was slower, or was shaped older');
  });

  it('of small differences is that there are none', () => {
    expect(meant('room 22.5 C\ndough 25.4 C\nretard 14 h\ncore 97.4 C\nweighed 1536 g, 2 loaves')).toEqual([
      'As planned.', 'As planned.', 'As planned.', 'Baked through, as planned.', 'The loss that was planned.',
    ]);
  });

  it('tells what to write where the formula has no plan', () => {
    const bare = 'formula "F"\n  makes 2 loaves of 400 g\n\ndough\n  100 % flour\n  60 % water\n  1 % instant yeast\n';
    for (const sentence of meant('room 20 C\nfridge 4 C\ndough 25 C\nbulk 2 h at 25 C, volume 80 %\ncore 97 C\nweighed 700 g, 2 loaves', bare)) {
      expect(sentence).toMatch(/^The formula /);
    }
    expect(meant('weighed 1530 g, 1 loaf')[0]).toContain('Write how many were weighed');
  });
});
