import { describe, expect, test } from 'vitest';
import { STEP_KINDS } from '../../../grammar';
import { STEP_DEFAULTS } from '../../../server/core/timeline/defaults';
import { timelineOf } from '../../../server/core/timeline/timeline';
import { conflict, endOf, formulaOf, placed, plan, startOf, stepOf, timeline } from './placed';

const HOUR_MS = 3_600_000;

/** A loaf with the given steps, one a line. */
function loaf(steps: string, parts = ''): string {
  const lines = steps.trim().split('\n').map((line) => `  ${line}`).join('\n');
  return `formula "Stall loaf"\n\n${parts}\ndough\n  500 g  bread flour\n  340 g  water\n  10 g  salt\n  40 g  walnuts\n\nsteps\n${lines}\n`;
}

const FIG_AND_WALNUT = `
formula "Fig and walnut rye"
  makes     2 loaves of 970 g
  room      23 C
  fridge    4 C

levain
  60 g      dark rye flour
  60 g      water at 28 C
  12 g      starter
  ripen     8 h at 24 C

soaker "figs"
  150 g     dried figs, quartered
  40 g      water at 90 C
  rest      1 h

dough at 25 C
  700 g     bread flour
  180 g     whole wheat flour
  600 g     water
  all       levain
  18 g      salt
  120 g     walnuts, toasted
  all       figs

steps
  mix         8 min, by hand
  rest        40 min
  bulk        3 h 30 min at 24 C
    fold      at 30 min
    fold      at 60 min, add half of walnuts
    fold      at 90 min, add rest of walnuts, add figs
    coil fold at 120 min
  preshape    5 min
  rest        25 min
  shape       10 min
  retard      10 to 16 h
  preheat     60 min at 240 C
  score       2 min
  bake        25 min at 240 C, lid on
  bake        18 to 22 min at 215 C, lid off, until core 97 C
  cool        2 h
`;

describe('a whole formula', () => {
  test('back from the time the loaf must be ready', () => {
    const result = placed(FIG_AND_WALNUT, 'ready', '2026-03-14 08:00');
    expect(plan(result)).toEqual([
      'Fri 03:10-03:15 levain/build * ?',
      'Fri 03:15-11:15 levain/ripen',
      'Fri 11:15-11:23 method/mix *',
      'Fri 11:23-12:03 method/rest',
      'Fri 12:03-15:33 method/bulk',
      'Fri 12:28-12:33 figs/build * ?', // the figs are wanted at the third fold
      'Fri 12:33-13:33 figs/rest',
      'Fri 12:33-12:38 method/bulk/fold * ?',
      'Fri 13:03-13:08 method/bulk/fold-2 * ?',
      'Fri 13:33-13:38 method/bulk/fold-3 * ?',
      'Fri 14:03-14:08 method/bulk/coil-fold * ?',
      'Fri 15:33-15:38 method/preshape *',
      'Fri 15:38-16:03 method/rest-2',
      'Fri 16:03-16:13 method/shape *',
      'Fri 16:13-05:13 method/retard', // 13 h, the middle of its range
      'Sat 04:15-05:15 method/preheat', // ends as the bake begins, over the retard and the scoring
      'Sat 05:13-05:15 method/score *',
      'Sat 05:15-05:40 method/bake',
      'Sat 05:40-06:00 method/bake-2',
      'Sat 06:00-08:00 method/cool',
    ]);
    expect(result.readyMs).toBe(Date.UTC(2026, 2, 14, 8));
    expect(result.startMs).toBe(Date.UTC(2026, 2, 13, 3, 10));
  });

  test('forward from a start, which is when the first hand moves', () => {
    const result = placed(FIG_AND_WALNUT, 'start', '2026-03-13 03:10');
    expect(plan(result)).toEqual(plan(placed(FIG_AND_WALNUT, 'ready', '2026-03-14 08:00')));
  });

  test('every step says what it is, where it is written and how warm it is there', () => {
    const text = FIG_AND_WALNUT;
    const result = placed(text, 'ready', '2026-03-14 08:00');
    expect(stepOf(result, 'levain/build')).toMatchObject({
      part: 0, step: undefined, kind: 'mix', label: 'mix the levain', lowMinutes: 5, highMinutes: 5, ambientCelsius: null,
    });
    expect(stepOf(result, 'figs/build').label).toBe('prepare the figs');
    expect(stepOf(result, 'method/bulk/coil-fold')).toMatchObject({ part: undefined, kind: 'coil fold', label: 'coil fold', ambientCelsius: 24 });
    expect(stepOf(result, 'method/retard')).toMatchObject({ lowMinutes: 600, highMinutes: 960, ambientCelsius: 4, assumed: false });
    expect(stepOf(result, 'method/bake-2').ambientCelsius).toBe(215);
    const formula = formulaOf(text);
    const bulk = stepOf(result, 'method/bulk');
    expect(bulk.place).toEqual(formula.method[2]!.place);
    expect(bulk.step?.node.step).toBe('bulk');
    expect(bulk.endMs - bulk.startMs).toBe(3.5 * HOUR_MS);
  });
});

