/** Formulas that are based on others: what is in them, and where what is found of them stands. */
import { describe, expect, test } from 'vitest';
import { rescale } from '../../../server/core/scaling/rescale';
import { analyseText, findingsIn, type TextAnalysis } from '../bake';

const RYE = `formula "Rye"
  makes     2 loaves of 964 g
  style     hearth, with inclusions
  room      23 C
  loses     12 % in the oven

levain
  60 g      dark rye flour
  60 g      water at 28 C
  12 g      starter
  ripen     8 h at 24 C

soaker "figs"
  150 g     dried figs, quartered
  40 g      water at 90 C

dough at 25 C
  880 g     bread flour
  600 g     water
  all       levain
  18 g      salt
  120 g     walnuts, toasted
  all       figs
  20 g      rice flour for dusting

steps
  mix         8 min, by hand
  bulk        3 h 30 min at 24 C
    fold      at 60 min, add half of walnuts
    fold      at 90 min, add rest of walnuts, add figs
  shape       10 min
  preheat     60 min at 240 C
  bake        40 min at 240 C, lid on
`;

const variant = (lines: string, name = 'Other', base = 'Rye'): string => `\nformula "${name}"\n  based on  "${base}"\n${lines}`;
const named = (text: string, name: string): TextAnalysis => {
  const found = analyseText(text).find(({ section }) => section.name === name);
  if (found === undefined) throw new Error(`No formula ${name}.`);
  return found;
};
const partOf = (text: string, part: string, name = 'Other'): readonly string[] => (
  named(text, name).formula?.parts.find(({ key }) => key === part)?.lines.map((line) => `${String(line.grams)} ${line.name}`) ?? []
);
const stepsOf = (text: string, name = 'Other'): readonly string[] => {
  const { formula, section } = named(text, name);
  return formula?.method.flatMap((step) => [step, ...step.children]).map(({ place }) => section.blocks[place.block]!.text.slice(place.start, place.end).replace(/\s+/g, ' ')) ?? [];
};
const said = (text: string): readonly string[] => findingsIn(text).map(({ code, text: at }) => `${code} at ${at}`);

describe('what a variant is', () => {
  test('its base, where it says nothing', () => {
    const text = RYE + variant('');
    const { totals, sheet, formula } = named(text, 'Other');
    const base = named(text, 'Rye');
    expect(totals).toEqual(base.totals);
    expect(sheet?.rows.map(({ key, grams }) => [key, grams])).toEqual(base.sheet?.rows.map(({ key, grams }) => [key, grams]));
    expect(formula?.name).toBe('Other');
    expect(formula?.styles.map(({ text: style }) => style)).toEqual(['hearth', 'with inclusions']);
    expect(stepsOf(text)).toEqual(stepsOf(text, 'Rye'));
    expect(said(text)).toEqual([]);
  });

  test('each of its lines changes one thing', () => {
    const text = RYE + variant('  swap      walnuts for pistachios\n  swap      dried figs for dried apricots in figs\n  set       water to 620 g\n  add       10 g orange zest\n  drop      rice flour\n');
    expect(partOf(text, 'dough')).toEqual(['880 bread flour', '620 water', '132 levain', '18 salt', '120 pistachios', '190 figs', '10 orange zest']);
    expect(partOf(text, 'figs')).toEqual(['150 dried apricots', '40 water']);
    expect(stepsOf(text)).toContain('fold at 90 min, add rest of pistachios, add figs');
  });

  test('what it drops is gone from the steps, and a part that nothing takes in with it', () => {
    const text = RYE + variant('  drop      figs\n  drop      walnuts\n');
    expect(named(text, 'Other').formula?.parts.map(({ key }) => key)).toEqual(['levain', 'dough']);
    expect(stepsOf(text)).toContain('fold at 90 min');
  });

  test('its own properties, steps and parts stand in for those of the base', () => {
    const text = RYE + variant('  makes     4 loaves of 482 g\n  loses     2 % at the bench\n\nsoaker "figs"\n  190 g     raisins\n\nfilling\n  50 g      honey\n\nsteps\n  mix       4 min\n');
    const { formula } = named(text, 'Other');
    expect(formula?.yield.pieces).toBe(4);
    expect([formula?.ovenLoss, formula?.benchLoss]).toEqual([0.12, 0.02]);
    expect(formula?.parts.map(({ key }) => key)).toEqual(['levain', 'figs', 'filling', 'dough']);
    expect(partOf(text, 'figs')).toEqual(['190 raisins']);
    expect(stepsOf(text)).toEqual(['mix 4 min']);
  });

  test('a variant of a variant', () => {
    const text = RYE + variant('  swap      walnuts for pistachios\n') + variant('  set       pistachios to 90 g\n  set       walnuts to 100 g\n', 'Third', 'Other');
    expect(partOf(text, 'dough', 'Third')).toContain('90 pistachios');
    expect(said(text)).toContain('change-matches-nothing at walnuts');
  });

  test('swapped and then set, by either name', () => {
    for (const name of ['pistachios', 'walnuts']) {
      expect(partOf(RYE + variant(`  swap      walnuts for pistachios\n  set       ${name} to 90 g\n`), 'dough')).toContain('90 pistachios');
    }
  });

  test('an amount takes the bracket and the word of its old one with it', () => {
    const base = 'formula "Rye"\n\ndough\n  500 g flour\n  4 eggs (220 g), beaten\n  1 cup (240 g) milk\n  2 cups of cream\n  10 g salt\n';
    const text = base + variant('  set eggs to 110 g\n  set milk to 200 g\n  set cream to 100 g\n');
    expect(partOf(text, 'dough')).toEqual(['500 flour', '110 eggs', '200 milk', '100 cream', '10 salt']);
  });

  test('a total formula, and the shares of its preferments', () => {
    const base = 'formula "Rye"\n  makes 1 loaf of 900 g\n\nlevain\n  100 % bread flour\n  100 % water\n  20 % starter\n\ntotal formula\n  100 % bread flour\n  70 % water\n  2 % salt\n  2 % starter\n  15 % of flour in levain\n';
    const text = base + variant('  set water to 75 %\n  set levain to 10 %\n');
    expect(named(text, 'Other').totals?.water_pct).toBeGreaterThan(75);
    expect(named(text, 'Other').totals?.prefermented_flour_pct).toBeCloseTo(10, 1);
  });

  test('records stay with the formula that was baked', () => {
    const text = `${RYE}\nrecord 2026-05-09\n  room 20 C\n${variant('')}`;
    expect(named(text, 'Other').formula?.records).toEqual([]);
  });
});

