/** The shape of each line, as places to fill in one after another, and how a place is known to have begun. */
import type { BlockKind, PropertyKey } from '../../../grammar';

export interface Slot {
  /** As it stands in the shape of the line, brackets and joining words included. */
  readonly label: string;
  /** One sentence. */
  readonly doc: string;
  /** Found in the line up to the cursor as soon as this place has begun. */
  readonly begins: RegExp;
}

const slot = (label: string, doc: string, begins: RegExp): Slot => ({ label, doc, begins });

const NUMBER = String.raw`[\d.,/½¼¾⅓⅔⅛⅜⅝⅞]+(?:\s+\d+/\d+)?`;
const UNIT = String.raw`(?:kilograms?|kilos?|kg|milligrams?|mg|grams?|g|ounces?|oz|pounds?|lbs?|millilit(?:re|er)s?|ml|lit(?:re|er)s?|l|teaspoons?|tsp|tablespoons?|tbsp|cups?|fl\s+oz|%)`;
const QUANTITY = String.raw`${NUMBER}(?:\s+to\s+${NUMBER})?`;
/** With the space behind it: then its name begins. A word that is no unit is the name of what is counted. */
const AMOUNT = String.raw`(?:${QUANTITY}\s*(?:${UNIT}(?![\p{L}\p{N}])|pinch(?:es)?)(?:\s*\([^)]*\))?\s+|${QUANTITY}\s+(?=\p{L}{3})|(?:a\s+)?pinch\s+|all\s+)`;

const AT_TEMPERATURE = 'How warm it is: 24 C, 75 F, room or fridge.';
const NOTE = 'A note of your own, to the end of the line.';

/** Places of an ingredient line; `lead` is a pattern of what stands before its amount. */
export function ingredientSlots(lead = ''): readonly Slot[] {
  const after = `^${lead}${AMOUNT}`;
  const more = (word: string): RegExp => new RegExp(String.raw`${after}[^,]*\s${word}\s`, 'iu');
  return [
    slot('amount', 'How much: 700 g, 72 %, 1 tsp (4.5 g), 4 for pieces, or all of a part.', new RegExp(`^${lead}`, 'iu')),
    slot('name', 'An ingredient, or a part from above.', new RegExp(after, 'iu')),
    slot('[at temperature]', `${AT_TEMPERATURE} For a starter: at 60 % hydration.`, more('at')),
    slot('[as role]', 'What it counts as, if not as usual: flour, liquid, inclusion …', more('as')),
    slot('[for purpose]', 'Keeps it out of the dough: for dusting, for the pan, for the top.', more('for')),
    slot('[, note]', NOTE, new RegExp(`${after}[^,]*,`, 'iu')),
  ];
}

/** What follows the word that opens a line. */
function behind(word: string, pattern = ''): RegExp {
  return new RegExp(String.raw`^${word.replaceAll(' ', String.raw`\s+`)}\s+${pattern}`, 'iu');
}

/** Places behind the kind of a step. */
export function stepSlots(word: string): readonly Slot[] {
  const lead = word === 'do' ? String.raw`"[^"]*"\s*` : '';
  const slots = [
    slot('[time]', 'How long: 40 min, 3 h 30 min, 10 to 16 h, overnight.', behind(word, lead)),
    slot(
      '[at temperature]', /fold|laminate/.test(word) ? 'How long after the bulk begins, at 30 min; or how warm, at 24 C.' : AT_TEMPERATURE,
      behind(word, String.raw`${lead}(?:[^,]*\s)?at\s`),
    ),
    slot('[, detail]…', 'lid on, with steam, by hand, until core 97 C, add half of figs, or a note of your own.', behind(word, `${lead}[^,]*,`)),
  ];
  return word === 'do' ? [slot('"what"', 'What is done, in quotes.', behind(word)), ...slots] : slots;
}

/** Places behind the word of a variant's line. */
export function deltaSlots(word: 'based on' | 'swap' | 'set' | 'add' | 'drop'): readonly Slot[] {
  const part = slot('[in part]', 'Which part; without it the dough is meant.', behind(word, String.raw`[^,]*\sin\s`));
  switch (word) {
    case 'based on':
      return [slot('"formula"', 'The formula that this one changes.', behind(word))];
    case 'swap':
      return [slot('ingredient', 'What comes out.', behind(word)), slot('for ingredient', 'What goes in, in the same amount.', behind(word, String.raw`.*\sfor\s`)), part];
    case 'set':
      return [slot('ingredient', 'Whose amount changes.', behind(word)), slot('to amount', 'How much from now on: 620 g, 76 %.', behind(word, String.raw`.*\sto\s`)), part];
    case 'add': {
      const [amount, name, at, role, purpose, note] = ingredientSlots(String.raw`add\s+`);
      // In a variant the part is said before the comma.
      return [amount, name, at, role, purpose, part, note].filter(one => one !== undefined);
    }
    case 'drop':
      return [slot('ingredient', 'What is left out.', behind(word)), part];
  }
}