describe('parts end just when they are needed', () => {
  test('at the first mix, not at the autolyse before it', () => {
    const result = placed(
      loaf('autolyse 30 min\nmix 10 min', 'levain\n  60 g rye flour\n  60 g water\n  12 g starter\n  ripen 6 h\n').replace('  10 g  salt', '  all levain\n  10 g salt'),
      'ready', '2026-03-14 08:00');
    expect([startOf(result, 'method/autolyse'), endOf(result, 'levain/ripen')]).toEqual(['07:20', '07:50']);
  });

  const SOAKER = 'soaker "figs"\n  100 g dried figs\n  50 g water\n  soak 1 h\n';

  test('at the step that adds it, and at the earliest of several', () => {
    const result = placed(
      loaf('mix 10 min\nbulk 2 h\n  fold at 30 min\n  fold at 60 min, add half of figs\n  fold at 90 min, add rest of figs', SOAKER),
      'ready', '2026-03-14 08:00');
    expect([endOf(result, 'figs/soak'), startOf(result, 'method/bulk/fold-2')]).toEqual(['07:00', '07:00']);
  });

  test('at a step inside a fold', () => {
    const result = placed(loaf('mix 10 min\nbulk 2 h\n  fold 20 min at 60 min\n    rest 5 min at 10 min, add figs', SOAKER), 'ready', '2026-03-14 08:00');
    expect([endOf(result, 'figs/soak'), startOf(result, 'method/bulk/fold/rest')]).toEqual(['07:10', '07:10']);
  });

  test('at the step that adds it by its kind, when it is the only one of that kind', () => {
    const steps = 'mix 10 min\nbulk 2 h\n  fold at 60 min, add soaker';
    expect(endOf(placed(loaf(steps, SOAKER), 'ready', '2026-03-14 08:00'), 'figs/soak')).toBe('07:00');
    const two = `${SOAKER}\n${SOAKER.replace('figs"', 'oats"')}`;
    expect(endOf(placed(loaf(steps, two), 'ready', '2026-03-14 08:00'), 'figs/soak')).toBe('05:50'); // of two it says nothing
  });

  test('at the step that adds it together with something else', () => {
    const result = placed(loaf('mix 10 min\nrest 30 min\nmix 5 min, add salt and figs', SOAKER), 'ready', '2026-03-14 08:00');
    expect(endOf(result, 'figs/soak')).toBe('07:55');
  });

  test('a part of a part ends by the first step of the part that takes it in', () => {
    const parts = 'levain "seed"\n  10 g rye flour\n  10 g water\n  2 g starter\n  ripen 4 h\n\n'
      + 'levain "sour"\n  60 g rye flour\n  60 g water\n  all seed\n  ripen 6 h\n';
    const result = placed(loaf('mix 10 min', parts).replace('  10 g  salt', '  all sour'), 'ready', '2026-03-14 18:00');
    expect(plan(result)).toEqual([
      'Sat 07:40-07:45 seed/build * ?',
      'Sat 07:45-11:45 seed/ripen',
      'Sat 11:45-11:50 sour/build * ?',
      'Sat 11:50-17:50 sour/ripen',
      'Sat 17:50-18:00 method/mix *',
    ]);
  });

  test('a part without steps takes no time, and what it takes in is wanted when it is', () => {
    const parts = 'scald\n  50 g rye flour\n  100 g water\n  boil 5 min\n  cool 1 h\n\npart "mash"\n  20 g honey\n  all scald\n';
    const result = placed(loaf('mix 10 min', parts).replace('  10 g  salt', '  all mash'), 'ready', '2026-03-14 08:00');
    expect(plan(result)).toEqual([
      'Sat 06:45-06:50 scald/boil *', // hands-on from its first step, so nothing has to be put together before
      'Sat 06:50-07:50 scald/cool',
      'Sat 07:50-08:00 method/mix *',
    ]);
  });

  test.each([
    ['filling', 'mix\nbulk 1 h\nfill 10 min\nbake 30 min', 'method/fill'],
    ['filling', 'mix\nbulk 1 h\nshape 10 min\nproof 1 h\nbake 30 min', 'method/shape'],
    ['custard', 'mix\nproof 1 h\nbake 30 min', 'method/bake'],
    ['topping', 'mix\nshape 10 min\nproof 1 h\npreheat 30 min\nbake 30 min', 'method/bake'],
    ['wash', 'mix\nproof 1 h\nbake 10 min\nbake 20 min', 'method/bake'],
    ['topping', 'mix\nshape 10 min\nboil 1 min\nbake 20 min', 'method/bake'],
    ['topping', 'mix\nproof 1 h\nfry 4 min\ncool', 'method/fry'],
    ['glaze', 'mix\ncool 5 min\nbake 30 min\ncool 1 h\nglaze 5 min', 'method/glaze'],
    ['glaze', 'mix\ncool 5 min\nbake 30 min\ncool 1 h', 'method/cool-2'],
    ['glaze', 'mix\nproof 1 h\nbake 30 min', 'method/bake'],
    ['wash', 'shape 10 min\nglaze 4 min\nbake 30 min\ncool 1 h', 'method/glaze'],
    ['topping', 'glaze 4 min\nbake 30 min', 'method/glaze'],
    ['wash', 'shape 10 min\nbake 30 min\nglaze 4 min', 'method/bake'],
    ['part "crumbs"', 'autolyse 30 min\nmix\nbake 30 min', 'method/mix'],
    ['part "crumbs"', 'preheat 1 h\nshape 10 min\nbake 30 min', 'method/shape'],
  ])('a %s that nothing takes in, before %j: by %s', (head, steps, wanted) => {
    const result = placed(loaf(steps, `${head}\n  50 g butter\n  50 g sugar\n  chill 20 min\n`), 'ready', '2026-03-14 08:00');
    const chill = result.steps.find(({ id, kind }) => kind === 'chill' && !id.startsWith('method/'));
    expect(chill!.endMs).toBe(stepOf(result, wanted).startMs);
  });

  test('what the dough lists for the top is wanted at the oven, not at the mix', () => {
    const text = loaf('mix 10 min\nproof 1 h\nbake 30 min', 'soaker "seeds"\n  50 g sunflower seeds\n  50 g water\n  soak 20 min\n')
      .replace('  10 g  salt', '  40 g seeds for the top');
    expect(endOf(placed(text, 'ready', '2026-03-14 08:00'), 'seeds/soak')).toBe('07:30');
  });

  test('the steps written in the dough come before those of the method', () => {
    const text = loaf('bulk 2 h\nshape 10 min').replace('  10 g  salt', '  10 g salt\n  mix 10 min\n  knead 5 min');
    expect(plan(placed(text, 'ready', '2026-03-14 08:00'))).toEqual([
      'Sat 05:35-05:45 dough/mix *', 'Sat 05:45-05:50 dough/knead *', 'Sat 05:50-07:50 method/bulk', 'Sat 07:50-08:00 method/shape *',
    ]);
  });

  test('the parts of a dish end by its method', () => {
    const text = `dish "Bread bake"\n  serves 4\n\ncustard\n  300 g milk\n  2 eggs\n  whisk 5 min\n\nsteps\n  soak 30 min\n  preheat 20 min at 180 C\n  bake 40 min\n`;
    expect(plan(placed(text, 'ready', '2026-03-14 13:00'))).toEqual([
      'Sat 11:45-11:50 custard/whisk *', 'Sat 11:50-12:20 method/soak', 'Sat 12:00-12:20 method/preheat', 'Sat 12:20-13:00 method/bake',
    ]);
  });

  test('a custard is wanted where it is whisked; without that, where it is filled in, soaked up or baked', () => {
    const text = (before: string): string => `dish "Cream"\n  serves 4\n\ncustard\n  300 g milk\n  2 eggs\n  boil 5 min\n\nsteps\n${before}  soak 30 min\n  bake 40 min at 160 C\n`;
    expect(plan(placed(text('  whisk 4 min\n  rest 20 min\n'), 'ready', '2026-03-14 13:00')).slice(0, 2)).toEqual(['Sat 11:21-11:26 custard/boil *', 'Sat 11:26-11:30 method/whisk *']);
    expect(plan(placed(text('  rest 20 min\n'), 'ready', '2026-03-14 13:00')).slice(0, 2)).toEqual(['Sat 11:30-11:50 method/rest', 'Sat 11:45-11:50 custard/boil *']);
  });

  test('parts alone, with no method yet, end when all is ready', () => {
    const text = 'formula "Begun"\n\nlevain\n  60 g rye flour\n  60 g water\n  12 g starter\n  ripen 6 h\n\nsoaker\n  50 g oats\n  50 g water\n  soak 1 h\n';
    const result = placed(text, 'ready', '2026-03-14 08:00');
    expect([endOf(result, 'levain/ripen'), endOf(result, 'soaker/soak')]).toEqual(['08:00', '08:00']);
  });

  test('a step may add what its own part is named after', () => {
    const parts = 'soaker "figs"\n  100 g dried figs\n  50 g water\n  boil 5 min, add figs\n';
    expect(placed(loaf('mix 10 min', parts).replace('  10 g  salt', '  all figs'), 'ready', '2026-03-14 08:00').steps).toHaveLength(2);
  });
});

