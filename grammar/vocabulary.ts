/**
 * The words of the language: what each means in one sentence, an example, and where it may stand. Completion, hovers and
 * the parser's own messages read them from here.
 */
import { ROLES, type BlockKind, type PartKind, type PropertyKey, type Role, type StepKind } from './tree';

export interface VocabularyWord {
  readonly label: string;
  readonly kind: 'block' | 'property' | 'line' | 'step' | 'detail' | 'unit' | 'role';
  /** One sentence of plain English. */
  readonly doc: string;
  /** One line as it would stand in a file. */
  readonly example: string;
  /** Kinds of blocks that it may stand in; empty for a word that opens a block, or that is not tied to one. */
  readonly allowedIn: readonly BlockKind[];
}

const ANY_BODY: readonly BlockKind[] = ['formula', 'dish', 'part', 'steps', 'ingredient', 'record', 'plan'];

type Entry<Label extends string = string> = readonly [label: Label, example: string, doc: string, allowedIn?: readonly BlockKind[]];

function words<Label extends string>(kind: VocabularyWord['kind'], allowedIn: readonly BlockKind[], entries: readonly Entry<Label>[]) {
  return entries.map(([label, example, doc, only]) => ({ label, kind, doc, example, allowedIn: only ?? allowedIn }));
}

/** Words that open a block, in the order in which a file usually has them. */
export const BLOCK_WORDS = words<string>('block', [], [
  ['use', 'use "pantry.bake"', 'Brings in the ingredients and formulas of another file in this folder.'],
  ['formula', 'formula "Country loaf"', 'Opens a formula; the parts and steps below it belong to it.'],
  ['dish', 'dish "Bread pudding"', 'Opens a dish without baker\'s percentages, such as a pudding that the loaf goes into.'],
  ['levain', 'levain', 'A sourdough preferment, built from a ripe starter.'],
  ['poolish', 'poolish', 'A liquid preferment with a little yeast, usually as much water as flour.'],
  ['biga', 'biga', 'A stiff preferment with a little yeast.'],
  ['sponge', 'sponge', 'A preferment with yeast, in between a poolish and a biga.'],
  ['old dough', 'old dough', 'Dough kept back from an earlier bake and used as a preferment.'],
  ['soaker', 'soaker "seeds"', 'Grains, seeds or fruit left to drink up water before they go in.'],
  ['scald', 'scald', 'Flour cooked or scalded with hot water or milk before it goes in.'],
  ['filling', 'filling "almond"', 'What goes inside the shaped pieces.'],
  ['topping', 'topping', 'What goes on top of the shaped pieces.'],
  ['glaze', 'glaze', 'What goes on after the oven.'],
  ['wash', 'wash', 'What is brushed on before the oven.'],
  ['custard', 'custard', 'Eggs and dairy that set in the oven or on the stove.'],
  ['part', 'part "crumble"', 'Any other part, by a name of your own.'],
  ['dough', 'dough at 25 C', 'The dough that goes into the oven, with the temperature it should have.'],
  ['batter', 'batter', 'The same as a dough, but poured.'],
  ['total formula', 'total formula', 'The whole list, what the preferments hold included; the final dough is worked out.'],
  ['steps', 'steps', 'The method, in order.'],
  ['ingredient', 'ingredient "Mill rye"', 'An ingredient of your own: what it is made of, weighs and costs.'],
  ['record', 'record 2026-03-14', 'What happened on one bake of the formula above.'],
  ['plan', 'plan "Saturday stall"', 'A bake day over one or more formulas.'],
]);

const FORMULA_OR_DISH: readonly BlockKind[] = ['formula', 'dish'];

