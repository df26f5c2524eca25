import { describe, expect, test } from 'vitest';
import { plain } from '../../server/output/paint';
import { amountsByStep } from '../../server/output/schedule-amounts';
import { benchText } from '../../server/output/schedule-bench';
import { widthOf } from '../../server/output/width';
import { scheduledFor } from './from-text';

const FIG = `
formula "Fig and walnut rye"
  makes     2 loaves of 970 g
  room      23 C

levain
  60 g      dark rye flour
  60 g      water at 28 C
  12 g      starter
  ripen     8 h at 24 C

filling "figs"
  200 g     dried figs
  60 g      water
  boil      5 min, add water

dough at 25 C
  880 g     bread flour
  600 g     water
  all       levain
  18 g      salt
  120 g     walnuts
  40 g      walnut oil
  20 g      rice flour for dusting

steps
  autolyse    30 min
  mix         8 min, by hand
  bulk        3 h 30 min at 24 C
    fold      at 30 min, add 1/3 of walnuts
    fold      at 60 min, add 30 g of walnuts
    fold      at 90 min, add rest of walnuts, add walnut oil
  fill        10 min, add figs
  retard      10 h at 4 C
  preheat     60 min at 240 C
  bake        25 min at 240 C, lid on
  bake        20 min at 215 C, lid off, with steam, until core 97 C
  cool        2 h
`;

describe('the method for the bench', () => {
  test('a box a step, what goes in, when it comes out, and what to mind', () => {
    expect(`\n${benchText(scheduledFor(FIG, 'ready', '2026-03-14 08:00'))}`).toMatchInlineSnapshot(`
      "
      Fig and walnut rye
      start  Fri 13 March 2026, 07:22
      ready  Sat 14 March 2026, 08:00   (Europe/Lisbon)
      besides the dough: 20 g rice flour for dusting

      Fri 13 March 2026
      [ ]  07:22   levain   mix the levain, ~5 min
                            60 g dark rye flour, 60 g water at 28 °C, 12 g starter
      [ ]  07:27   levain   ripen at 24 °C, 8 h, until 15:27
      [ ]  14:57   dough    autolyse, 30 min, until 15:27
                            880 g bread flour, 600 g water
      [ ]  15:27   dough    mix, by hand, 8 min
                            132 g levain, 18 g salt
      [ ]  15:35   dough    bulk at 24 °C, 3 h 30 min, until 19:05
      [ ]  16:05   dough    fold, add 1/3 of walnuts, ~5 min
                            40 g walnuts
      [ ]  16:35   dough    fold, add 30 g of walnuts, ~5 min
                            30 g walnuts
      [ ]  17:05   dough    fold, add rest of walnuts, add walnut oil, ~5 min
                            50 g walnuts, 40 g walnut oil
      [ ]  19:00   figs     boil, add water, 5 min
                            200 g dried figs, 60 g water
                            ! Lower the pieces into boiling water, do not drop them, and stay with the
                              pot.
      [ ]  19:05   dough    fill, add figs, 10 min
                            260 g figs
      [ ]  19:15   dough    retard at 4 °C, into the fridge, 10 h, until 05:15 Sat

      Sat 14 March 2026
      [ ]  04:15   dough    preheat at 240 °C (465 °F), oven on, 1 h, until 05:15
      [ ]  05:15   dough    retard: out of the fridge
      [ ]  05:15   dough    bake at 240 °C (465 °F), lid on, into the oven, 25 min, until 05:40
                            ! The pot and its lid are as hot as the oven: dry gloves, lift the lid away
                              from you, and leave a glove on the lid afterwards.
      [ ]  05:40   dough    bake at 215 °C (420 °F), lid off, with steam, until core 97 C, 20 min, until
                            06:00
                            ! Steam burns worse than hot air: open the oven away from face and arms, in
                              dry gloves.
      [ ]  06:00   dough    bake: out of the oven
      [ ]  06:00   dough    cool, 2 h, until 08:00

      ! Flour is raw food. Do not taste raw dough, batter or starter, and wash hands and tools after
        them.
      These are reminders from public guidance. Local food rules come first.
      "
    `);
  });

  test('keeps to its width', () => {
    const text = benchText(scheduledFor(FIG, 'ready', '2026-03-14 08:00'), { width: 70, paint: plain });
    for (const line of text.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(70);
  });

  test('where nothing can be placed it says why, as ever', () => {
    expect(benchText(scheduledFor('formula "X"\n', 'ready', '2026-03-14 08:00'))).toBe('X\nNo steps to place: write a "steps" block.\n');
  });
});

describe('what goes in at a step', () => {
  const amounts = (text: string) => {
    const { entry, timeline } = scheduledFor(text, 'ready', '2026-03-14 08:00');
    if (timeline.kind !== 'placed') throw new Error('not placed');
    return Object.fromEntries(amountsByStep(entry.formula, timeline.steps));
  };

  test('portions come to the whole; what no step adds goes in at the mixing', () => {
    expect(amounts('dough\n  500 g bread flour\n  350 g water at 20 C\n  90 g raisins\n\nsteps\n  mix 5 min\n  bulk 2 h\n    fold at 20 min, add half of raisins\n    fold at 40 min, add 40 % of raisins\n    fold at 60 min, add rest of raisins\n')).toEqual({
      'method/mix': ['500 g bread flour', '350 g water at 20 °C'],
      'method/bulk/fold': ['45 g raisins'], 'method/bulk/fold-2': ['36 g raisins'], 'method/bulk/fold-3': ['9 g raisins'],
    });
  });

  test('a weight that cannot be known is a dash, never nothing', () => {
    expect(amounts('dough\n  500 g bread flour\n  2 cups moon dust\n\nsteps\n  mix 5 min\n  knead 5 min, add half of moon dust\n')).toEqual({
      'method/mix': ['500 g bread flour'], 'method/knead': ['– moon dust'],
    });
  });

  test('a method that never mixes takes all in at its first step', () => {
    expect(amounts('dough\n  500 g bread flour\n\nsteps\n  do "stir" 5 min\n  bake 40 min at 200 C\n')).toEqual({ 'method/do': ['500 g bread flour'] });
  });
});