describe('the slack of a step', () => {
  const levain = (steps: string): string =>
    loaf('mix 10 min\nbulk 3 h', `levain\n  60 g rye flour\n  60 g water\n  12 g starter\n${steps}`).replace('  10 g  salt', '  all levain');
  const slack = (text: string, id: string): readonly number[] => {
    const { startMs, earliestStartMs, latestStartMs } = stepOf(placed(text, 'ready', '2026-03-14 08:00'), id);
    return [(earliestStartMs - startMs) / HOUR_MS, (latestStartMs - startMs) / HOUR_MS];
  };

  test('a levain that ripens 6 to 10 h can be fed two hours earlier or later', () => {
    expect(slack(levain('  ripen 6 to 10 h\n'), 'levain/ripen')).toEqual([-2, 2]);
    expect(slack(levain('  ripen 6 to 10 h\n'), 'levain/build')).toEqual([-2, 2]);
    expect(slack(levain('  ripen 8 h\n'), 'levain/ripen')).toEqual([0, 0]);
  });

  test('the ranges of the steps after it add up', () => {
    const steps = '  mix 5 min\n  ripen 6 to 8 h\n  chill 1 to 2 h\n';
    expect(slack(levain(steps), 'levain/mix')).toEqual([-1.5, 1.5]);
    expect(slack(levain(steps), 'levain/chill')).toEqual([-0.5, 0.5]);
  });

  test('what takes a part in can make room for it', () => {
    const text = loaf('mix 10 min', 'levain "seed"\n  10 g rye flour\n  2 g starter\n  ripen 3 to 5 h\n\nlevain "sour"\n  60 g rye flour\n  all seed\n  ripen 6 to 10 h\n')
      .replace('  10 g  salt', '  all sour');
    expect([slack(text, 'seed/ripen'), slack(text, 'sour/ripen')]).toEqual([[-3, 3], [-2, 2]]);
  });

  test('the method moves by the ranges that follow, and the end stands still', () => {
    const text = levain('  ripen 8 h\n').replace('bulk 3 h', 'bulk 2 to 4 h\n  shape 10 min\n  retard 10 to 16 h');
    expect(slack(text, 'method/mix')).toEqual([-4, 4]);
    expect(slack(text, 'method/shape')).toEqual([-3, 3]);
    expect(slack(text, 'method/retard')).toEqual([-3, 3]);
    expect(slack(levain('  ripen 6 to 10 h\n'), 'method/mix')).toEqual([0, 0]);
  });
});

