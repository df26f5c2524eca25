import { describe, expect, it } from 'vitest';
import { hoverAt } from '../../server/features/hover';
import { marked, RYE, textIn } from './marked';

async function hover(source: string, others?: Record<string, string>) {
  const { file, offset } = await marked(source, others);
  const found = hoverAt(file, offset);
  if (found === undefined) return undefined;
  const { contents, range } = found;
  if (typeof contents !== 'object' || !('value' in contents)) throw new Error('a hover is Markdown');
  return { text: contents.value, over: textIn(file.text, range!) };
}

const rye = (before: string, after = '') => RYE.replace(before + after, `${before}┆${after}`);

describe('hover', () => {
  it('on a formula gives its totals in plain words', async () => {
    const found = await hover(rye('form', 'ula'));
    expect(found?.over).toBe('formula');
    // 700 + 180 + 60 + half of 12 g of starter = 946 g of flour; 600 + 60 + 6 = 666 g of water; the soaker's 40 g are shown apart.
    expect(found?.text).toContain('| flour | 946 g |');
    expect(found?.text).toContain('| hydration | 70.4 % |');
    expect(found?.text).toContain('| water in all, soakers too | 74.6 % |');
    expect(found?.text).toContain('| salt | 1.9 % |');
    expect(found?.text).toContain('| each of the 2 loaves | 970 g, baked 854 g |');
    expect((await hover(rye('Fig and ', 'walnut')))?.over).toBe('Fig and walnut rye');
  });

  it('on a part says what it is and what goes into it', async () => {
    const found = await hover(rye('lev', 'ain\n  60'));
    expect(found?.text).toContain('sourdough preferment');
    expect(found?.text).toContain('| goes in | 132 g |');
    expect(found?.text).toContain('| hydration of that | 100 % |');
    expect((await hover(rye('soa', 'ker')))?.text).toContain('| goes in | 190 g |');
    expect((await hover(rye('all       lev', 'ain')))?.text).toContain('| goes in | 132 g |');
  });

  it('on an amount gives grams, and per cent of what', async () => {
    const found = await hover(rye('60', '0 g'));
    expect(found?.over).toBe('600 g');
    expect(found?.text).toContain('**600 g**, 68.2 % of the 880 g of flour in dough');
    expect(found?.text).toContain('63.4 % of all the flour in the formula');
    expect((await hover('dough\n  500 g bread flour\n  7┆2 % water\n'))?.text).toBe('**360 g**, 72 % of the 500 g of flour in dough');
    expect((await hover('soaker "s"\n  60 g sesame seeds\n  6┆0 g water\n'))?.text).toContain('50 % of the 120 g of everything in s');
  });

  it('on a line of a total formula counts all parts', async () => {
    const found = await hover(`formula "T"
  makes 1000 g

poolish
  100 % bread flour
  100 % water
  0.2 % instant yeast

total formula
  100 % bread flour
  7┆0 % water
  2 % salt
  0.5 % instant yeast
  20 % of flour in poolish
`);
    // 172.5 parts in 1000 g: 405.8 g of water, of which the poolish holds 20 % of the flour's weight, 115.9 g.
    expect(found?.text).toContain('**406 g**, 70 % of all the flour');
    expect(found?.text).toContain('290 g of it is weighed into the final dough');
  });

  it('on an ingredient gives composition, allergens and source', async () => {
    const found = await hover(rye('bread fl', 'our'));
    expect(found?.over).toBe('bread flour');
    expect(found?.text).toMatch(/\| protein \| 12 g \|/);
    expect(found?.text).toContain('wheat');
    expect(found?.text).toContain('Source:');
    expect((await hover(rye('12 g      start', 'er')))?.text).toContain('of 100 g, 50 g count as flour');
    const unknown = await hover('dough\n  100 g bred flo┆ur\n');
    expect(unknown?.text).toContain('`bread flour`');
    expect(unknown?.text).toContain('ingredient "bred flour"');
  });

  it('never takes text of the file for markup', async () => {
    const found = await hover('formula "a | <b> [x](y) *z*┆"\n\ndough\n  100 g bread flour\n');
    expect(found?.text).toContain('a \\| \\<b\\> \\[x\\]\\(y\\) \\*z\\*');
  });

  it('on a step gives its meaning, its length, and both scales', async () => {
    expect((await hover(rye('ret', 'ard')))?.text).toMatch(/^A slow rise in the fridge\.\n\n10 h to 16 h at 4 C \(39\.2 F\)\n\n/);
    expect(await hover(rye('until core 9', '7 C'))).toEqual({ text: '97 C (206.6 F)\n\nUntil the middle has this temperature.', over: 'until core 97 C' });
    expect((await hover(rye('lid ', 'on')))?.text).toBe('With the lid on the pot.');
    expect((await hover(rye('add ha', 'lf of')))?.text).toBe('What goes in at this step, or how much of it.');
    expect((await hover(rye('10 to ', '16 h')))?.text).toMatch(/^10 h to 16 h\n\n/);
    expect((await hover(rye('2', '5 min at 240 C')))?.text).toBe('25 min');
  });

  it('on a temperature that is a word says what the formula says', async () => {
    expect((await hover('formula "A"\n  room 21 C\n\nlevain\n  10 g water at ro┆om\n'))?.text).toContain('room: 21 C (69.8 F)');
    expect((await hover('formula "A"\n\nlevain\n  10 g water at ro┆om\n'))?.text).toContain('`room 22 C`');
  });

  it('on a property quotes the language', async () => {
    expect((await hover(rye('los', 'es')))?.text).toContain('loses 12 % in the oven');
    expect((await hover('record 2026-03-14\n  ro┆om 21 C\n'))?.text).toContain('room');
    expect((await hover('plan "P"\n  fri┆dge holds 12 loaves\n'))?.text).toContain('fridge holds 12 loaves');
  });

  it('on a used file lists what it brings', async () => {
    const found = await hover('use "pan┆try.bake"\n', { 'pantry.bake': 'ingredient "mill flour"\n  like bread flour\n' });
    expect(found?.text).toContain('- ingredient `mill flour`');
  });

  it('says nothing in comments, blank lines and notes', async () => {
    for (const source of ['# a com┆ment\ndough\n', 'dough\n\n┆\n', 'dough\n  100 g water, warm ┆one\n', '┆']) expect(await hover(source)).toBeUndefined();
  });
});