/** Keys with a value behind them. */
export const PROPERTY_WORDS = words<PropertyKey>('property', FORMULA_OR_DISH, [
  ['style', 'style hearth, with seeds', 'What sort of bread it is, in your own words.'],
  ['room', 'room 23 C', 'The temperature of the room.', ['formula', 'dish', 'record', 'plan']],
  ['fridge', 'fridge 4 C', 'The temperature of the fridge.', ['formula', 'dish', 'record']],
  ['flour', 'flour 20 C', 'The temperature of the flour, if it is not that of the room.', ['formula']],
  ['friction', 'friction 6 C', 'How much warmer the mixer makes the dough.', ['formula']],
  ['loses', 'loses 12 % in the oven', 'The share of its weight that the dough loses in the oven or at the bench.'],
  ['altitude', 'altitude 900 m', 'The height of the bakery above the sea.'],
  ['note', 'note "Keeps four days."', 'A note of your own.', ANY_BODY],
  ['source', 'source "the blue notebook"', 'Where it comes from.', ['formula', 'dish', 'ingredient']],
  ['author', 'author "Ines"', 'Who wrote it.'],
  ['version', 'version 3', 'Your own count of its changes.'],
  ['serves', 'serves 4', 'How many people it feeds.', ['dish']],
  ['keep', 'keep 40 g', 'How much of this levain is held back to feed the culture.', ['part']],
  ['yields', 'yields 140 g', 'What the part weighs after cooking; the rest is water gone.', ['part']],
  ['like', 'like bread flour', 'Start from what is known of another ingredient.', ['ingredient']],
  ['water', 'water 14 %', 'The share of water in its weight.', ['ingredient']],
  ['protein', 'protein 12.5 %', 'The share of protein in its weight.', ['ingredient']],
  ['fat', 'fat 1.4 %', 'The share of fat in its weight.', ['ingredient']],
  ['sugar', 'sugar 2 %', 'The share of sugar in its weight.', ['ingredient']],
  ['salt', 'salt 0.1 %', 'The share of salt in its weight.', ['ingredient']],
  ['fibre', 'fibre 9 %', 'The share of fibre in its weight.', ['ingredient']],
  ['absorbs', 'absorbs 1.2 times its weight', 'How much water it drinks up.', ['ingredient']],
  ['density', 'density 0.53 g per ml', 'What a measure of it weighs.', ['ingredient']],
  ['each', 'each 58 g', 'What one piece of it weighs.', ['ingredient']],
  ['costs', 'costs 2.40 EUR per kg', 'What it costs.', ['ingredient']],
  ['contains', 'contains milk, nuts', 'The allergens in it.', ['ingredient']],
  ['role', 'role flour', 'What it does in a dough.', ['ingredient']],
  ['dough', 'dough 24.6 C', 'The temperature of the dough as measured.', ['record']],
  ['core', 'core 97 C', 'The temperature in the middle of the loaf as measured.', ['record']],
  ['weighed', 'weighed 1512 g, 2 loaves, after 3 h', 'What the loaves weighed, how many they were and how long after the oven.', ['record']],
  ['ph', 'ph 4.1', 'The sourness of the dough as measured.', ['record']],
  ['ready', 'ready 2026-03-14 08:00 Europe/Lisbon', 'When everything must be ready.', ['plan']],
  ['start', 'start 2026-03-13 18:00 Europe/Lisbon', 'When work begins, where no time to be ready is given.', ['plan']],
  ['asleep', 'asleep 22:30 to 05:30', 'Hours in which everybody sleeps: nothing that needs a hand is put there.', ['plan']],
  ['away', 'away 09:00 to 17:00 on Mon to Fri', 'Hours in which nobody is there, every day or on some days of the week.', ['plan']],
  ['oven', 'oven holds 4 loaves', 'How much goes into the oven at once; more ovens take more lines, and decks are heated apart.', ['plan']],
  ['fridge', 'fridge holds 12 loaves', 'How much goes into the fridge.', ['plan']],
  ['mixer', 'mixer holds 3 kg', 'How much the mixer takes at once.', ['plan']],
  ['hands', 'hands 2', 'How many people work.', ['plan']],
  ['pots', 'pots 2', 'How many lidded pots there are to bake in.', ['plan']],
  ['bake', 'bake 6 loaves of "Country loaf"', 'What is baked that day and how much of it.', ['plan']],
  ['make', 'make 2 of "Leek bake"', 'What is made that day, for a dish.', ['plan']],
]);

/** Words that open a line of another kind. */
export const LINE_WORDS = words<LineWord>('line', ['formula'], [
  ['makes', 'makes 2 loaves of 970 g', 'How many pieces and of what weight before the oven.', FORMULA_OR_DISH],
  ['uses', 'uses 8 slices of "Country loaf"', 'Takes the yield of a formula as an ingredient.', ['dish']],
  ['based on', 'based on "Country loaf"', 'The formula that this one changes.'],
  ['swap', 'swap walnuts for pistachios', 'Takes another ingredient in the same amount.'],
  ['set', 'set water to 620 g', 'Changes an amount.'],
  ['add', 'add 10 g orange zest', 'Adds an ingredient.'],
  ['drop', 'drop rice flour', 'Leaves an ingredient out.'],
]);

