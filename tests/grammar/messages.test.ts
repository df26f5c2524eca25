/**
 * What is said about lines that cannot be read in full. In each example the marked words stand between ‹ and ›; `fixed` is
 * the file after the fix. A fix must leave a file with one problem less.
 */
import { describe, expect, it } from 'vitest';
import { parse, walkLines, type ProblemCode } from '../../grammar';
import { blockOf, problemsIn } from './helpers';

interface Example {
  readonly text: string;
  readonly code: ProblemCode;
  readonly says: string;
  readonly fixed?: string;
}

const EXAMPLES: readonly Example[] = [
  // amounts and names
  { text: 'dough\n  ‹12›\n', code: 'incomplete', says: 'Expected a unit after 12: write 12 g, 12 % or 12 ml.' },
  { text: 'dough\n  700 ‹g›\n', code: 'incomplete', says: 'Expected a name after 700 g: write it like 700 g bread flour.' },
  { text: 'dough\n  700 ‹g›, sifted\n', code: 'incomplete', says: 'Expected a name after 700 g: write it like 700 g bread flour.' },
  { text: 'dough\n  700 g ‹T65 flour›\n', code: 'not-understood', says: 'A name that holds a number or a sign takes quotes: write "T65 flour".', fixed: 'dough\n  700 g "T65 flour"\n' },
  { text: 'dough\n  50 g ‹70 % rye›, fine\n', code: 'not-understood', says: 'A name that holds a number or a sign takes quotes: write "70 % rye".', fixed: 'dough\n  50 g "70 % rye", fine\n' },
  { text: 'dough\n  ‹2,5› g salt\n', code: 'comma-decimal', says: 'Write 2.5 with a point: a comma starts a note.', fixed: 'dough\n  2.5 g salt\n' },
  { text: 'dough\n  ‹1,000› g flour\n', code: 'comma-decimal', says: 'Write 1000 with no comma: a comma starts a note.', fixed: 'dough\n  1000 g flour\n' },
  { text: 'dough\n  ‹4-5› g salt\n', code: 'not-understood', says: 'A range is written with "to": 4 to 5.', fixed: 'dough\n  4 to 5 g salt\n' },
  { text: 'dough\n  ‹5 to 4› g salt\n', code: 'not-understood', says: 'This range runs backwards: write 4 to 5.', fixed: 'dough\n  4 to 5 g salt\n' },
  { text: 'dough\n  120 g walnuts ‹(toasted)›\n', code: 'not-understood', says: 'Brackets hold a weight, as in (120 g). Put a note after a comma: 120 g walnuts, toasted.', fixed: 'dough\n  120 g walnuts, toasted\n' },
  { text: 'dough\n  120 g (‹130 g›) walnuts\n', code: 'not-understood', says: 'A weight in brackets belongs to a volume, a count or a share: here the weight is already given.' },
  { text: 'dough\n  ‹salt 18 g›, fine\n', code: 'not-understood', says: 'The amount comes first: write 18 g salt.', fixed: 'dough\n  18 g salt, fine\n' },
  { text: 'dough\n  ‹walnuts›\n', code: 'not-understood', says: 'Expected an amount and a name, such as 700 g bread flour, or a step such as rest 1 h; if this is an ingredient, write how much: 100 g walnuts.' },
  { text: 'dough\n  20 g salt ‹,›\n', code: 'incomplete', says: 'Expected a note after the comma: write one, or leave the comma out.' },
  { text: 'levain\n  12 g starter at ‹60 %›\n', code: 'incomplete', says: 'Say what this share is: at 60 % hydration.', fixed: 'levain\n  12 g starter at 60 % hydration\n' },
  { text: 'dough\n  80 g oats as ‹inclsion›\n', code: 'not-understood', says: 'inclsion is no role: it is one of flour, liquid, fat, sweetener, egg, dairy, salt, leaven, inclusion, absorber, spice or other.', fixed: 'dough\n  80 g oats as inclusion\n' },
  { text: 'dough\n  80 g oats ‹as›\n', code: 'incomplete', says: 'Expected a role after 80 g oats as, such as inclusion or flour.' },
  { text: 'dough\n  80 g oats ‹for›\n', code: 'incomplete', says: 'Expected what it is for after 80 g oats for: dusting, the pan or the top.' },
  { text: 'dough\n  100 g ‹"00 flour›\n', code: 'quote-open', says: 'This quote is not closed on its line: put " where the quoted words end.', fixed: 'dough\n  100 g "00 flour"\n' },
  { text: 'formula ‹“Seed rye›\n', code: 'quote-open', says: 'This quote is not closed on its line: put ” where the quoted words end.', fixed: 'formula “Seed rye”\n' },

  { text: 'dough\n  ‹2 dl› milk\n', code: 'not-understood', says: 'dl is not read as a unit: write 200 ml.', fixed: 'dough\n  200 ml milk\n' },

  // times and temperatures
  { text: 'steps\n  mix ‹10›\n', code: 'incomplete', says: 'Expected a unit of time after 10: write 10 min or 10 h.' },
  { text: 'steps\n  bulk 1 h ‹30› at 24 C\n', code: 'incomplete', says: 'Expected a unit after 30: write 30 min or 30 h.' },
  { text: 'steps\n  bulk 3 h at ‹24›\n', code: 'incomplete', says: 'Expected C or F after 24: write 24 C or 24 F.' },
  { text: 'steps\n  bulk 3 h ‹at›\n', code: 'incomplete', says: 'Expected a temperature after bulk 3 h at, such as 24 C, room or fridge.' },
  { text: 'steps\n  bulk ‹2 h to 30 min›\n', code: 'not-understood', says: 'This range runs backwards: put the shorter time first.' },
  { text: 'steps\n  retard 10 ‹to›\n', code: 'incomplete', says: 'Expected a number after retard 10 to: a range has two, as in 10 to 16.' },
  { text: 'formula "x"\n  room ‹23›\n', code: 'incomplete', says: 'Expected C or F after 23: write 23 C or 23 F.' },
  { text: 'formula "x"\n  ‹room›\n', code: 'incomplete', says: 'Expected a temperature after room, such as 24 C, room or fridge.' },
  { text: 'formula "x"\n  friction ‹22›\n', code: 'incomplete', says: 'Expected C or F after 22: write 22 C or 22 F.' },

  // steps
  { text: 'steps\n  bake 25 min at 240 C ‹lid on›\n', code: 'not-understood', says: 'Expected a comma before lid on: write , lid on.', fixed: 'steps\n  bake 25 min at 240 C, lid on\n' },
  { text: 'steps\n  bake 25 min, lid on ‹tightly›, attended\n', code: 'not-understood', says: 'Expected a comma or the end of the line after lid on: write lid on, tightly.' },
  { text: 'steps\n  rest ‹under a cloth› 30 min\n', code: 'not-understood', says: 'Expected a time or a temperature here, such as 30 min at 24 C. Put a note after a comma: , under a cloth.' },
  { text: 'steps\n  ‹mix,›\n', code: 'incomplete', says: 'Expected a detail after the comma, such as lid on or until core 97 C: write one, or leave the comma out.' },
  { text: 'steps\n  bake 20 min, until ‹core›\n', code: 'incomplete', says: 'Expected a temperature after bake 20 min, until core, such as 24 C, room or fridge.' },
  { text: 'steps\n  bake 20 min, ‹until›\n', code: 'incomplete', says: 'Expected a sign to look for after bake 20 min, until: core 97 C, volume 75 % or words in quotes.' },
  { text: 'steps\n  bulk 3 h, until volume ‹75›\n', code: 'incomplete', says: 'Expected a share after bulk 3 h, until volume 75: write it like until volume 75 %.' },
  { text: 'steps\n  ‹bluk› 3 h\n', code: 'not-understood', says: 'bluk is not known here: did you mean bulk?', fixed: 'steps\n  bulk 3 h\n' },
  { text: 'steps\n  ‹butter the tins›\n', code: 'not-understood', says: 'Expected a step, such as bulk 4 h at 25 C; any other step is written do "butter".' },
  { text: 'steps\n  ‹add walnuts›\n', code: 'not-understood', says: 'What goes in is said behind a step, after a comma: mix 5 min, add walnuts.' },
  { text: 'steps\n  ‹do› 10 min\n', code: 'incomplete', says: 'Say what to do, in quotes: do "brush with butter" 5 min.' },

  // properties and variants
  { text: 'formula "x"\n  makes 2 loaves of ‹970›\n', code: 'incomplete', says: 'Expected a unit of weight after 970: write 970 g.' },
  { text: 'formula "x"\n  ‹maks› 2 loaves\n', code: 'not-understood', says: 'maks is not known here: did you mean makes?', fixed: 'formula "x"\n  makes 2 loaves\n' },
  { text: 'formula "x"\n  loses 12 ‹%›\n', code: 'incomplete', says: 'Expected something else after loses 12 %: write it like loses 12 % in the oven.' },
  { text: 'formula "x"\n  room 23 C ‹warm›\n', code: 'not-understood', says: 'Expected the end of the line after room 23 C: write it like room 23 C.' },
  { text: 'formula "x"\n  swap ‹walnuts›\n', code: 'incomplete', says: 'Expected for after swap walnuts: write it like swap walnuts for pistachios.' },
  { text: 'formula "x"\n  set water ‹620› g\n', code: 'not-understood', says: 'Expected to and an amount after set water: write it like set water to 620 g.' },
  { text: 'levain\n  keep ‹40›\n', code: 'incomplete', says: 'Expected a unit of weight after 40: write 40 g.' },
  { text: 'plan "x"\n  ready ‹Saturday›\n', code: 'not-understood', says: 'Expected something else after ready: write it like ready 2026-03-14 08:00 Europe/Lisbon.' },
  { text: 'plan "x"\n  ready ‹2026-02-30›\n', code: 'not-understood', says: '2026-02-30 is not a day of the calendar: write year, month and day, as in 2026-03-14.' },
  { text: 'plan "x"\n  asleep ‹25:00› to 05:30\n', code: 'not-understood', says: '25:00 is not a time of the day: write it from 00:00 to 23:59.' },
  { text: 'plan "x"\n  asleep ‹22:30-05:30›\n', code: 'not-understood', says: 'A range is written with "to": 22:30 to 05:30.', fixed: 'plan "x"\n  asleep 22:30 to 05:30\n' },
  { text: 'plan "x"\n  away 09:00 to 17:00 on ‹weekdays›\n', code: 'not-understood', says: 'Expected a day of the week after away 09:00 to 17:00 on, such as Sat or Mon to Fri.' },
  { text: 'plan "x"\n  bake 6 loaves of "Y", ‹soon›\n', code: 'not-understood', says: 'Expected ready and a time after the comma, such as ready 07:00: write one, or leave the comma out.' },
  { text: 'plan "x"\n  bake 6 loaves of "Y", ‹ready›\n', code: 'incomplete', says: 'Expected a time of the day after bake 6 loaves of "Y", ready, such as 07:00.' },
  { text: 'plan "x"\n  bake 6 ‹loaves›\n', code: 'incomplete', says: 'Expected a name after bake 6 loaves: write it like bake 6 loaves of "Country loaf".' },

  // places
  { text: 'formula "x"\n  ‹bake 25 min›\n', code: 'out-of-place', says: 'The step bake means nothing here: put it under steps.' },
  { text: 'steps\n  ‹12 g salt›\n', code: 'out-of-place', says: 'An ingredient belongs in a part: open one above this line, for example dough.' },
  { text: 'dough\n  ‹serves 4›\n', code: 'out-of-place', says: 'The line serves belongs in a dish: it means nothing here.' },
  { text: 'dough\n  ‹15 % of flour in levain›\n', code: 'out-of-place', says: 'How much of the flour a part holds is said in a total formula only: here, weigh the part or take all of it.' },
  { text: 'use "a.bake"\n  ‹"b.bake"›\n  "c.bake"\n', code: 'out-of-place', says: 'Nothing stands under use: put each path on a line of its own in the first column.' },
  { text: '  ‹700 g flour›\n  14 g salt\n', code: 'out-of-place', says: 'This line stands in no block: open one above it in the first column, for example dough.' },

  // heads
  { text: '‹formla› "x"\n  room 23 C\n  note "y"\n', code: 'unknown-block', says: 'formla opens no block: did you mean formula?', fixed: 'formula "x"\n  room 23 C\n  note "y"\n' },
  { text: '‹levian›\n', code: 'unknown-block', says: 'levian opens no block: did you mean levain?', fixed: 'levain\n' },
  { text: '‹old duogh›\n', code: 'unknown-block', says: 'old duogh opens no block: did you mean old dough?', fixed: 'old dough\n' },
  { text: '‹method›\n', code: 'unknown-block', says: 'method opens no block: did you mean steps?', fixed: 'steps\n' },
  { text: '‹my lovely bread›\n', code: 'unknown-block', says: 'my lovely bread opens no block: a line in the first column starts with a word such as formula, dough or steps.' },
  { text: 'dough\n‹700 g flour›\n', code: 'unknown-block', says: 'A line in the first column opens a block. If 700 g flour belongs to the block above, put two spaces before it.', fixed: 'dough\n  700 g flour\n' },
  { text: '‹formula›\n', code: 'incomplete', says: 'Expected a name in quotes after formula: write formula "Country loaf".' },
  { text: 'formula ‹""›\n', code: 'incomplete', says: 'Expected a name between the quotes: write formula "Country loaf".' },
  { text: 'formula ‹Seed rye›\n', code: 'incomplete', says: 'Put the name in quotes: formula "Seed rye".', fixed: 'formula "Seed rye"\n' },
  { text: '‹use›\n', code: 'incomplete', says: 'Expected something else after use: write it like use "pantry.bake".' },
  { text: 'use ‹pantry.bake›\n', code: 'incomplete', says: 'Put the path in quotes: use "pantry.bake".', fixed: 'use "pantry.bake"\n' },
  { text: '‹record›\n', code: 'incomplete', says: 'Expected a date after record: write year, month and day, as in record 2026-03-14.' },
  { text: 'dough ‹25 C›\n', code: 'not-understood', says: 'Expected the end of the line after dough: write it like dough at 25 C.' },
  { text: 'steps ‹now›\n', code: 'not-understood', says: 'Expected the end of the line after steps: write it like steps.' },

  // accept
  { text: 'dough\n  20 g salt ‹# accept salt-range›\n', code: 'accept-without-reason', says: 'Say why it is accepted, after a colon: # accept salt-range: it is meant so.' },
  { text: 'dough\n  ‹# accept: because›\n', code: 'accept-without-reason', says: 'Say which check is accepted, and why: # accept inclusion-load: the fruit is soaked.' },
];