describe('folds are inside their bulk', () => {
  const folds = (children: string, bulk = 'bulk 3 h'): readonly string[] => {
    const result = placed(loaf(`mix 10 min\n${bulk}\n${children}`), 'start', '2026-03-14 08:00');
    expect(stepOf(result, 'method/bulk').startMs).toBe(Date.UTC(2026, 2, 14, 8, 10));
    return plan(result).filter((line) => line.includes('method/bulk/'));
  };

  test('at their time, with a default length, hands-on; the bulk is no longer for it', () => {
    expect(folds('  fold 3 min at 30 min\n  fold at 60 min')).toEqual([
      'Sat 08:40-08:43 method/bulk/fold *', 'Sat 09:10-09:15 method/bulk/fold-2 * ?',
    ]);
    const result = placed(loaf('bulk 3 h\n  fold at 30 min\nshape 10 min'), 'start', '2026-03-14 08:00');
    expect(startOf(result, 'method/shape')).toBe('11:00');
  });

  test('every so often, so many times', () => {
    expect(folds('  fold every 30 min, 4 times')).toEqual([
      'Sat 08:40-08:45 method/bulk/fold * ?', 'Sat 09:10-09:15 method/bulk/fold-2 * ?',
      'Sat 09:40-09:45 method/bulk/fold-3 * ?', 'Sat 10:10-10:15 method/bulk/fold-4 * ?',
    ]);
  });

  test('every so often until the bulk ends, when no number is given', () => {
    expect(folds('  fold every 1 h')).toEqual(['Sat 09:10-09:15 method/bulk/fold * ?', 'Sat 10:10-10:15 method/bulk/fold-2 * ?']);
    expect(folds('  fold every 45 min, at 15 min').map((line) => line.slice(4, 9))).toEqual(['08:25', '09:10', '09:55', '10:40']);
    expect(folds('  fold every 5 h')).toHaveLength(1);
  });

  test('without a time they share the bulk out evenly', () => {
    expect(folds('  fold\n  coil fold 5 min')).toEqual(['Sat 09:10-09:15 method/bulk/fold * ?', 'Sat 10:10-10:15 method/bulk/coil-fold * ?']);
    expect(folds('  fold, 2 times')).toEqual(['Sat 09:10-09:15 method/bulk/fold * ?', 'Sat 10:10-10:15 method/bulk/fold-2 * ?']);
  });

  test('one that comes after the end of its bulk stays where it is written', () => {
    expect(folds('  fold at 4 h')).toEqual(['Sat 12:10-12:15 method/bulk/fold * ?']);
  });

  test('a fold of its own is a step like any other', () => {
    const result = placed(loaf('mix 10 min\nrest 30 min\nfold\nrest 30 min'), 'start', '2026-03-14 08:00');
    expect([startOf(result, 'method/fold'), startOf(result, 'method/rest-2')]).toEqual(['08:40', '08:45']);
  });
});