/** Places behind a word that has a value; undefined where the word says all there is to say. */
export function propertySlots(key: PropertyKey | 'makes' | 'uses', block: BlockKind): readonly Slot[] {
  const first = (label: string, doc: string): Slot => slot(label, doc, behind(key));
  const later = (label: string, doc: string, pattern: string): Slot => slot(label, doc, behind(key, pattern));
  const degrees = [first('temperature', 'In C or F: 24 C.')];
  const capacity = [
    first('["name"]', 'A name, where there are several.'),
    later('holds pieces', 'What goes in at once: 6 loaves, 3 kg, 2 decks of 4 loaves.', String.raw`(?:.*\s)?holds\s`),
    later('[or pieces]', 'The same room in other pieces.', String.raw`.*\sor\s`),
  ];
  switch (key) {
    case 'makes':
      return [
        first('pieces', 'How many: 2 loaves, 24 knots. Or a weight of dough alone: 1.8 kg.'),
        later('[of weight]', 'The dough of one piece: 970 g. Or the volume of its tin: 1.8 l.', String.raw`.*\sof\s`),
      ];
    case 'uses':
      return [
        first('amount', 'How much of it: 8 slices (360 g), or 300 g.'),
        later('of "formula"', 'The formula whose yield goes in.', String.raw`.*(?:\sof\s|")`),
        later('[, note]', NOTE, '(?:[^"]*"[^"]*")[^"]*,'),
      ];
    case 'fridge':
      return block === 'plan' ? capacity : degrees;
    case 'room':
    case 'flour':
    case 'friction':
    case 'dough':
    case 'core':
      return degrees;
    case 'water':
    case 'protein':
    case 'fat':
    case 'sugar':
    case 'salt':
    case 'fibre':
      return [first('share', 'Of its weight: 12 %.')];
    case 'loses':
      return [first('share', 'Of its weight: 12 %.'), later('where', 'in the oven, or at the bench.', String.raw`[^%]*%\s`)];
    case 'note':
    case 'source':
    case 'author':
    case 'version':
      return [first('words', 'In quotes, or the rest of the line.')];
    case 'style':
      return [first('words', 'What sort of bread it is, with commas between: hearth, with seeds.')];
    case 'contains':
      return [first('words', 'Allergens, with commas between: milk, nuts.')];
    case 'altitude':
      return [first('height', 'In m or ft: 900 m.')];
    case 'serves':
      return [first('people', 'A number, or two: 4 to 6.')];
    case 'keep':
    case 'yields':
    case 'each':
      return [first('weight', 'In g or another weight: 40 g.')];
    case 'like':
      return [first('ingredient', 'Another ingredient; what you write here counts over what is known of it.')];
    case 'role':
      return [first('role', 'flour, liquid, fat, sweetener, egg, dairy, salt, leaven, inclusion, absorber, spice or other.')];
    case 'absorbs':
      return [first('number', 'Grams of water that a gram drinks: 1.2.'), later('times its weight', 'These words end the line.', String.raw`\S+\s`)];
    case 'density':
      return [first('weight', 'Of one measure: 120 g.'), later('per measure', 'ml, l, tsp, tbsp or cup.', String.raw`.*\sper\s`)];
    case 'costs':
      return [
        first('price', 'A number: 2.40.'),
        later('currency', 'Three letters: EUR.', String.raw`\S+\s`),
        later('per unit', 'per kg, per l, or each.', String.raw`\S+\s+\S+\s`),
      ];
    case 'weighed':
      return [
        first('weight', 'Of all the loaves that are counted: 1512 g.'),
        later('[, pieces]', 'How many they are: 2 loaves.', '.*,'),
        later('[, after time]', 'How long after the oven: after 3 h.', String.raw`.*,\s*after\s`),
      ];
    case 'ph':
      return [first('number', 'As measured: 4.1.')];
    case 'ready':
    case 'start':
      return [
        first('date', 'Year, month, day: 2026-03-14.'),
        later('time', 'On the clock: 08:00.', String.raw`\S+\s`),
        later('[zone]', 'A time zone: Europe/Lisbon.', String.raw`\S+\s+\S+\s`),
      ];
    case 'asleep':
    case 'away':
      return [
        first('from', 'On the clock: 22:30.'),
        later('to', 'On the clock: 05:30.', String.raw`.*\sto\s`),
        later('[on days]', 'Days on which it begins: Mon to Fri, Sun.', String.raw`.*\son\s`),
      ];
    case 'oven':
    case 'mixer':
      return capacity;
    case 'hands':
    case 'pots':
      return [first('number', 'How many: 2.')];
    case 'bake':
    case 'make':
      return [
        first('how many', 'Pieces, a weight of dough, or batches: 6 loaves, 3 kg, 2 batches.'),
        later('of "name"', 'What is made.', String.raw`.*(?:\sof\s|")`),
        later('[, ready time]', 'When this one is ready, if not with the rest: 07:00.', '[^"]*"[^"]*"[^"]*,'),
      ];
  }
}

/** Places behind the word that opens a block; none behind one that stands alone. */
export function headSlots(word: string): readonly Slot[] {
  const name = (doc: string): Slot => slot('"name"', doc, behind(word));
  switch (word) {
    case 'use':
      return [slot('"path"', 'Another file, from this one: "pantry.bake", "../flours.bake".', behind(word))];
    case 'formula':
    case 'dish':
      return [name('What it is called; plans, dishes and variants name it so.')];
    case 'plan':
      return [name('What the day is called.')];
    case 'ingredient':
      return [name('What it is called in the lines that use it.')];
    case 'record':
      return [slot('date', 'Year, month, day: 2026-03-14.', behind(word))];
    case 'steps':
      return [];
    default:
      return [
        slot('["name"]', 'By which later parts take it in; without one, by the word before it.', behind(word)),
        slot('[at temperature]', 'How warm it should be after mixing: 25 C.', behind(word, String.raw`(?:.*\s)?at\s`)),
      ];
  }
}
