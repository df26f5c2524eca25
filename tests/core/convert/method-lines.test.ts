/** Sentences of a method as people write them, beside the steps that come of them, and what they leave open. */
import { describe, expect, it } from 'vitest';
import { convert } from '../../../server/core/convert/convert';
import { builtInCatalogue } from '../../../server/core/ingredients/catalogue';

function draftOf(text: string): string {
  const converted = convert(text, { catalogue: builtInCatalogue });
  if (converted.kind === 'nothing') throw new Error(converted.message);
  return converted.text;
}

/** The steps without their sentences, and the questions. */
function stepsOf(...method: readonly string[]): readonly string[] {
  const [, steps = ''] = draftOf(['Loaf', '500 g flour', '', 'Method', ...method].join('\n')).split('\nsteps\n');
  return steps.trimEnd().split('\n').map((line) => line.replace(/"[^"]*"/, '"…"').replace(/, "…"/, '').replace(/ {2,}/g, ' ').trim());
}

describe('how hot each stretch of a bake is', () => {
  it.each([
    ['Bake at 240 C for 15 min, then 25 min at 210 C.', ['bake 15 min at 240 C', 'bake 25 min at 210 C']],
    ['Bake 15 minutes at 240 C then 25 minutes at 210 C.', ['bake 15 min at 240 C', 'bake 25 min at 210 C']],
    ['Bake for 10 minutes at 450 F, reduce to 400 F, and bake for 20 minutes.', ['bake 10 min at 232 C', 'bake 20 min at 204 C']],
    ['Bake 20 min at 250 C, 15 min lid off, lower to 220 C and bake 10 more minutes.', ['bake 20 min at 250 C', 'bake 15 min at 250 C, lid off', 'bake 10 min at 220 C']],
    ['Bake at 240 C: 15 min covered, 20 min uncovered, then 10 min at 200 C.', ['bake 15 min at 240 C, lid on', 'bake 20 min at 240 C, lid off', 'bake 10 min at 200 C']],
    ['Bake 20 min with the lid on at 250 C, then 25 min without at 220 C.', ['bake 20 min at 250 C, lid on', 'bake 25 min at 220 C, lid off']],
    ['Bake 400°F, steam, 40 minutes.', ['bake 40 min at 204 C, with steam']],
    ['Bake at 160°C/140°C fan/gas 3 for 45-50 mins.', ['bake 45 to 50 min at 160 C']],
    ['Bake at 140 C fan (160 C without) for 45 mins.', ['bake 45 min at 160 C']],
    ['Bake 230 C fan 22 min.', ['bake 22 min at 230 C # to decide: how hot is it without the fan? 230 C is with it.']],
    ['175°C (350°F) for 30-35 min to 190°F internal.', ['bake 30 to 35 min at 175 C, until core 88 C']],
    ['Oven 240, steam, 16 min.', ['note "…" # to decide: is 240 in C or in F?']],
    ['Bake 20 min at 250.', ['bake 20 min # to decide: is 250 in C or in F?']],
    ['Preheat the oven to 250 with a pot in it.', ['note "…" # to decide: is 250 in C or in F?']],
  ])('%s', (sentence, steps) => {
    expect(stepsOf(sentence)).toEqual(steps);
  });
});

describe('how long it takes', () => {
  it.each([
    ['Fridge overnight, 12 hours.', ['retard 12 h']],
    ['Divide, shape, fridge 12-18 hours.', ['divide', 'shape', 'retard 12 to 18 h']],
    ['Leave 12 hours until tripled.', ['bulk 12 h']],
    ['Cover and let sit at room temperature for 12 to 18 hours.', ['bulk 12 to 18 h']],
    ['Mix, rest 20 min, bulk 4 h.', ['mix', 'rest 20 min', 'bulk 4 h']],
    ['Mix, rest, bulk 4 h.', ['mix', 'bulk 4 h']],
    ['Shape and let rest 20 minutes.', ['shape', 'rest 20 min']],
    ["2 hrs bulk with stretch + fold at 40' and 80'.", ['bulk 2 h', 'stretch and fold at 40 min', 'stretch and fold at 80 min']],
    ['Bulk 1h30.', ['bulk 1 h 30 min']],
    ['Mix 4 minutes 1st speed, 3 minutes 2nd speed.', ['mix 4 min', 'mix 3 min']],
    ['Knead for 8 minutes, or 12 by hand.', ['knead 8 min, by hand']],
    ['Rise 1.5h, punch down, rise again 45 min.', ['bulk 1 h 30 min', 'proof 45 min']],
    ['Bulk 2 hours, fold after 40 and 80 minutes.', ['bulk 2 h', 'fold at 40 min', 'fold at 80 min']],
    ['8h at 22 C in bulk then ball and 24 h @ 5C.', ['bulk 8 h at 22 C # to decide: what is done for 24 h? No step has that time.']],
    ['Then 3 hours on the counter.', ['note "…" # to decide: what is done for 3 h? No step has that time.']],
    ['It keeps for 2 days.', ['note "…"']],
    ['Rest 30 min, coil folds every 30 min x 3.', ['rest 30 min # to decide: under which rise do the folds go? coil fold every 30 min, 3 times']],
  ])('%s', (sentence, steps) => {
    expect(stepsOf(sentence)).toEqual(steps);
  });

  it('a preferment that is mixed for hours is left for hours', () => {
    const draft = draftOf('Tin loaf\n\nPoolish\n100 g flour\n100 g water\n\nDough\n400 g flour\npoolish\n\nMethod\nPoolish: mix, 2-3 hours on the counter.');
    expect(draft).toContain('  ripen     2 to 3 h, ');
    expect(draft).not.toContain('mix ');
  });
});

describe('what is added behind a plus', () => {
  it('is a line of its own', () => {
    const draft = draftOf('Oat loaf\n500 g flour\n100 g rolled oats + 200 g boiling water, soaked 1 hour\n3 eggs, plus 2 egg yolks');
    for (const line of ['100 g     rolled oats\n', '200 g     boiling water, soaked 1 hour\n', '3         eggs\n', '2         egg yolks\n']) expect(draft).toContain(line);
  });

  it('is asked about where nobody knows its name, and words about the first one stay words', () => {
    expect(draftOf('Loaf\n500 g flour + 30 g zorbel')).toContain('# to decide: is this a line of its own: 30 g zorbel?');
    for (const line of ['500 g flour, plus more for dusting', '500 g flour plus 2 tbsp for dusting', '1 cup plus 2 tbsp flour', '1 egg + 1 egg white for the wash']) expect(draftOf(`Loaf\n${line}`)).not.toContain('to decide');
  });
});

it('whether a first dough goes into a second is asked', () => {
  const draft = draftOf('Sweet loaf\n\nFirst dough\n270 g flour\n135 g water\n\nSecond dough\n70 g flour\n70 g butter');
  expect(draft).toContain('dough "dough 2"  # Second dough\n  70 g      flour\n  70 g      butter\n  # to decide: does all of the dough above go in here? Then make it a sponge, and write: all sponge\n');
});

it('the name of a part in the list of another takes it in, and begins no second one', () => {
  const draft = draftOf('Corn loaf\n\nScald\n250 g cornmeal\n400 g boiling water\n\nDough\nscald\n200 g rye flour\n14 g salt');
  expect(draft).toContain('\ndough\n  all       scald\n  200 g     rye flour\n');
  expect(draft).not.toContain('scald 2');
});

it('a share alone above the list is a name', () => {
  expect(draftOf('100% rye, freestanding\n\n500 g rye flour\n400 g water')).toContain('formula "100% rye, freestanding"\n\ndough\n  500 g     rye flour\n');
});

describe('how much it makes', () => {
  it('may stand in a sentence of a mail or behind the name', () => {
    expect(draftOf('Hi Tomas,\n\nhere is the bread. It makes two loaves.\n\n500 g flour\n300 g water')).toContain('  makes     2 loaves\n');
    expect(draftOf('Cinnamon buns (makes 12 buns)\n\n500 g flour')).toContain('formula "Cinnamon buns"\n  makes     12 buns\n');
    expect(draftOf('Cinnamon buns (soft)\n\n500 g flour')).toContain('formula "Cinnamon buns (soft)"');
  });
});

it('that nothing of a paragraph is weighed is said', () => {
  const converted = convert('fruit bread\ndough: 350 flour, 60 sugar, 1 egg, 180 butter. rest 1h, bake 45 min at 175 C.', { catalogue: builtInCatalogue });
  expect(converted.kind === 'drafted' && converted.notices.join(' ')).toContain('No ingredient of "fruit bread" was found.');
});