describe('a preheat ends when what it heats for begins', () => {
  test.each([
    ['over what is before it', 'proof 1 h\npreheat 30 min\nscore 2 min\nbake 30 min', 'method/preheat', 'method/bake'],
    ['and before all else, if it is that long', 'shape 5 min\npreheat 1 h\nbake 30 min', 'method/preheat', 'method/bake'],
    ['when it is written early', 'preheat 30 min\nproof 1 h\nbake 30 min', 'method/preheat', 'method/bake'],
    ['for the oven, not the pot on the way', 'preheat 30 min\nboil 2 min\nbake 30 min', 'method/preheat', 'method/bake'],
    ['for the fat, when there is no oven', 'proof 1 h\npreheat 15 min\nfry 4 min', 'method/preheat', 'method/fry'],
    ['for each its own', 'preheat 15 min\nfry 4 min\npreheat 20 min\nbake 10 min', 'method/preheat', 'method/fry'],
    ['for each its own', 'preheat 15 min\nfry 4 min\npreheat 20 min\nbake 10 min', 'method/preheat-2', 'method/bake'],
    ['pan and fat together', 'preheat 45 min\npreheat 20 min\nfry 10 min', 'method/preheat', 'method/fry'],
    ['oven and stone together', 'preheat 45 min\npreheat 20 min\nbake 10 min', 'method/preheat', 'method/bake'],
  ])('%s: %j', (_, steps, preheat, heated) => {
    const result = placed(loaf(steps), 'ready', '2026-03-14 08:00');
    expect(stepOf(result, preheat).endMs).toBe(stepOf(result, heated).startMs);
  });

  test('the steps around it follow one another as if it were not there', () => {
    const result = placed(loaf('shape 5 min\npreheat 1 h\nbake 30 min'), 'ready', '2026-03-14 08:00');
    expect(plan(result)).toEqual(['Sat 06:30-07:30 method/preheat', 'Sat 07:25-07:30 method/shape *', 'Sat 07:30-08:00 method/bake']);
    expect(result.startMs).toBe(stepOf(result, 'method/preheat').startMs);
  });

  test('with nothing to heat for, it is a step like any other', () => {
    const result = placed(loaf('preheat 30 min\nproof 1 h'), 'ready', '2026-03-14 08:00');
    expect(endOf(result, 'method/preheat')).toBe('07:00');
  });
});

