/**
 * Random bake files for property tests: `bakeText` makes files that read without a problem, in all sorts of layouts;
 * `garbled` makes files that were damaged.
 */
import fc from 'fast-check';

const oneOf = (...texts: readonly string[]): fc.Arbitrary<string> => fc.constantFrom(...texts);
const maybe = (piece: fc.Arbitrary<string>): fc.Arbitrary<string> => fc.oneof(fc.constant(''), piece);
/** Puts pieces one after the other; a text stands for itself. */
const seq = (...pieces: readonly (string | fc.Arbitrary<string>)[]): fc.Arbitrary<string> =>
  fc.tuple(...pieces.map((piece) => (typeof piece === 'string' ? fc.constant(piece) : piece))).map((texts) => texts.join(''));
const gap = oneOf(' ', ' ', '  ', '\t', '     ');

const number = fc.oneof(oneOf('12', '0.5', '1/2', '1 1/2', '½', '1½', '700', '2.40', '3', '07', '.5'), fc.integer({ min: 1, max: 2000 }).map(String));
const range = fc.tuple(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 0, max: 40 })).map(([low, more]) => `${low} to ${low + more}`);
const quantity = fc.oneof({ arbitrary: number, weight: 4 }, range);
const massUnit = oneOf('g', 'kg', 'mg', 'oz', 'lb', 'grams', 'G', 'kilos', 'pounds');
const volumeUnit = oneOf('ml', 'l', 'tsp', 'tbsp', 'cup', 'cups', 'fl oz', 'Teaspoons', 'fluid ounces');
const mass = seq(quantity, oneOf(' ', '', '  '), massUnit);
const volume = seq(quantity, ' ', volumeUnit);
const share = seq(quantity, oneOf(' %', '%'));
const timeUnit = oneOf('s', 'min', 'h', 'd', 'mins', 'hours', 'Hour');
const duration = fc.oneof(
  seq(quantity, oneOf(' ', ''), timeUnit),
  fc.constant('1 h 30 min'), fc.constant('1 h to 1 h 30 min'), fc.constant('overnight'), fc.constant('1h30min'),
);
const temperature = fc.oneof(
  seq(fc.integer({ min: 1, max: 250 }).map(String), oneOf(' C', 'C', ' °C', '°C', ' F', ' degrees C')),
  oneOf('-18 C', '240 to 250 C', 'room', 'fridge', 'room temperature'),
);

const word = oneOf(
  'rye', 'flour', 'water', 'walnuts', 'figs', 'salt', 'honey', "baker's", 'semi-whole', 'crème', 'żytnia', '小麦粉', 'мука', 'दूध',
  'dark', 'light', 'dried', 'of', 'and', 'rest', 'half', 'bake', 'steps', 'cup', 'days', 'F', 'lid', 'add', 'minutes',
);
const quotedText = fc.oneof(
  oneOf('"00 flour"', '"70 % rye"', '“Plain loaf”', '„Roggen“', '«seigle»', '"a # b"', '"x, y"', '"👩‍🍳 mix"', '" two  spaces "', '"don’t"'),
  fc.string({ minLength: 1, maxLength: 12 }).map((text) => `"${text.replace(/["“”„‟«»\r\n]/g, '')}x"`),
);
const firstWord = oneOf('bread', 'rye', 'water', 'walnuts', 'cream', 'baker’s', 'orange', 'ryżowa', '水');
const bareName = fc.tuple(firstWord, fc.array(word, { maxLength: 2 })).map((words) => words.flat().join(' '));
const name = fc.oneof({ arbitrary: bareName, weight: 3 }, quotedText);
const noteWords = fc.oneof(seq(word, ' ', word), oneOf('quartered, toasted', '12 of them', 'at 3', '(warm)', '½ & ½ — 🍞', '100 % "whole"'));
const note = fc.oneof(noteWords, quotedText);

const amount = fc.oneof(
  { arbitrary: mass, weight: 4 }, volume, share, number,
  seq(volume, ' (', mass, ')'), seq(number, oneOf(' ', '  '), '(', mass, ')'), oneOf('all', 'pinch', 'a pinch of', '2 pinches', 'Pinch'),
);
const extra = fc.oneof(
  seq(' at ', temperature), fc.constant(' at 60 % hydration'), seq(' as ', oneOf('flour', 'inclusion', 'other')),
  seq(' for ', oneOf('dusting', 'the pan', 'the top', 'the peel')),
);
const ingredient = fc.oneof(
  seq(amount, gap, name, maybe(extra), maybe(seq(', ', note))),
  seq(number, ' ', bareName, ' (', mass, ')', maybe(extra)),
);