describe('hover on what the arithmetic says', () => {
  it('of a formula and its dough: the water to use, the allergens', async () => {
    const whole = (await hover(rye('form', 'ula')))?.text;
    expect(whole).toMatch(/\*\*Dough temperature\*\* {2}\nwater to use: \d+ °C \\\(\d+ °F\\\) by heat balance; the factor rule/);
    expect(whole).toContain('EU: cereals containing gluten \\(rye, wheat\\), nuts \\(walnut\\)');
    expect((await hover(rye('dou', 'gh at 25 C')))?.text).toContain('water to use');
    expect((await hover(rye('dough at 2', '5 C')))?.text).toMatch(/^25 C \(77 F\)\n\nThe temperature wanted after mixing\.\n\n\*\*Dough temperature\*\*/);
  });

  it('of water with a temperature: the dough that comes out', async () => {
    const stated = RYE.replace('600 g     water', '600 g     water at 20 C');
    const comes = /The dough comes out at [\d.\\]+ °C .* by heat balance, .*with the water as written; wanted 25 °C/;
    expect((await hover(stated.replace('water at 20 C', 'water at 2┆0 C')))?.text).toMatch(comes);
    expect((await hover(stated.replace('water at 20 C', 'wa┆ter at 20 C')))?.text).toMatch(comes);
    expect((await hover(stated.replace('water at 28 C', 'water at 2┆8 C')))?.text).toBe('28 C (82.4 F)\n\nIts temperature when it goes in.');
  });

  it('of a levain: how ripe it is when it goes in', async () => {
    expect((await hover(rye('lev', 'ain\n  60')))?.text).toMatch(/About ripe when it goes in: it gets 8 h of 24 °C and peaks after [\d hmin]+ to [\d hmin]+\\\. Estimates: watch the dough/);
    expect((await hover(rye('lev', 'ain\n  60').replace('8 h at 24 C', '1 h at 24 C')))?.text).toContain('Not ripe yet when it goes in');
    expect((await hover(rye('soa', 'ker')))?.text).not.toContain('ripe');
  });

  it('of a bulk, a proof, a retard and a ripening: the same at other temperatures, with its range and source', async () => {
    const bulk = (await hover(rye('bu', 'lk ')))?.text ?? '';
    expect(bulk).toContain('As far as 3 h 30 min at 24 °C \\(75 °F\\) it ferments in');
    // At its own temperature it takes what is written, give or take a fifth; colder takes longer.
    expect(bulk).toContain('| 24 °C (75 °F) | 2 h 45 min to 4 h 15 min |');
    const lows = [...bulk.matchAll(/^\| (\d\d) °C .*? \| (?:(\d+) h ?)?(?:(\d+) min)? to/gm)].map(([, , hours = '0', minutes = '0']) => Number(hours) * 60 + Number(minutes));
    expect(lows).toHaveLength(5);
    expect(lows).toEqual([...lows].sort((a, b) => b - a));
    expect(bulk).toContain('Source: cardinal temperature model');
    expect((await hover(rye('rip', 'en')))?.text).toContain('As ripe as after 8 h at 24 °C');
    expect((await hover(rye('ret', 'ard')))?.text).toContain('What the cold adds, its cooling down included, takes');
    const proof = (await hover(RYE.replace('  retard      10 to 16 h at 4 C\n', '  pro┆of       75 to 90 min at 26 C\n')))?.text ?? '';
    expect(proof).toContain('As far as 1 h 15 min to 1 h 30 min at 26 °C \\(79 °F\\) it ferments in');
    expect(proof).toContain('| 20 °C (68 °F) |');
    expect((await hover(rye('coo', 'l        2 h')))?.text).not.toContain('| at |');
  });

  it('of an ingredient: all of its composition, and what is not known of it', async () => {
    const seeds = await hover('ingredient "seed mix"\n  role inclusion\n  water 6 %\n  protein 22 %\n  fat 48 %\n  contains sesame, celery\n\nformula "A"\n\ndough\n  500 g bread flour\n  60 g seed m┆ix\n');
    for (const row of ['| water | 6 g |', '| fat | 48 g |', '| of it saturated | not known |', '| carbohydrate, fibre in it | 24 g |', '| salt | not known |']) expect(seeds?.text).toContain(row);
    expect(seeds?.text).toContain('Allergens, EU: celery and sesame');
    expect(seeds?.text).toContain('Allergens, US: sesame');
  });

  it('of a total that cannot be known: why', async () => {
    const weightless = (await hover(rye('form', 'ula').replace('120 g     walnuts, toasted', '3 tsp     grains of paradise')))?.text;
    expect(weightless).toContain('| dough | not known |');
    expect(weightless).toContain('Not known: 3 tsp grains of paradise has no weight');
    const unheard = (await hover(rye('form', 'ula').replace('120 g     walnuts, toasted', '120 g     moon cheese')))?.text;
    expect(unheard).toContain('Not known of moon cheese: its water, salt, sugar and fat');
    expect((await hover(rye('form', 'ula')))?.text).not.toContain('ot known');
  });
});