describe('what nobody wrote', () => {
  test.each(STEP_KINDS.filter((kind) => kind !== 'do'))('%s without a time takes its default, marked as assumed', (kind) => {
    const step = stepOf(placed(loaf(kind), 'ready', '2026-03-14 08:00'), `method/${kind.replaceAll(' ', '-')}`);
    const { minutes, handsOn } = STEP_DEFAULTS[kind];
    expect(step).toMatchObject({ assumed: true, handsOn, lowMinutes: minutes, highMinutes: minutes });
    expect(step.endMs - step.startMs).toBe(minutes * 60_000);
    expect(minutes).toBeGreaterThan(0);
  });

  test('the words of do are its label', () => {
    const result = placed(loaf('do "turn the trays" 10 min\ndo "brush off the flour"'), 'ready', '2026-03-14 08:00');
    expect(stepOf(result, 'method/do')).toMatchObject({ label: 'turn the trays', assumed: false, handsOn: true });
    expect(stepOf(result, 'method/do-2')).toMatchObject({ label: 'brush off the flour', assumed: true });
  });

  test('attended and unattended go before the kind', () => {
    const result = placed(loaf('boil 20 min, unattended\nbake 20 min, attended'), 'ready', '2026-03-14 08:00');
    expect([stepOf(result, 'method/boil').handsOn, stepOf(result, 'method/bake').handsOn]).toEqual([false, true]);
  });

  test('a part of nothing but steps is not put together', () => {
    const result = placed(loaf('mix 10 min', 'part "bannetons"\n  rest 10 min\n'), 'ready', '2026-03-14 08:00');
    expect(result.steps.map(({ id }) => id)).toEqual(['bannetons/rest', 'method/mix']);
  });
});

describe('how warm it is', () => {
  const ambient = (step: string, head = '  room 21 C\n  fridge 5 C\n'): number | null =>
    placed(loaf(step).replace('"Stall loaf"\n', `"Stall loaf"\n${head}`), 'ready', '2026-03-14 08:00').steps[0]!.ambientCelsius;

  test.each([
    ['bulk 3 h at 26 C', 26],
    ['bulk 3 h at 24 to 26 C', 25],
    ['bulk 3 h', 21],
    ['bulk 3 h at room', 21],
    ['proof 8 h at fridge', 5],
    ['retard 12 h', 5],
    ['chill 1 h', 5],
    ['freeze 1 h', null],
    ['bake 30 min', null],
    ['preheat 30 min', null],
  ])('%s', (step, celsius) => {
    expect(ambient(step)).toBe(celsius);
  });

  test('nothing is known where nothing is said', () => {
    expect([ambient('bulk 3 h', ''), ambient('retard 12 h', ''), ambient('bulk 3 h at room', '')]).toEqual([null, null, null]);
  });

  test('a part is as warm as it wants to be', () => {
    const text = loaf('mix 10 min', 'levain at 27 C\n  60 g rye flour\n  60 g water\n  12 g starter\n  ripen 6 h\n').replace('  10 g  salt', '  all levain');
    expect(stepOf(placed(text, 'ready', '2026-03-14 08:00'), 'levain/ripen').ambientCelsius).toBe(27);
  });
});