const stepKind = oneOf(
  'mix', 'knead', 'autolyse', 'rest', 'bulk', 'fold', 'stretch and fold', 'coil fold', 'laminate', 'divide', 'preshape', 'shape', 'proof',
  'retard', 'ripen', 'soak', 'chill', 'freeze', 'thaw', 'score', 'preheat', 'boil', 'steam', 'bake', 'fry', 'cool', 'slice', 'glaze',
  'fill', 'whisk', 'serve', 'Bake', 'do "turn the tins"', 'do turn the tins',
);
const detail = fc.oneof(
  oneOf('lid on', 'lid off', 'with steam', 'by hand', 'by mixer', 'attended', 'unattended', 'until volume 75 %', 'until golden brown', '4 times'),
  seq('until core ', oneOf('97 C', '205 F')), seq('until ', quotedText), seq('at ', duration), seq('every ', duration),
  seq('add ', oneOf('', 'half of ', 'rest of ', 'the rest of ', '1/3 of ', '40 g of ', '40 % of ', 'all ', 'a pinch of ', '2 '), name),
  oneOf('gently', 'with a scraper', 'not too tight: it tears', '10 g at a time', 'lid ajar', 'at the bench'), quotedText,
);
const timing = fc.oneof(seq(' at ', duration), seq(' every ', duration), fc.constant(' 4 times'));
const stepText = seq(
  stepKind, maybe(seq(gap, duration)), maybe(seq(' at ', temperature)), maybe(timing),
  fc.array(seq(oneOf(', ', ','), detail), { maxLength: 3 }).map((details) => details.join('')),
);

/** A line with deeper lines under it, none of them indented yet. */
interface Nested {
  readonly text: string;
  readonly under: readonly string[];
}
const plain = (line: fc.Arbitrary<string>): fc.Arbitrary<Nested> => line.map((text) => ({ text, under: [] }));
const nestedStep = fc.record({ text: stepText, under: fc.oneof({ arbitrary: fc.constant([]), weight: 3 }, fc.array(stepText, { maxLength: 3 })) });

const noteLine = seq('note', gap, fc.oneof(quotedText, noteWords));
const pieces = oneOf('loaves', 'small tins', 'buns');
const head = {
  use: oneOf('use "pantry.bake"', 'use "../shared/flours.bake"', 'Use   “x.bake”'),
  formula: seq('formula ', quotedText), dish: seq('dish ', quotedText), plan: seq('plan ', quotedText),
  ingredient: seq('ingredient ', name), record: oneOf('record 2026-03-14', 'record 2026-12-31'), steps: oneOf('steps', 'Steps'),
  part: fc.oneof(
    seq(
      oneOf('levain', 'poolish', 'biga', 'sponge', 'old dough', 'soaker', 'scald', 'filling', 'topping', 'glaze', 'wash', 'custard', 'dough', 'batter'),
      maybe(seq(' ', quotedText)), maybe(seq(' at ', temperature)),
    ),
    seq('part ', quotedText),
  ),
};
const properties = {
  formula: fc.oneof(
    seq('makes', gap, quantity, ' ', pieces, maybe(seq(' of ', mass))), seq('makes ', mass), seq('makes 2 tins of ', volume),
    seq('style ', word, ', ', word, ' ', word), seq(oneOf('room', 'fridge', 'flour'), gap, temperature),
    seq('friction ', oneOf('22 F', '6 C', '4 to 8 C', '6°C')), seq('loses ', number, ' % ', oneOf('in the oven', 'at the bench')),
    oneOf('altitude 900 m', 'altitude 3000 ft', 'version 2.1', 'author "Ines"', 'source the blue notebook'),
    seq('based on ', name), seq('swap walnuts for ', oneOf('figs', '"00 flour"'), maybe(seq(' in ', oneOf('figs', 'old dough')))),
    seq('set water to ', fc.oneof(mass, share, number), maybe(fc.constant(' in levain'))),
    seq('add ', mass, ' orange zest', maybe(fc.constant(' as spice')), maybe(fc.constant(' in figs'))),
    seq('drop walnuts', maybe(fc.constant(' in dough'))), noteLine,
  ),
  dish: fc.oneof(
    oneOf('serves 4', 'serves 4 to 6', 'room 22 C'), seq('uses ', number, ' slices', maybe(seq(' (', mass, ')')), ' of ', quotedText),
    seq('uses ', mass, oneOf(' of ', ' '), quotedText, maybe(seq(', ', note))), noteLine,
  ),
  ingredient: fc.oneof(
    seq('like ', name), seq(oneOf('water', 'protein', 'fat', 'sugar', 'salt', 'fibre'), gap, share),
    oneOf('absorbs 1.2 times its weight', 'absorbs 2', 'density 0.53 g per ml', 'density 120 grams per cup', 'contains milk, nuts', 'role flour'),
    seq('each ', mass), seq('costs ', number, oneOf(' EUR per kg', ' chf per l', ' EUR each', ' USD per 	lb')), noteLine,
  ),
  record: fc.oneof(
    seq(oneOf('room', 'dough', 'core', 'fridge'), ' ', oneOf('21.5 C', '75 F')), oneOf('ph 4.1', 'bulk 4 h 10 min, volume 70 %'),
    seq('weighed ', mass, maybe(fc.constant(', 2 loaves')), maybe(seq(', after ', duration))), noteLine, stepText,
  ),
  plan: fc.oneof(
    oneOf('ready 2026-03-14 08:00 Europe/Lisbon', 'ready 2026-03-14 8:00', 'ready 2026-03-14', 'asleep 22:30 to 05:30', 'away 9:00 to 12:00'),
    oneOf('start 2026-03-13 18:00', 'away 9:00 to 17:00 on Mon to Fri', 'asleep 22:00 to 06:00 on Sat and Sundays', 'away 1:00 to 2:00 on Fri to mon, Wed', 'room 21 C'),
    oneOf('oven holds 4 loaves', 'fridge holds 12 loaves', 'mixer holds 3 kg', 'hands 2', 'pots 2 small pots', 'mixer hold 2 kilos flour'),
    seq(
      oneOf('oven', 'fridge', 'mixer'), maybe(seq(' ', quotedText)), ' holds ', maybe(seq(quantity, ' decks of ')),
      quantity, maybe(oneOf(' loaves', ' kg', ' kg of flour', ' tins of bread', ' loaves or so')), maybe(seq(' or ', quantity, ' buns')),
    ),
    seq(
      oneOf('bake ', 'make '), quantity, oneOf(' loaves of ', ' ', ' kg of ', ' pounds ', ' batches of '), quotedText,
      maybe(oneOf(', ready 7:30', ', Ready 2026-03-14 07:30')),
    ),
    noteLine,
  ),
};

