/** Formulas for property tests of what is computed: `someText` half says things, `wholeText` is a loaf with odd numbers in it. */
import fc from 'fast-check';

const number = fc.constantFrom('0', '1', '12', '0.5', '400', '900', '100000', '1 to 3', '2,5', '');
const degrees = fc.constantFrom('0 C', '4 C', '21 C', '25 C', '38 C', '95 C', '240 C', '75 F', 'room', 'fridge');
const length = fc.constantFrom('0 min', '5 min', '1 h', '4 h 30 min', '10 to 16 h', 'overnight', '400 d', '');
const name = fc.constantFrom('bread flour', 'water', 'ice', 'milk', 'eggs', 'starter', 'salt', 'sugar', 'butter', 'instant yeast', 'walnuts', 'unobtainium', 'levain', 'soaker', 'dough');
const line = fc.oneof(
  fc.tuple(number, fc.constantFrom('g', '%', 'cup', 'kg'), name, fc.option(degrees, { nil: undefined })).map(([n, unit, what, at]) => `${n} ${unit} ${what}${at === undefined ? '' : ` at ${at}`}`),
  name.map((what) => `all ${what}`),
  fc.tuple(number, fc.constantFrom('butter for the pan', 'seeds for the top')).map(([n, what]) => `${n} g ${what}`),
);
const step = fc.tuple(
  fc.constantFrom('mix', 'bulk', 'rest', 'ripen', 'retard', 'chill', 'divide', 'shape', 'proof', 'preheat', 'bake', 'boil', 'fill', 'cool', 'freeze'),
  length,
  fc.option(degrees, { nil: undefined }),
  fc.constantFrom('', ', by mixer', ', by hand', ', lid on', ', with steam', ', until core 60 C', ', add all levain', ', add soaker'),
).map(([kind, time, at, more]) => `${kind} ${time}${at === undefined ? '' : ` at ${at}`}${more}`);
const property = fc.oneof(
  fc.tuple(fc.constantFrom('room', 'fridge', 'flour', 'friction'), degrees).map(([key, value]) => `${key} ${value}`),
  fc.constantFrom('makes 2 loaves', 'makes 0 loaves', 'makes 2 tins of 1.8 l', 'serves 0', 'style pan', 'style rye, nonsense', 'loses 12 % in the oven', 'loses 100 % in the oven', 'altitude 1500 m', 'altitude 60000 m'),
);
const part = fc.tuple(
  fc.constantFrom('levain', 'poolish at 20 C', 'soaker', 'custard', 'filling', 'dough', 'dough at 25 C', 'dough at -5 C', 'total formula at 24 C', 'batter'),
  fc.array(fc.oneof(line, step), { maxLength: 7 }),
);
const block = (head: string, lines: readonly string[]) => `${head}\n${lines.map((text) => `  ${text}\n`).join('')}`;
/** A formula or a dish in which anything may be missing, doubled or senseless. */
export const someText = fc.tuple(fc.constantFrom('formula "F"', 'dish "D"'), fc.array(property, { maxLength: 6 }), fc.array(part, { maxLength: 4 }), fc.array(step, { maxLength: 8 })).map(
  ([head, properties, parts, steps]) => [block(head, properties), ...parts.map(([kind, lines]) => block(kind, lines)), block('steps', steps)].join('\n'),
);

/** A loaf that is whole, with odd numbers in it: here most questions have an answer. */
const grams = fc.constantFrom('0.1', '1', '12', '60', '400', '900', '100000');
const warmth = fc.constantFrom('0 C', '3 C', '12 C', '21 C', '24 C', '27 C', '34 C', '38 C', '60 C', '99 C');
export const wholeText = fc.record({
  makes: fc.constantFrom('makes 1 loaf', 'makes 2 loaves', 'makes 90 rolls', 'makes 2 tins of 1.8 l'),
  room: warmth, fridge: warmth, desired: warmth, ripenAt: warmth, bulkAt: warmth,
  friction: fc.constantFrom('', '  friction 12 C\n', '  friction 40 F\n'),
  water: fc.constantFrom('water', 'water at 30 C', 'water at 4 C', 'milk', 'ice'),
  leaven: fc.constantFrom('starter', 'starter at 50 % hydration', 'instant yeast', 'fresh yeast'),
  fed: grams, levain: grams, flour: grams, wet: grams, eggs: grams,
  ripen: length, bulk: length, retard: length,
  loses: fc.constantFrom('', '  loses 12 % in the oven\n', '  loses 95 % in the oven\n'),
}).map((w) => `formula "Whole"
  ${w.makes}
  style hearth
  room ${w.room}
  fridge ${w.fridge}
${w.friction}${w.loses}
levain
  ${w.fed} g rye flour
  ${w.fed} g water
  ${w.levain} g ${w.leaven}
  ripen ${w.ripen} at ${w.ripenAt}

dough at ${w.desired}
  ${w.flour} g bread flour
  ${w.wet} g ${w.water}
  ${w.eggs} g eggs
  all levain

steps
  mix 8 min, by mixer
  bulk ${w.bulk} at ${w.bulkAt}
  divide
  retard ${w.retard}
  bake 40 min at 230 C, until core 97 C
`);
