/** Slips of the pen, and what a baker is told of each: one finding that names the slip, and nothing that follows from it. */
import { describe, expect, test } from 'vitest';
import { findingsIn } from '../bake';

const PLAIN = '  1000 g bread flour\n  700 g water\n  20 g salt\n  5 g instant yeast\n';
const formula = ({ head = '', dough = PLAIN, steps = '  mix 8 min\n', before = '' }: { head?: string; dough?: string; steps?: string; before?: string }) =>
  `formula "Country loaf"\n${head}\n${before}dough\n${dough}\nsteps\n${steps}`;
const said = (text: string) => findingsIn(text).map(({ code, text: at, message }) => `${code} at ${at}: ${message}`);

describe('amounts', () => {
  test.each([
    ['kilograms of salt', '  1000 g bread flour\n  700 g water\n  18 kg salt\n', 'unit-slip at 18 kg: 18 kg of “salt” cannot be meant beside 1700 g of everything else in “dough”: the dough would be hardly anything but salt. Is it g instead of kg?'],
    ['kilograms of yeast', '  1000 g bread flour\n  700 g water\n  20 g salt\n  7 kg instant yeast\n', 'unit-slip at 7 kg: 7 kg of “instant yeast” cannot be meant beside 1720 g of everything else in “dough”: the dough would be hardly anything but instant yeast. Is it g instead of kg?'],
    ['milligrams of flour', '  700 mg bread flour\n  500 g water\n  14 g salt\n', 'unit-slip at 700 mg: 700 mg of “bread flour” cannot be meant beside 514 g of everything else in “dough”: the dough would be without any bread flour. Is it g instead of mg?'],
    ['kilograms of water', '  1000 g bread flour\n  700 kg water\n  20 g salt\n', 'unit-slip at 700 kg: 700 kg of “water” cannot be meant beside 1020 g of everything else in “dough”: the dough would be hardly anything but water. Is it g instead of kg?'],
    ['pounds of salt', '  60 oz bread flour\n  40 oz water\n  1.2 lb salt\n', 'salt-high at 1.2 lb: Salt is 32 % of the flour, over 2.5 %. The dough will hardly rise and the bread will be too salty to eat: is a decimal point in the wrong place?'],
  ])('%s', (_what, dough, expected) => {
    expect(said(formula({ dough }))).toEqual([expected]);
  });

  test('a large dough in kilograms is no slip', () => {
    expect(said(formula({ dough: '  25 kg bread flour\n  17 kg water\n  500 g salt\n  100 g instant yeast\n  1 kg rye flour\n' }))).toEqual([]);
  });

  test('no flour at all: a line of nothing, and what that makes of the dough', () => {
    expect(said(formula({ dough: '  0 g bread flour\n  700 g water\n  20 g salt\n' })).map((one) => one.split(' at ')[0])).toEqual(['no-flour', 'amount-zero']);
  });

  test('soup and powder, each once', () => {
    const codes = (water: string) => findingsIn(formula({ dough: PLAIN.replace('700 g', water) })).map(({ code }) => code);
    expect(codes('70000 g')).toEqual(['hydration-impossible']);
    expect(codes('70 g')).toEqual(['hydration-impossible']);
    expect(codes('1000 g')).toEqual(['hydration-high']);
    expect(codes('450 g')).toEqual(['hydration-low']);
  });

  test('a word behind the comma that is a note stays one', () => {
    expect(said(formula({ head: '  style with inclusions\n', dough: `${PLAIN}  100 g walnuts, toasted\n  30 g butter, melted\n  60 g raisins, golden and plump\n` }))).toEqual([]);
  });
});

describe('temperatures', () => {
  test.each([
    ['  bulk 2 h at -300 C\n', 'temperature-odd at -300 C: Nothing is as cold as -300 C: absolute zero is at -273 C. Correct the number.'],
    ['  bulk 2 h at 240 C\n', 'temperature-odd at 240 C: For a bulk, 240 C cannot be meant (50 C at most). That is an oven: does it belong to a `bake` step?'],
    ['  retard 12 h at 40 C\n', 'temperature-odd at 40 C: For a retard, 40 C cannot be meant (25 C at most). Is it meant in Fahrenheit?'],
    ['  preheat 40 min at 240 C\n  bake 40 min at 900 C\n', 'oven-temperature-odd at 900 C: 900 C is hotter than ovens go (320 C at most where no style is written). Is there a digit too many?'],
  ])('%s', (steps, expected) => {
    expect(said(formula({ steps: `  mix 8 min\n${steps}` }))).toEqual([expected]);
  });

  test('a room at 200 C, and a fridge as warm as the room', () => {
    expect(said(formula({ head: '  room 200 C\n' }))).toEqual([
      'room-odd at 200 C: A room of 200 C cannot be meant (-5 C to 45 C is possible). Correct it, or every time and water temperature will be wrong.',
    ]);
    expect(said(formula({ head: '  fridge 39 C\n' }))).toEqual(['room-odd at 39 C: A fridge of 39 C cannot be meant (-6 C to 15 C is possible). Is it meant in Fahrenheit?']);
  });

  test('boiling water has its place in a soaker, and not above 100 C', () => {
    const soaker = (heat: string) => formula({ before: `soaker "oats"\n  100 g rolled oats\n  150 g water at ${heat}\n  rest 1 h\n\n`, dough: `${PLAIN}  all oats\n` });
    expect(said(soaker('100 C'))).toEqual([]);
    expect(said(soaker('212 C'))).toEqual(['temperature-odd at 212 C: For water, 212 C cannot be meant (100 C at most). Is it meant in Fahrenheit?']);
  });
});