const layout = fc.record({ indent: oneOf('  ', '    ', '\t', ' '), tail: oneOf('', '', '', ' ', '  # why', ' # accept inclusion-load: soaked', '\t') });
const trivia = fc.oneof({ arbitrary: fc.constant(''), weight: 6 }, oneOf('\n', '\n\n', '# a note\n', '  # indented\n', '   \n', '#\n'));

function blockOf(opening: fc.Arbitrary<string>, lines: fc.Arbitrary<Nested>): fc.Arbitrary<string> {
  const body = fc.array(fc.tuple(lines, layout, trivia), { maxLength: 6 });
  return fc.tuple(trivia, opening, layout, body).map(([above, first, { indent, tail }, rows]) => {
    const written = rows.map(([line, own, before]) =>
      before + [`${indent}${line.text}${own.tail}`, ...line.under.map((text) => `${indent}${indent}${text}`)].join('\n') + '\n');
    // Indented comments above a head belong to the block before it, and a file may begin with none.
    return `${above.replace(/^ +#/gm, '#')}${first}${tail.replace(/^#/, ' #')}\n${written.join('')}`;
  });
}

const blockText = fc.oneof(
  head.use.map((text) => `${text}\n`),
  blockOf(head.formula, plain(properties.formula)), blockOf(head.dish, plain(properties.dish)),
  blockOf(head.part, fc.oneof(plain(ingredient), nestedStep, plain(oneOf('keep 40 g', 'yields 140 g', 'note "x"')))),
  blockOf(fc.constant('total formula'), fc.oneof(plain(ingredient), plain(oneOf('15 % of flour in levain', '10 to 15 % of flour in "my biga"')))),
  blockOf(head.steps, nestedStep), blockOf(head.ingredient, plain(properties.ingredient)),
  blockOf(head.record, plain(properties.record)), blockOf(head.plan, plain(properties.plan)),
);

/** A file of a few blocks that reads without a problem, with LF or CRLF, with or without a last line end. */
export const bakeText: fc.Arbitrary<string> = fc.tuple(fc.array(blockText, { maxLength: 5 }), oneOf('\n', '\n', '\r\n'), fc.boolean(), fc.boolean())
  .map(([blocks, lineEnd, lastEnd, mark]) => {
    const text = blocks.join('').replaceAll('\n', lineEnd);
    return (mark ? '\ufeff' : '') + (lastEnd ? text : text.replace(/[\r\n]+$/, ''));
  });

const shard = fc.oneof(
  oneOf('"', '“', '#', ',', '(', ')', '%', '\n', '\r', '\r\n', '\t', ' ', '12', '1/0', '2,5', '-', ' to ', ' at ', 'ü', '漢', '👩‍🍳', '\ud83d', '\u0000', '\ufeff', '\u2028'),
  fc.string({ unit: 'binary', maxLength: 6 }),
);

/** A good file after some cuts, repeats and insertions, as typing, merging and broken disks leave them. */
export const garbled: fc.Arbitrary<string> = fc.tuple(
  bakeText,
  fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.integer({ min: 0, max: 12 }), shard), { minLength: 1, maxLength: 6 }),
).map(([text, cuts]) =>
  cuts.reduce((damaged, [where, length, put]) => {
    const at = Math.floor(where * damaged.length);
    return damaged.slice(0, at) + put + damaged.slice(at + length);
  }, text));
