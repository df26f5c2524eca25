/** Lengths of fermentation in another room, with a dough that came out warmer or colder, and at a pace of one's own. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { relativeRate } from '../../../server/core/fermentation';
import type { ResolvedFormula } from '../../../server/core/formula/model';
import { adaptedLength, conditionNotes } from '../../../server/core/timeline/conditions';
import type { Conditions } from '../../../server/core/timeline/model';
import { surroundingsOf } from '../../../server/core/timeline/surroundings';
import { timelineOf } from '../../../server/core/timeline/timeline';
import { analyseFormula } from '../bake';

interface Text { readonly room?: string; readonly head?: string; readonly bulk?: string; readonly proof?: string; readonly ripen?: string; readonly leaven?: string }

const loaf = ({ room = '25 C', head = ' at 25 C', bulk = '4 h', proof = '90 min', ripen = '8 h', leaven = 'all       levain' }: Text = {}): ResolvedFormula => analyseFormula(`formula "Market loaf"
${room === '' ? '' : `  room      ${room}\n`}  fridge    4 C

levain
  60 g      rye flour
  60 g      water
  12 g      starter
  ripen     ${ripen}

dough${head}
  900 g     bread flour
  620 g     water
  ${leaven}
  20 g      salt

steps
  mix         8 min, by hand
  rest        20 min
  bulk        ${bulk}
    fold      at 60 min
  shape       10 min
  proof       ${proof}
  bake        40 min at 240 C
`).formula;

const lengthOf = (formula: ResolvedFormula, kind: string, conditions: Conditions) => {
  for (const part of formula.parts) {
    const own = part.steps.find(({ node }) => node.step === kind);
    if (own) return adaptedLength(own, part, formula, conditions);
  }
  const step = formula.method.find(({ node }) => node.step === kind);
  if (!step) throw new Error(`no ${kind}`);
  return adaptedLength(step, undefined, formula, conditions);
};

const YEAST = '12 g      instant yeast';

describe('another room', () => {
  it('lengthens the bulk of a cool day and says why, with its range', () => {
    // By hand, with a dough as warm as the room at once: 4 h at 25 C are 4 x 1.1^4 = 5.86 h at 21 C. A kilogram and a half cools for hours, so it is less.
    const length = lengthOf(loaf({ leaven: YEAST }), 'bulk', { roomCelsius: 21 });
    expect(length?.lowMinutes).toBeGreaterThan(4 * 60 * 1.1 ** 2);
    expect(length?.lowMinutes).toBeLessThan(4 * 60 * 1.1 ** 4);
    expect(length?.why).toBe('4 h 55 min instead of 4 h: the room is at 21 C, not 25 C (4 h to 5 h 55 min; watch the dough)');
    expect(length?.highMinutes).toBe(length?.lowMinutes);
  });

  it('scales as the rates do where the dough is as warm as the room', () => {
    const formula = loaf({ room: '22 C', head: '', leaven: YEAST });
    expect(lengthOf(formula, 'bulk', { roomCelsius: 25 })?.lowMinutes).toBe(5 * Math.round((240 / 1.1 ** 3) / 5));
    const sour = loaf({ room: '22 C', ripen: '8 h' });
    const ratio = relativeRate('sourdough yeast', 22) / relativeRate('sourdough yeast', 19);
    expect(lengthOf(sour, 'ripen', { roomCelsius: 19 })?.lowMinutes).toBe(15 * Math.round((480 * ratio) / 15));
  });

  it('changes the whole written range', () => {
    const length = lengthOf(loaf({ ripen: '8 to 10 h' }), 'ripen', { roomCelsius: 22 });
    expect(length?.lowMinutes).toBeGreaterThan(480);
    expect((length?.highMinutes ?? 0) / (length?.lowMinutes ?? 1)).toBeCloseTo(10 / 8, 1);
    expect(length?.why).toMatch(/ instead of 8 to 10 h: the room is at 22 C, not 25 C/);
  });

  it('takes a warm corner along: 24 C in a room of 22 is 22 in a room of 20', () => {
    const corner = loaf({ room: '22 C', head: ' at 24 C', bulk: '4 h at 24 C', leaven: YEAST });
    expect(lengthOf(corner, 'bulk', { roomCelsius: 20 })?.why).toContain('the room is at 20 C, not 22 C');
    expect(lengthOf(corner, 'bulk', { roomCelsius: 22 })).toBeUndefined();
  });

  it('is set against the temperature of the step where the formula names no room', () => {
    expect(lengthOf(loaf({ room: '', bulk: '4 h at 25 C' }), 'bulk', { roomCelsius: 21 })?.why).toContain('the room is at 21 C, not 25 C');
  });

  it('touches neither a box nor the fridge, and says so of the box', () => {
    const formula = loaf({ room: '22 C', head: ' at 22 C', bulk: '4 h at 22 C', proof: '60 min at 30 C' });
    // The box is as warm as ever; the dough goes into it a little cooler.
    expect(lengthOf(formula, 'proof', { roomCelsius: 21 })).toMatchObject({ lowMinutes: 65, why: expect.stringContaining('the dough goes in at 21.2 C, not 22 C') as string });
    expect(conditionNotes(formula, { roomCelsius: 21 })).toEqual([
      "The proof keeps its 30 C: that is not the formula's room of 22 C, so it is taken to stand in a box or a cellar that today's room does not touch.",
    ]);
    const cold = loaf({ room: '22 C', head: ' at 22 C', proof: '12 h at fridge' });
    expect(lengthOf(cold, 'proof', { roomCelsius: 26 })).toBeUndefined();
    expect(conditionNotes(cold, { roomCelsius: 26 })).toEqual([]);
    expect(conditionNotes(formula, { roomCelsius: 22 })).toEqual([]);
  });

  it('leaves the rest of a dough alone and changes the rest of a preferment', () => {
    expect(lengthOf(loaf(), 'rest', { roomCelsius: 18 })).toBeUndefined();
    const formula = analyseFormula('formula "F"\n  room 24 C\n\npoolish\n  100 g flour\n  100 g water\n  0.3 g instant yeast\n  rest 10 h\n\ndough\n  all poolish\n  400 g flour\n  240 g water\n').formula;
    expect(lengthOf(formula, 'rest', { roomCelsius: 20 })?.lowMinutes).toBeGreaterThan(700);
  });

  it('says what it cannot know, and changes nothing', () => {
    const roomless = loaf({ room: '' });
    expect(lengthOf(roomless, 'bulk', { roomCelsius: 21 })).toBeUndefined();
    expect(conditionNotes(roomless, { roomCelsius: 21 }).join(' ')).toContain('Nothing says how warm it was for the length of the bulk');
    const unleavened = loaf({ leaven: '10 g      baking powder' });
    expect(lengthOf(unleavened, 'bulk', { roomCelsius: 21 })).toBeUndefined();
    expect(conditionNotes(unleavened, { roomCelsius: 21 }).join(' ')).toContain('What ferments it is not known');
    const unwritten = loaf({ bulk: 'until "it is light"' });
    expect(conditionNotes(unwritten, { roomCelsius: 21 }).join(' ')).toContain('The bulk has no length to change.');
  });

  it('goes no farther than what is known: a little beyond it stays at the edge, far beyond nothing changes', () => {
    const formula = loaf();
    const edge = lengthOf(formula, 'ripen', { roomCelsius: 28 });
    const beyond = lengthOf(formula, 'ripen', { roomCelsius: 31 });
    expect(beyond?.lowMinutes).toBe(edge?.lowMinutes);
    expect(beyond?.why).toContain('the room is at 31 C, not 25 C, reckoned as 28 C, beyond which no pace is known');
    expect(lengthOf(formula, 'ripen', { roomCelsius: 36 })).toBeUndefined();
    expect(conditionNotes(formula, { roomCelsius: 36 })).toContain(
      'The ripening of the levain stays as it is written: it would be at 36 C, and the pace of sourdough yeast is known from 14 C to 28 C. Watch the dough, not the clock.',
    );
  });
});

describe('the place of a step', () => {
  it('is as warm as it is today, in a timeline too', () => {
    const formula = loaf({ room: '22 C', bulk: '4 h at 24 C', proof: '60 min at 30 C' });
    const timeline = timelineOf(formula, { anchor: { kind: 'start', epochMs: 0 }, zone: 'UTC', conditions: { roomCelsius: 20 } });
    if (timeline.kind !== 'placed') throw new Error(timeline.kind);
    const at = (id: string) => timeline.steps.find((step) => step.id === id)?.ambientCelsius;
    expect([at('levain/ripen'), at('method/bulk'), at('method/bulk/fold'), at('method/proof'), at('method/bake')]).toEqual([20, 22, 22, 30, 240]);
  });

  it('is not known, and not the room, for an oven or a fridge that nobody gives a temperature', () => {
    const { formula } = analyseFormula('formula "F"\n\ndough\n  500 g flour\n  300 g water\n\nsteps\n  retard 12 h\n  bake 40 min\n  rest 10 min\n');
    expect(formula.method.map((step) => surroundingsOf(step, undefined, formula, 21).todayCelsius)).toEqual([null, null, 21]);
  });
});

describe('a dough out of the mixer', () => {
  it('is slower when it came out cold, and only the first bulk says so', () => {
    const length = lengthOf(loaf({ leaven: YEAST }), 'bulk', { doughCelsius: 21 });
    expect(length?.lowMinutes).toBeGreaterThan(240);
    expect(length?.lowMinutes).toBeLessThan(300);
    expect(length?.why).toContain('4 h: the dough came from the mixer at ');
    expect(lengthOf(loaf(), 'ripen', { doughCelsius: 21 })).toBeUndefined();
  });

  it('changes nothing when it is as it should be', () => {
    for (const kind of ['bulk', 'proof', 'ripen']) expect(lengthOf(loaf(), kind, { doughCelsius: 25 })).toBeUndefined();
  });
});

describe('properties', () => {
  const rooms = fc.double({ min: 14, max: 28, noNaN: true });
  const leaven = fc.constantFrom('all       levain', YEAST);
  const kinds = fc.constantFrom('bulk', 'proof', 'ripen');

  it('warmer is never longer, up to the best temperature', () => {
    fc.assert(
      fc.property(rooms, rooms, leaven, kinds, (a, b, raises, kind) => {
        const formula = loaf({ room: '22 C', head: '', leaven: raises });
        const written = { bulk: 240, proof: 90, ripen: 480 }[kind] ?? NaN;
        const at = (roomCelsius: number) => lengthOf(formula, kind, { roomCelsius })?.lowMinutes ?? written;
        expect(at(Math.max(a, b))).toBeLessThanOrEqual(at(Math.min(a, b)));
      }),
      { numRuns: Number(process.env['RUNS'] ?? 30) },
    );
  });

  it('the same room is unchanged, exactly, wherever the steps stand', () => {
    fc.assert(
      fc.property(fc.integer({ min: 150, max: 300 }), fc.integer({ min: -40, max: 60 }), kinds, (tenths, off, kind) => {
        const room = tenths / 10;
        const formula = loaf({ room: `${room} C`, head: ' at 25 C', bulk: `4 h at ${(tenths + off) / 10} C` });
        expect(lengthOf(formula, kind, { roomCelsius: room })).toBeUndefined();
        expect(conditionNotes(formula, { roomCelsius: room })).toEqual([]);
      }),
      { numRuns: 40 },
    );
  });

  it('a pace divides every length', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.3, max: 3, noNaN: true }), kinds, (pace, kind) => {
        const written = { bulk: 240, proof: 90, ripen: 480 }[kind] ?? NaN;
        const length = lengthOf(loaf(), kind, { pace })?.lowMinutes ?? written;
        expect(Math.abs(length - written / pace)).toBeLessThanOrEqual(7.5);
      }),
      { numRuns: Number(process.env['RUNS'] ?? 30) },
    );
    expect(lengthOf(loaf(), 'bulk', { pace: 0.8 })?.why).toBe("5 h instead of 4 h: your own pace is 0.8 times the formula's (4 to 6 h; watch the dough)");
    for (const pace of [1, 0, -1, NaN, Infinity]) expect(lengthOf(loaf(), 'bulk', { pace })).toBeUndefined();
  });
});
