/** The canonical layout. */
import { describe, expect, it } from 'vitest';
import { format, formatBlock, formatBlocks } from '../../grammar';

const WHOLE = `# Our stall, Saturdays
use "pantry.bake"
use "cold/fridge.bake"

formula "Seed and barley loaf"
  makes     3 loaves of 850 g
  style     tin, with seeds
  room      21 C
  friction  4 C
  loses     11 % in the oven

poolish
  120 g     bread flour
  120 g     water at 20 C
  0.3 g     instant yeast
  ripen     12 to 14 h at room

soaker "seeds"
  60 g      sunflower seeds, toasted
  30 g      flax seeds
  110 g     water at 90 C
  rest      1 h

# Barley from the mill by the river.
total formula
  80 %      bread flour
  20 %      barley flour  # accept barley-share: it is a tin loaf
  74 %      water
  2 %       salt
  12 %      of flour in poolish

  all       seeds
  15 g      barley flakes for the top

steps
  mix                6 min, by mixer
  bulk               2 h 30 min at 24 C
    stretch and fold at 30 min, add half of seeds
    fold             at 60 min, add rest of seeds
    # only when it is slack
    coil fold        at 90 min
  shape              10 min
  proof              75 to 90 min at 26 C, until volume 80 %
  preheat            45 min at 235 C
  bake               35 min at 235 C, with steam, until core 96 C
  do                 "turn out of the tins" 5 min
  cool               3 h

formula "Oat and barley loaf"
  based on  "Seed and barley loaf"
  swap      flax seeds for rolled oats in seeds
  set       water to 76 %

record 2026-05-09
  room      19.5 C
  bulk      3 h 10 min, volume 70 %
  weighed   2260 g, 3 loaves, after 2 h
  note      "Warmer water next time."

ingredient "River barley"
  like      barley flour
  water     13 %
  density   0.56 g per ml
  costs     1.90 EUR per kg

dish "Crumb pudding"
  serves    4 to 6
  uses      300 g "Seed and barley loaf", two days old

custard
  4         eggs (220 g)
  1 l       milk
  pinch     nutmeg

plan "Market"
  ready     2026-05-16 07:30 Europe/Lisbon
  asleep    22:30 to 05:00
  oven      holds 6 loaves
  bake      6 loaves of "Seed and barley loaf"
`;

describe('layout', () => {
  it('a file in canonical layout stays as it is', () => {
    expect(format(WHOLE)).toBe(WHOLE);
    expect(formatBlocks(WHOLE).every(({ oldText, newText }) => oldText === newText)).toBe(true);
  });

  it('any other layout of the same file comes to it', () => {
    const loose = WHOLE.replace(/^( +)/gm, (indent) => '\t'.repeat(indent.length / 2)).replace(/ {2,}(?=\S)/g, ' ').replace(/\n\n/g, ' \n\n\n\n');
    expect(format(loose)).toBe(WHOLE);
  });

  it.each([
    ['columns', 'dough\n 700g bread flour\n 1 1/2 tsp salt\n', 'dough\n  700 g     bread flour\n  1 1/2 tsp salt\n'],
    ['units', 'dough\n  2 Cups of milk at 24°C\n  1 kilo flour\n', 'dough\n  2 cups    milk at 24 C\n  1 kg      flour\n'],
    ['times', 'steps\n  bake 25mins at 240 degrees C\n  rest 1h30min\n', 'steps\n  bake      25 min at 240 C\n  rest      1 h 30 min\n'],
    ['number text stays', 'dough\n  ½ tsp salt\n  007 g x\n', 'dough\n  ½ tsp     salt\n  007 g     x\n'],
    ['the order of a step', 'steps\n  bake at 240 C for 25 min, lid on\n', 'steps\n  bake      25 min at 240 C, lid on\n'],
    ['the order of an ingredient', 'dough\n  8 g flour for dusting at room\n', 'dough\n  8 g       flour at room for dusting\n'],
    ['keywords', 'DOUGH AT 25 C\n  All levain\n', 'dough at 25 C\n  all       levain\n'],
    ['a step without a value', 'steps\n  serve,warm\n  mix\n', 'steps\n  serve, warm\n  mix\n'],
    ['quotes', 'formula “Seed «x» rye”\n  note “a "b" c”\n', 'formula "Seed «x» rye"\n  note      “a "b" c”\n'],
    ['a bracket behind what is counted', 'dish "x"\n  uses 8  slices (360g) of "y"\n', 'dish "x"\n  uses      8 slices (360 g) of "y"\n'],
    ['a pinch', 'dough\n  a pinch of salt\n', 'dough\n  pinch     salt\n'],
    ['one blank line at most', 'dough\n\n\n  5 g salt\n\n\n\n  6 g yeast\n\n\n', 'dough\n\n  5 g       salt\n\n  6 g       yeast\n'],
    ['blocks apart', 'levain\n  5 g salt\ndough\n', 'levain\n  5 g       salt\n\ndough\n'],
    ['use together or apart', 'use "a.bake"\nuse "b.bake"\n\n\nuse "c.bake"\ndough', 'use "a.bake"\nuse "b.bake"\n\nuse "c.bake"\n\ndough\n'],
    ['comments', 'dough  # a\n  5 g salt# b  \n# c\n  6 g yeast\n # d\n# e\n', 'dough  # a\n  5 g       salt  # b\n  # c\n  6 g       yeast\n  # d\n# e\n'],
    ['line ends by majority', 'dough\r\n  5 g salt\r\n\n', 'dough\r\n  5 g       salt\r\n'],
    ['no byte-order mark', '\ufeffdough\n', 'dough\n'],
    ['an empty file', '', ''],
    ['only blank lines', '\n \n', ''],
    ['only a comment', '\n# x', '# x\n'],
    ['minus', 'steps\n  freeze 2 h at −18 °C\n', 'steps\n  freeze    2 h at -18 C\n'],
  ])('%s', (_, typed, formatted) => {
    expect(format(typed)).toBe(formatted);
  });
});

describe('what is not understood stays as it was typed', () => {
  it.each([
    ['a bad line', 'dough\n  700 g flour\n   what   is  this?  # x\n', 'dough\n  700 g     flour\n  what   is  this?  # x\n'],
    ['the tail of a line', 'dough\n  700 g flour "a"  b\n', 'dough\n  700 g     flour "a"  b\n'],
    ['an unknown block', 'formla "x"\n\t700   g flour\n      # y\n', 'formla "x"\n\t700   g flour\n      # y\n'],
    ['lines before the first block', '   700 g flour\ndough\n', '   700 g flour\n\ndough\n'],
    ['a name without its quotes', 'dough\n  700 g T65   flour\n', 'dough\n  700 g     T65   flour\n'],
  ])('%s', (_, typed, formatted) => {
    expect(format(typed)).toBe(formatted);
  });
});

describe('block by block', () => {
  it('only what differs is to be changed', () => {
    const typed = 'levain\n  60 g      water\n\ndough\n 5 g salt\n';
    expect(formatBlocks(typed).map(({ offset, oldText, newText }) => [offset, oldText === newText])).toEqual([[0, true], [25, false]]);
  });

  it('one block', () => {
    expect(formatBlock('dough\n 5 g salt')).toBe('dough\n  5 g       salt\n');
    expect(formatBlock('dough\nsteps')).toBe('dough\nsteps');
  });
});