describe('what is said', () => {
  it.each(EXAMPLES)('$text', ({ text, code, says, fixed }) => {
    const plain = text.replace(/[‹›]/g, '');
    const [found, ...others] = problemsIn(plain);
    const marked = /‹([\s\S]*)›/.exec(text)?.[1];
    expect({ code: found?.problem.code, says: found?.problem.message, fixed: found?.fixed, others: others.length }).toEqual({ code, says, fixed, others: 0 });
    // A fix marks what it is about; the head of an unknown block is marked whole.
    if (code !== 'unknown-block') expect(found?.marked).toBe(marked);
    if (fixed !== undefined) expect(problemsIn(fixed)).toEqual([]);
  });
});

describe('what is kept of a line that breaks off', () => {
  it.each([
    ['formula "x"', 'makes 2 loaves of 970', { kind: 'makes', pieces: { low: { value: 2 } }, noun: { text: 'loaves' } }],
    ['steps', 'bulk 1 h 30 at 24 C, lid on, until core', { kind: 'step', duration: { lowMinutes: 60 }, temperature: { lowCelsius: 24 }, details: [{ kind: 'lid' }] }],
    ['steps', 'bake 20 min at 240', { kind: 'step', duration: { lowMinutes: 20 }, temperature: { lowCelsius: 240 } }],
    ['steps', 'mix, lid on', { kind: 'step', details: [{ kind: 'lid' }] }],
    ['dough', '700 g T65 flour, sifted', { kind: 'ingredient', name: { text: 'T65 flour' }, note: { text: 'sifted' } }],
    ['dough', '80 g oats as', { kind: 'ingredient', name: { text: 'oats' } }],
    ['dough', '80 g oats at', { kind: 'ingredient', name: { text: 'oats' } }],
    ['dough', '80 g oats,', { kind: 'ingredient', name: { text: 'oats' } }],
    ['formula "x"', 'room', { kind: 'property', key: 'room', value: { kind: 'missing' } }],
    ['formula "x"', 'room 23 C in winter', { kind: 'property', key: 'room', value: { kind: 'temperature', temperature: { lowCelsius: 23 } } }],
  ])('in %s: %s', (head, line, node) => {
    expect(blockOf(head, line).lines[0]?.node).toMatchObject(node);
  });

  it('one bad line costs that line only', () => {
    const { blocks } = parse('dough\n  700 g flour\n  %%% ((\n  500 g water\n');
    expect(blocks[0] && [...walkLines(blocks[0].block)].map(({ line }) => line.node.kind)).toEqual(['ingredient', 'bad', 'ingredient']);
    expect(blocks[0]?.block.problems.length).toBe(1);
  });
});

describe('every stage of typing a line has at most two problems, and never a thrown error', () => {
  it.each([
    'dough\n  1 tsp (4.5 g) vanilla extract at 28 C as spice for the top, a note # c\n',
    'steps\n  stretch and fold 2 min at 24 C, until core 97 C, add half of walnuts, every 30 min, 4 times, lid on\n',
    'formula "Seed rye"\n  makes 2 loaves of 970 g\n',
    'plan "x"\n  ready 2026-03-14 08:00 Europe/Lisbon\n',
    'record 2026-03-14\n  weighed 1512 g, 2 loaves, after 3 h\n',
    'ingredient "x"\n  costs 2.40 EUR per kg\n',
    'formula "x"\n  swap dried figs for dried pears in figs\n',
  ])('%s', (text) => {
    for (let end = 0; end <= text.length; end += 1) {
      for (const rest of ['', '\nsteps\n  mix 8 min\n']) {
        const problems = problemsIn(text.slice(0, end) + rest);
        expect(problems.length, text.slice(0, end)).toBeLessThanOrEqual(2);
      }
    }
  });
});