describe('where what is found stands', () => {
  test('at the line that brings it about', () => {
    expect(said(RYE + variant('  set       salt to 60 g  # very\n'))).toEqual(['makes-disagrees at set       salt to 60 g', 'salt-high at 60 g']);
  });

  test('what several lines may have done is where taking one out would mend it', () => {
    const text = RYE + variant('  add       3 g nutmeg as spice\n  set       water to 900 g\n');
    expect(said(text)).toEqual(['hydration-high at set       water to 900 g', 'makes-disagrees at set       water to 900 g']);
  });

  test('with the line of the base beside it', () => {
    const found = findingsIn(RYE + variant('  set       salt to 60 g\n')).find(({ code }) => code === 'salt-high');
    expect(found?.finding.related.map((one) => 'elsewhere' in one && `${one.elsewhere.text.slice(one.start, one.end)}: ${one.message}`)).toEqual(['18 g: Here in “Rye”.']);
  });

  test('what the base says itself is said there once', () => {
    const salty = RYE.replace('18 g      salt', '60 g      salt').replace('964', '985');
    expect(said(salty + variant('  swap      walnuts for hazelnuts\n'))).toEqual(['salt-high at 60 g']);
  });

  test('a comment accepts it at the line of the variant, and what the base accepts is accepted', () => {
    expect(said(RYE + variant('  makes     2 loaves of 985 g\n  set       salt to 60 g  # accept salt-high: for the crust\n'))).toEqual([]);
    const accepted = RYE.replace('18 g      salt', '60 g      salt # accept salt-high: a trial').replace('964', '985');
    expect(said(accepted + variant(''))).toEqual([]);
    expect(said(RYE + variant('  set       water to 601 g  # accept salt-high: no\n'))).toEqual(['accept-unused at salt-high']);
  });

  test('a fix is written in the lines of the variant', () => {
    const text = RYE + variant('  add       100 g honey\n');
    const found = findingsIn(text).find(({ code }) => code === 'makes-disagrees');
    expect(found?.finding.fixes.map(({ title }) => title)).toEqual(['Correct `makes` to 2 loaves of 1020 g']);
    const after = found!.after(found!.finding.fixes[0]!);
    expect(after).toMatch(/^ {2}based on +"Rye"\n {2}makes {5}2 loaves of 1020 g\n(?: .*\n)* {2}add {7}100 g honey\n/m);
    expect(said(after)).toEqual([]);
  });

  test('the mistakes of a base are told once in each variant, and not at all where it drops the line', () => {
    const broken = RYE.replace('all       figs', 'all       fgs');
    expect(said(broken + variant('')).filter((one) => one.startsWith('base-faulty'))).toEqual(['base-faulty at "Rye"']);
    expect(said(broken + variant('  drop      fgs\n')).filter((one) => one.startsWith('base-faulty'))).toEqual([]);
  });

  test('the last flour dropped', () => {
    const plain = 'formula "Rye"\n\ndough\n  500 g bread flour\n  340 g water\n  10 g salt\n';
    expect(said(plain + variant('  drop bread flour\n'))).toEqual(['no-flour at drop bread flour']);
  });
});