/** `all` and `pinch` open ingredient lines. */
export const AMOUNT_WORDS = words<string>('unit', ['part'], [
  ['all', 'all levain', 'All that the part above makes.'],
  ['pinch', 'pinch salt', 'About 0.3 g; vague, so better weighed.'],
]);

/** Kinds of steps. They may stand in a method, in a part and in a record. */
export const STEP_WORDS = words<StepKind>('step', ['steps', 'part', 'record'], [
  ['mix', 'mix 8 min, by hand', 'Bring the ingredients together.'],
  ['knead', 'knead 6 min, by mixer', 'Work the dough.'],
  ['autolyse', 'autolyse 40 min', 'Let flour and water stand before the rest goes in.'],
  ['rest', 'rest 25 min', 'Leave it alone.'],
  ['bulk', 'bulk 4 h at 25 C', 'The first rise, in one piece; folds stand indented under it.'],
  ['fold', 'fold at 30 min', 'Fold the dough over itself.'],
  ['stretch and fold', 'stretch and fold at 30 min', 'Stretch each side and fold it over.'],
  ['coil fold', 'coil fold at 90 min', 'Lift the dough in the middle and let it fold under itself.'],
  ['laminate', 'laminate at 60 min, add figs', 'Stretch the dough out thin and fold it up.'],
  ['divide', 'divide 10 min', 'Cut and weigh the pieces.'],
  ['preshape', 'preshape 5 min', 'Give the pieces a first shape.'],
  ['shape', 'shape 10 min', 'Give the pieces their shape.'],
  ['proof', 'proof 90 min at 26 C', 'The last rise, shaped.'],
  ['retard', 'retard 10 to 16 h at 4 C', 'A slow rise in the fridge.'],
  ['ripen', 'ripen 8 h at 24 C', 'Let a preferment come to ripeness.'],
  ['soak', 'soak 2 h', 'Leave in liquid.'],
  ['chill', 'chill 1 h at fridge', 'Cool down in the fridge.'],
  ['freeze', 'freeze 2 h at -18 C', 'Freeze through.'],
  ['thaw', 'thaw 3 h at room', 'Bring back from frozen.'],
  ['score', 'score 2 min', 'Cut the top.'],
  ['preheat', 'preheat 60 min at 240 C', 'Heat the oven; ends when the next bake begins.'],
  ['boil', 'boil 1 min', 'Cook in water.'],
  ['steam', 'steam 15 min', 'Cook in steam.'],
  ['bake', 'bake 25 min at 240 C, lid on', 'Bake in the oven.'],
  ['fry', 'fry 3 min at 175 C', 'Cook in fat.'],
  ['cool', 'cool 2 h', 'Let it cool before it is cut or packed.'],
  ['slice', 'slice 5 min', 'Cut into slices.'],
  ['glaze', 'glaze 5 min', 'Brush or pour the glaze on.'],
  ['fill', 'fill 15 min', 'Put the filling in.'],
  ['whisk', 'whisk 4 min', 'Beat in air.'],
  ['serve', 'serve, warm', 'Bring to the table.'],
  ['do', 'do "turn the tins" 2 min', 'Any other step, by a name of your own.'],
]);

/** What may follow a step, after a comma. */
export const DETAIL_WORDS = words<string>('detail', ['steps', 'part', 'record'], [
  ['at', 'fold at 30 min', 'How long after the bulk begins, or the temperature.'],
  ['every', 'fold every 30 min, 4 times', 'How far apart the folds of a bulk are.'],
  ['times', 'fold every 30 min, 4 times', 'How many folds there are.'],
  ['lid on', 'bake 25 min at 240 C, lid on', 'With the lid on the pot.'],
  ['lid off', 'bake 20 min at 215 C, lid off', 'With the lid off the pot.'],
  ['with steam', 'bake 20 min at 240 C, with steam', 'With steam in the oven.'],
  ['by hand', 'mix 8 min, by hand', 'Without a machine.'],
  ['by mixer', 'mix 6 min, by mixer', 'In the mixer, which warms the dough.'],
  ['until core', 'bake 20 min at 215 C, until core 97 C', 'Until the middle has this temperature.'],
  ['until volume', 'bulk 4 h at 25 C, until volume 75 %', 'Until the dough has grown by this share.'],
  ['until', 'bake 20 min, until "it sounds hollow"', 'Until a sign that you look for.'],
  ['add', 'fold at 60 min, add half of walnuts', 'What goes in at this step, or how much of it.'],
  ['attended', 'boil 5 min, attended', 'Somebody must stand by.'],
  ['unattended', 'bake 25 min, unattended', 'Nobody must stand by.'],
]);