describe('a change of summer time', () => {
  test.each([
    ['Europe/Lisbon', 'forward', '2026-03-29 10:00', '21:00'],
    ['Europe/Lisbon', 'back', '2026-10-25 10:00', '23:00'],
    ['America/New_York', 'forward', '2026-03-08 10:00', '21:00'],
    ['America/New_York', 'back', '2026-11-01 10:00', '23:00'],
    ['Australia/Lord_Howe', 'forward', '2026-10-04 10:00', '21:30'],
    ['Australia/Lord_Howe', 'back', '2026-04-05 10:00', '22:30'],
    ['Asia/Tokyo', 'nowhere', '2026-03-29 10:00', '22:00'],
  ])('in %s, clocks going %s, a 12 h retard stays 12 h', (zone, _, ready, start) => {
    const result = placed(loaf('retard 12 h'), 'ready', ready, zone);
    const retard = stepOf(result, 'method/retard');
    expect(retard.endMs - retard.startMs).toBe(12 * HOUR_MS);
    expect([startOf(result, 'method/retard'), endOf(result, 'method/retard')]).toEqual([start, '10:00']);
  });

  test('forward over the night too', () => {
    expect(endOf(placed(loaf('retard 12 h'), 'start', '2026-03-28 20:00', 'Europe/Lisbon'), 'method/retard')).toBe('09:00');
    expect(endOf(placed(loaf('retard 12 h'), 'start', '2026-10-24 20:00', 'Europe/Lisbon'), 'method/retard')).toBe('07:00');
  });
});

describe('ids', () => {
  test('stay apart when parts share a name, or are called as the method is', () => {
    const part = (head: string): string => `${head}\n  50 g sugar\n  50 g butter\n  mix 5 min\n\n`;
    const result = placed(loaf('mix 10 min\nbake 30 min', part('filling "cream"') + part('topping "cream"') + part('topping "method"')), 'ready', '2026-03-14 08:00');
    expect(result.steps.map(({ id }) => id).sort()).toEqual(['cream-2/mix', 'cream/mix', 'method-2/mix', 'method/bake', 'method/mix']);
  });

  test('are words, in any script', () => {
    const result = placed(loaf('mix 10 min\nbake 30 min', 'topping "Côco / açúcar 漢"\n  50 g sugar\n  stretch and fold 5 min\n'), 'ready', '2026-03-14 08:00');
    expect(result.steps.map(({ id }) => id)).toContain('côco-açúcar-漢/stretch-and-fold');
  });
});