describe('another size', () => {
  const edits = (text: string, pieces: number): string => {
    const { section, formula, totals } = named(text, 'Other');
    const found = rescale({ section, formula: formula!, flourGrams: totals!.flour_g }, { by: 'pieces', pieces });
    return found.kind === 'cannot' ? found.message : found.edits.map(({ newText }) => newText.trim()).join(' | ');
  };
  const shares = 'formula "Rye"\n  makes 2 loaves of 900 g\n\ndough\n  100 % bread flour\n  70 % water\n  2 % salt\n';

  test('is written into the variant where its weights are its own, or all is in shares', () => {
    expect(edits(shares + variant('  set water to 72 %\n'), 6)).toBe('makes 6 loaves of 900 g');
    expect(edits(shares + variant('  makes 4 loaves of 450 g\n'), 6)).toBe('6');
  });

  test('is not where they are the base\'s, and says whose they are', () => {
    expect(edits(RYE + variant(''), 6)).toBe('Its weights stand in "Rye", which it is based on: scale that one, or write this one out in full first.');
  });
});

describe('changes that cannot be made', () => {
  const problems = (lines: string): readonly string[] => findingsIn(RYE + variant(lines)).filter(({ code }) => code.startsWith('change')).map(({ code, text, message, finding }) => `${code} at ${text}: ${message} [${finding.fixes.map(({ title }) => title).join(', ')}]`);

  test.each([
    ['a name that the base has not', '  drop      wallnuts\n', /^change-matches-nothing at wallnuts: .*Did you mean “walnuts”\? \[Write “walnuts”\]$/],
    ['one of another part', '  drop      dried figs\n', /^change-matches-nothing at dried figs: .* It is in “figs”: write `in figs` behind it\. \[Change it in “figs”\]$/],
    ['a part that the base has not', '  set       water to 1 g in poolsh\n', /^change-matches-nothing at poolsh: “Rye” has no part “poolsh”.* The parts of “Rye” are “levain”, “figs” and “dough”\. \[\]$/],
    ['a part of its own', '  set       salt to 1 g\n\ndough\n  5 g salt\n', /^change-matches-nothing at set: The dough is written here in full/],
    ['two of one line', '  set       salt to 17 g\n  set       salt to 19 g\n', /^change-twice at salt: A line above changes “salt” already.* \[Take this line out\]$/],
    ['what is added here', '  add       5 g honey\n  set       honey to 6 g\n', /^change-twice at honey: “honey” is added by a line above/],
    ['a name of several lines', '  swap      flour for spelt flour\n', /^change-unclear at flour: “flour” may mean “bread flour” or “rice flour” in “dough”/],
  ])('%s', (_, lines, expected) => {
    const found = problems(lines);
    expect(found.join('\n')).toMatch(expected);
    expect(found).toHaveLength(1);
  });

  test('the dough only, where other parts have it too', () => {
    const base = 'formula "Rye"\n\nsoaker\n  50 g walnuts\n  50 g water\n\ndough\n  500 g bread flour\n  300 g water\n  10 g salt\n  50 g walnuts\n  all soaker\n';
    const text = base + variant('  swap walnuts for pistachios\n');
    expect(said(text)).toEqual(['change-elsewhere-too at walnuts']);
    expect(said(text.replace('pistachios\n', 'pistachios\n  swap walnuts for pistachios in soaker\n'))).toEqual([]);
  });

  test('a base whose name two formulas have', () => {
    expect(said(RYE + variant('') + RYE).filter((one) => one.startsWith('formula-twice'))).toEqual(['formula-twice at "Rye"', 'formula-twice at "Rye"', 'formula-twice at "Rye"']);
  });

  test('a part that is dropped is no ingredient of another', () => {
    const base = 'formula "Rye"\n\nsoaker "seeds"\n  50 g pumpkin seeds\n  50 g water\n\ndough\n  500 g bread flour\n  300 g water\n  10 g salt\n  all seeds\n';
    expect(said(base + variant('  drop seeds\n'))).toEqual([]);
  });

  test('a base that is not there, or is itself in the end, is all that is said', () => {
    expect(said('formula "A"\n  based on "B"\n  set water to 1 g\n')).toEqual(['formula-missing at "B"']);
    expect(said(variant('', 'A', 'B') + variant('', 'B', 'A'))).toEqual(['base-cycle at "B"', 'base-cycle at "A"']);
    expect(said(variant('  drop salt\n', 'C', 'A') + variant('', 'A', 'A'))).toEqual(['base-cycle at "A"']);
  });
});