describe('the core at a height', () => {
  const bake = (head: string, core: string) => findingsIn(formula({ head: `  style hearth\n${head}`, steps: `  preheat 45 min at 240 C\n  bake 40 min at 230 C, until core ${core}\n` })).map(({ code }) => code);

  test('93 C is the least for a hearth loaf by the sea, and less where water boils sooner', () => {
    expect(bake('', '92 C')).toEqual(['core-low']);
    expect(bake('', '93 C')).toEqual([]);
    expect(bake('  altitude 1500 m\n', '89 C')).toEqual([]);
    expect(bake('  altitude 1500 m\n', '86 C')).toEqual(['core-low']);
  });

  test('no core gets to the boiling point', () => {
    expect(bake('', '99 C')).toEqual([]);
    expect(bake('', '100 C')).toEqual(['core-never-reached']);
    expect(bake('  altitude 1500 m\n', '95 C')).toEqual(['core-never-reached']);
  });
});

describe('rising', () => {
  const levain = (hours: string) => `levain\n  100 g bread flour\n  100 g water\n  20 g starter\n  ripen ${hours} at 24 C\n\n`;
  const dough = '  900 g bread flour\n  600 g water\n  all levain\n  20 g salt\n';
  const codes = (hours: string, bulk: string) =>
    findingsIn(formula({ before: levain(hours), dough, steps: `  mix 8 min\n  bulk ${bulk} at 24 C\n  preheat 45 min at 240 C\n  bake 45 min at 230 C\n` }).replace('dough\n', 'dough at 24 C\n')).map(({ code }) => code);

  test('a levain and its dough, each from too little to too much time', () => {
    expect(codes('7 h', '6 h')).toEqual([]);
    expect(codes('2 h', '6 h')).toEqual(['levain-not-ripe']);
    expect(codes('20 h', '6 h')).toEqual(['levain-past-peak']);
    expect(codes('7 h', '45 min')).toEqual(['rise-too-short']);
    expect(codes('7 h', '30 h')).toEqual(['rise-too-long']);
  });

  test('levain and yeast together: nobody has published a pace, and nothing is said', () => {
    const both = formula({ before: levain('7 h'), dough: `${dough}  5 g instant yeast\n`, steps: '  mix 8 min\n  bulk 10 min at 24 C\n  preheat 45 min at 240 C\n  bake 45 min at 230 C\n' });
    expect(findingsIn(both).map(({ code }) => code)).toEqual([]);
  });
});

describe('safety', () => {
  const custard = (rest: string, head = '  room 23 C\n  fridge 4 C\n') => `dish "Bread pudding"\n${head}\ncustard\n  300 g milk\n  100 g eggs\n  rest ${rest}\n\nsteps\n  preheat 20 min at 170 C\n  bake 40 min at 170 C\n`;

  test('two hours out of the cold, and one where it is hot', () => {
    expect(said(custard('2 h at room'))).toEqual([]);
    expect(findingsIn(custard('2 h 10 min at room')).map(({ code }) => code)).toEqual(['out-of-the-cold']);
    expect(findingsIn(custard('90 min at 34 C')).map(({ code }) => code)).toEqual(['out-of-the-cold']);
    expect(said(custard('12 h at fridge'))).toEqual([]);
  });

  test('what is written of water and glass is told only where they meet', () => {
    const bake = (words: string) => findingsIn(formula({ steps: `  preheat 45 min at 240 C\n  bake 45 min at 230 C, "${words}"\n` })).map(({ code }) => code);
    expect(bake('throw ice into the enamelled tray')).toEqual(['water-on-hot-glass']);
    expect(bake('never pour water into hot glass')).toEqual([]);
    expect(bake('in the enamelled pot')).toEqual([]);
  });
});
