/** What a card says, before it is laid out: parts in the order made, steps in words, times of day. */
import { describe, expect, test } from 'vitest';
import { parseHoursOff } from '../../../server/core/timeline/hours-off';
import type { HoursOff } from '../../../server/core/timeline/model';
import { cardOf } from '../../../server/output/card/card';
import type { Card, MethodStep } from '../../../server/output/card/model';
import { analyseText } from '../../core/bake';
import { entryOf } from '../from-text';
import { sampleEntries } from './samples';

function card(text: string, more: { readonly hoursOff?: readonly HoursOff[]; readonly factor?: number } = {}): Card {
  const { factor, ...input } = more;
  return cardOf({ entry: { ...entryOf(text), ...(factor !== undefined && { factor }) }, measures: 'us', ...input });
}

const words = ({ name, takes, words: said }: MethodStep): string => [name, takes, said].filter((each) => each !== '').join(' | ');

const FIGS = `formula "Fig rye"
  makes     2 loaves of 850 g

soaker "figs"
  150 g     dried figs
  40 g      water at 90 C
  rest      1 h

levain
  60 g      dark rye flour
  60 g      water
  12 g      starter
  ripen     8 h at 24 C

dough at 25 C
  800 g     bread flour
  500 g     water
  all       levain
  18 g      salt
  60 g      walnuts
  all       figs

glaze
  20 g      honey

steps
  autolyse  40 min
  mix       8 min, by hand
  bulk      4 h at 24 C, until volume 75 %
    fold    at 30 min, add 1/3 of walnuts
    fold    at 60 min, add 30 g of walnuts
    fold    at 90 min, add rest of walnuts, add figs
  retard    overnight at 4 C
  bake      25 min at 240 C, lid on
  bake      20 min at 220 C, lid off, until core 97 C
`;

describe('parts', () => {
  test('stand in the order made, whatever the order written: the levain before the figs, the glaze last', () => {
    expect(card(FIGS).parts.map(({ name }) => name)).toEqual(['Levain', 'Figs', 'Final dough', 'Glaze']);
  });

  test('without a method each stands after those that it takes in', () => {
    const text = `formula "X"\n\ndough\n  500 g  bread flour\n  300 g  water\n  all    second\n\npart "second"\n  all    first\n  50 g   water\n\npart "first"\n  50 g   rye flour\n`;
    expect(card(text).parts.map(({ name }) => name)).toEqual(['First', 'Second', 'Final dough']);
  });

  test('a straight dough is no final one', () => {
    expect(card('formula "X"\n\ndough\n  500 g  bread flour\n  300 g  water\n').parts.map(({ name }) => name)).toEqual(['Dough']);
  });
});

describe('the method', () => {
  test('says what goes in first, what waits, and how much of what is divided', () => {
    const dough = card(FIGS).method.find(({ name }) => name === 'Dough')!.steps;
    expect(dough.map(words)).toEqual([
      'Autolyse | 40 min | only bread flour and water',
      'Mix | 8 min | by hand, without the walnuts and figs for now',
      'Bulk | 4 h at 24 °C (75 °F) | until it has grown by 75 %',
      'Retard | overnight, 8 to 14 h at 4 °C (39 °F)',
      'Bake | 25 min at 240 °C (465 °F) | lid on',
      'Bake | 20 min at 220 °C (430 °F) | lid off, until the middle is at 97 °C (207 °F)',
    ]);
    expect(dough[2]!.inside.map(words)).toEqual([
      'Fold | after 30 min | add a third of the walnuts (20 g)',
      'Fold | after 1 h | add 30 g of the walnuts',
      'Fold | after 1 h 30 min | add the rest of the walnuts (10 g), add the figs',
    ]);
  });

  test('begins a part with putting it together', () => {
    expect(card(FIGS).method.slice(0, 2).map(({ name, steps }) => [name, ...steps.map(words)])).toEqual([
      ['Levain', 'Mix the levain', 'Ripen | 8 h at 24 °C (75 °F)'], ['Figs', 'Prepare the figs', 'Rest | 1 h'],
    ]);
  });

  test('a formula without steps has none, and no times', () => {
    const { method, timeline } = card('formula "X"\n\ndough\n  500 g  bread flour\n  300 g  water\n');
    expect({ method, timeline }).toEqual({ method: [], timeline: undefined });
  });
});

describe('times of day', () => {
  const nights = (made: Card): readonly string[] => made.timeline!.days.flatMap(({ stretches }) => stretches.filter(({ when }) => when === 'night').flatMap(({ what }) => what));

  test('leave the night to what needs no hands', async () => {
    expect(nights(card(FIGS)).filter((what) => !/^(?:ripen|rest|retard|bulk)/.test(what))).toEqual([]);
    for (const sample of ['apricot-hearth.bake', 'country-loaf.bake', 'knots.bake', 'seeded-tin.bake'] as const) {
      const [entry] = await sampleEntries(sample);
      expect(nights(cardOf({ entry: entry!, measures: 'us' })).filter((what) => !/^(?:ripen|rest|retard|chill|bulk)/.test(what)), sample).toEqual([]);
    }
  });

  test('go by the hours off of the settings where there are some', () => {
    const parsed = parseHoursOff('06:00 to 18:00', 'away');
    if (parsed.kind === 'bad') throw new Error(parsed.message);
    const { timeline } = card('formula "X"\n\ndough\n  500 g  bread flour\n  300 g  water\n\nsteps\n  mix  10 min\n  rest 30 min\n  bake 40 min at 230 C\n', { hoursOff: [parsed.hours] });
    expect(timeline!.days).toEqual([{ name: 'Day 1', stretches: [{ when: 'evening', what: ['mix', 'rest', 'bake'] }] }]);
  });

  test('of what fits between no nights begin in the morning all the same', () => {
    const { timeline } = card('formula "X"\n\ndough\n  500 g  bread flour\n  300 g  water\n\nsteps\n  mix  10 min\n  rest 20 h, attended\n  bake 40 min at 230 C\n');
    expect(timeline!.days[0]!.stretches[0]).toEqual({ when: 'morning', what: ['mix', 'rest'] });
    expect(timeline!.about).toMatch(/^About 21 h from start to ready\. /);
  });
});

test('the weights that steps say follow another size', () => {
  const fold = card(FIGS, { factor: 2 }).method.find(({ name }) => name === 'Dough')!.steps[2]!.inside[1]!;
  expect(fold.words).toBe('add 60 g of the walnuts');
});

test('notes, author, source and version are those of the formula, and not of a bake', () => {
  const { notes, credits } = card(`formula "X"
  author    "Inês and Tomas"
  source    "the blue notebook"
  version   3
  note      "Keeps four days."

dough
  500 g     bread flour
  300 g     water
  note      "Cold water in summer."

record 2027-03-13
  note      "Tight crumb."
`);
  expect(notes).toEqual(['Keeps four days.', 'Cold water in summer.']);
  expect(credits).toEqual(['By Inês and Tomas', 'From the blue notebook', 'Version 3']);
});

test('a variant names what it is a variant of', () => {
  const [, variant] = analyseText('formula "Rye"\n\ndough\n  500 g     rye flour\n  350 g     water\n\nformula "Seed rye"\n  based on  "Rye"\n  add       50 g flax seeds\n');
  const { section, formula, totals, sheet } = variant!;
  expect(cardOf({ entry: { section, formula: formula!, totals: totals!, sheet: sheet!, lineOf: () => 1 }, measures: 'us' }).credits).toEqual(['A variant of Rye']);
});