describe('what cannot be placed', () => {
  test('no steps at all', () => {
    expect(timeline('formula "Bare"\n\ndough\n  500 g bread flour\n  300 g water\n', 'ready', '2026-03-14 08:00')).toEqual({ kind: 'empty' });
    expect(timeline('formula "Bare"\n\ndough\n  500 g bread flour\n  300 g water\n\nsteps\n', 'ready', '2026-03-14 08:00')).toEqual({ kind: 'empty' });
  });

  test('a variant whose base is not there', () => {
    const result = conflict('formula "Apricot rye"\n  based on "Fig and walnut rye"\n  swap walnuts for pistachios\n');
    expect(result.message).toBe('The formula that this one is based on is not to be found, so its steps are not known.');
    expect(result.facts.map(({ text }) => text)).toEqual(['based on "Fig and walnut rye"', 'swap walnuts for pistachios']);
  });

  test('parts that wait for one another', () => {
    const parts = 'levain "one"\n  50 g rye flour\n  all two\n  ripen 2 h\n\nlevain "two"\n  50 g rye flour\n  all one\n  ripen 2 h\n';
    const result = conflict(loaf('mix 10 min', parts).replace('  10 g  salt', '  all one'));
    expect(result.message).toBe('These parts wait for one another, so none of them can begin first.');
    // Not the dough's line: the dough waits for the circle but is no part of it.
    expect(result.facts.map(({ text }) => text).sort()).toEqual(['one in two', 'two in one']);
  });

  test('parts that wait for one another without a step of their own', () => {
    const parts = 'part "one"\n  50 g sugar\n  all two\n\npart "two"\n  50 g sugar\n  all one\n';
    expect(conflict(loaf('mix 10 min', parts)).facts.map(({ text }) => text).sort()).toEqual(['one in two', 'two in one']);
  });

  test('parts whose steps add one another', () => {
    const parts = 'part "one"\n  50 g sugar\n  mix 5 min, add two\n\npart "two"\n  50 g butter\n  mix 5 min, add one\n';
    expect(conflict(loaf('mix 10 min', parts)).facts.map(({ text }) => text)).toEqual(['mix 5 min', 'mix 5 min']);
  });

  test('a part that is not there', () => {
    const result = conflict(loaf('mix 10 min').replace('  10 g  salt', '  all levain'));
    expect(result.message).toBe('No part is called "levain", so the time it needs cannot be planned.');
    expect(result.facts).toHaveLength(1);
  });

  test('a step that adds what is nowhere', () => {
    const text = loaf('mix 10 min\nbulk 2 h\n  fold 5 min at 30 min, add raisins');
    const result = conflict(text);
    expect(result.message).toBe('The fold 5 min adds "raisins", but no part and no ingredient of this formula is called that.');
    expect(result.facts[0]).toMatchObject({ text: 'fold 5 min', place: formulaOf(text).method[1]!.children[0]!.place });
  });

  test.each(['walnuts', 'walnut', 'salt and walnuts', 'remaining water', 'everything', 'Walnuts'])('but %s is there', (name) => {
    expect(placed(loaf(`mix 10 min\nmix 5 min, add ${name}`), 'ready', '2026-03-14 08:00').steps).toHaveLength(2);
  });

  test('folds without number', () => {
    const result = conflict(loaf('bulk 10 h\n  fold every 1 min'));
    expect(result.message).toBe('The fold comes round more than 100 times in the bulk. Give it a longer interval or fewer times.');
    expect(result.facts.map(({ text }) => text)).toEqual(['bulk 10 h', 'fold']);
    expect(conflict(loaf('bulk 3 h\n  fold every 1 min, 1000000000 times')).facts).toHaveLength(2);
  });

  test('steps inside steps inside steps', () => {
    expect(placed(loaf('bulk 3 h\n  fold at 1 h\n    rest 5 min'), 'start', '2026-03-14 08:00').steps).toHaveLength(3);
    expect(conflict(loaf('bulk 3 h\n  fold at 1 h\n    rest 5 min\n      fold')).message).toContain('too deep inside one another');
  });

  test('a length that no calendar holds', () => {
    const result = conflict(loaf('mix 10 min\nretard 100000 d'));
    expect(result.message).toBe('The retard is longer than ten years. Check its unit.');
    expect(result.facts.map(({ text }) => text)).toEqual(['retard 100000 d']);
  });

  test('a zone or a moment that does not exist', () => {
    const formula = formulaOf(loaf('mix 10 min'));
    const at = (epochMs: number, zone: string) => timelineOf(formula, { anchor: { kind: 'ready', epochMs }, zone });
    expect(at(0, 'Lisbon')).toEqual({ kind: 'conflict', message: 'There is no time zone "Lisbon". Did you mean Europe/Lisbon?', facts: [], waysOut: [] });
    expect(at(NaN, 'Europe/Lisbon').kind).toBe('conflict');
    expect(at(8.64e15, 'Europe/Lisbon').kind).toBe('conflict');
    expect(at(0, 'europe/lisbon')).toMatchObject({ kind: 'placed', zone: 'Europe/Lisbon' });
  });
});