/** Units and the words in their place. */
export const UNIT_WORDS = words<string>('unit', [], [
  ['g', '700 g bread flour', 'Grams.'],
  ['kg', '1.2 kg bread flour', 'Kilograms.'],
  ['mg', '500 mg vitamin powder', 'Milligrams.'],
  ['oz', '8 oz butter', 'Ounces, of 28.35 g.'],
  ['lb', '2 lb bread flour', 'Pounds, of 453.6 g.'],
  ['ml', '250 ml milk', 'Millilitres.'],
  ['l', '1 l milk', 'Litres.'],
  ['tsp', '1 tsp (4.5 g) vanilla extract', 'Teaspoons.'],
  ['tbsp', '2 tbsp honey', 'Tablespoons.'],
  ['cup', '1 cup milk', 'Cups, of the country that is set.'],
  ['fl oz', '4 fl oz cream', 'Fluid ounces.'],
  ['%', '72 % water', 'A share of the flour; in a part without flour, a ratio between its lines.'],
  ['s', 'mix 45 s', 'Seconds.'],
  ['min', 'rest 40 min', 'Minutes.'],
  ['h', 'bulk 3 h 30 min', 'Hours.'],
  ['d', 'chill 2 d', 'Days.'],
  ['overnight', 'retard overnight at 4 C', 'Read as 8 to 14 h; vague, so better given in hours.'],
  ['C', 'bake 25 min at 240 C', 'Degrees Celsius.'],
  ['F', 'bake 25 min at 475 F', 'Degrees Fahrenheit.'],
]);

const ROLE_DOCS: Readonly<Record<Role, string>> = {
  flour: 'Counts as flour: part of the 100 %.',
  liquid: 'Counts as water, as far as it is water.',
  fat: 'Butter, oil and the like.',
  sweetener: 'Sugar, honey and the like.',
  egg: 'Eggs, whole or in part.',
  dairy: 'Milk and what is made of it.',
  salt: 'Salt.',
  leaven: 'Yeast, a starter or a raising powder.',
  inclusion: 'Pieces that stay whole in the crumb: fruit, nuts, seeds.',
  absorber: 'Drinks up water of the dough, but is no flour.',
  spice: 'Gives taste in small amounts.',
  other: 'None of these.',
};

export const ROLE_WORDS: readonly VocabularyWord[] = ROLES.map((role) => ({
  label: role, kind: 'role', doc: ROLE_DOCS[role], example: `80 g rolled oats as ${role}`, allowedIn: ['part'],
}));

/** Every word of the language. A label may come more than once, when it means different things in different blocks. */
export const VOCABULARY: readonly VocabularyWord[] = [
  ...BLOCK_WORDS, ...PROPERTY_WORDS, ...LINE_WORDS, ...AMOUNT_WORDS, ...STEP_WORDS, ...DETAIL_WORDS, ...UNIT_WORDS, ...ROLE_WORDS,
];

/** What a word means in a block of this kind; without a kind, or for a word not tied to one, its first meaning. */
export function lookUp(label: string, block?: BlockKind): VocabularyWord | undefined {
  const meanings = VOCABULARY.filter((word) => word.label === label);
  return meanings.find((word) => block !== undefined && word.allowedIn.includes(block)) ?? meanings[0];
}

export type LineWord = 'makes' | 'uses' | 'based on' | 'swap' | 'set' | 'add' | 'drop';

/** A part is written as the word or words that open it. */
export function isPartWord(label: string): label is PartKind {
  return PART_WORDS.has(label);
}

const OTHER_BLOCKS: readonly string[] = ['use', 'formula', 'dish', 'steps', 'ingredient', 'record', 'plan'];

const PART_WORDS: ReadonlySet<string> = new Set(
  BLOCK_WORDS.map(({ label }) => label).filter((label) => !OTHER_BLOCKS.includes(label)),
);
