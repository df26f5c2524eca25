/**
 * The tree of a `.bake` file: what the text says, before anything is computed from it.
 *
 * A file is a list of blocks; a block is a head line and the lines indented under it. Every block is parsed on its own
 * from its own text, so all offsets below are UTF-16 offsets into `Block.text`, not into the file: a block that moves
 * keeps its tree. `PlacedBlock` says where a block stands in a file.
 *
 * Everything is plain, immutable data. Nothing here knows an ingredient or computes a weight.
 */

/** A half-open range of UTF-16 offsets within the text of one block. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

// --- numbers and quantities -----------------------------------------------------------------------------------------

/**
 * One number as written: `12`, `0.5`, `1 1/2`, `½`, or the mistaken `2,5` (then `comma` is true, `value` is what was meant,
 * and the block has a `comma-decimal` problem). `value` is always finite and not negative.
 */
export interface Num extends Span {
  readonly value: number;
  /** As the author wrote it, so that printing changes nothing. */
  readonly text: string;
  readonly comma: boolean;
}

/** A number or a range of two (`4 to 5`). `high` is undefined for a plain number. */
export interface Quantity extends Span {
  readonly low: Num;
  readonly high: Num | undefined;
}

export type MassUnit = 'g' | 'kg' | 'mg' | 'oz' | 'lb';
export type VolumeUnit = 'ml' | 'l' | 'tsp' | 'tbsp' | 'cup' | 'fl oz';
export type TimeUnit = 's' | 'min' | 'h' | 'd';

export interface MassAmount extends Span {
  readonly kind: 'mass';
  readonly quantity: Quantity;
  readonly unit: MassUnit;
}

export interface VolumeAmount extends Span {
  readonly kind: 'volume';
  readonly quantity: Quantity;
  readonly unit: VolumeUnit;
  /** The weight in brackets, which is then the one that counts: `1 tsp (4.5 g)`. */
  readonly bracket?: MassAmount;
}

/** `4 eggs`: a number and a name, no unit. */
export interface CountAmount extends Span {
  readonly kind: 'count';
  readonly quantity: Quantity;
  readonly bracket?: MassAmount;
}

/** `72 %`. What 100 % is depends on the block. */
export interface ShareAmount extends Span {
  readonly kind: 'share';
  readonly quantity: Quantity;
  readonly bracket?: MassAmount;
}

/** `all levain`. */
export interface AllAmount extends Span {
  readonly kind: 'all';
}

/** `pinch`, `2 pinches`: vague by nature. `quantity` is undefined for a bare `pinch`. */
export interface PinchAmount extends Span {
  readonly kind: 'pinch';
  readonly quantity: Quantity | undefined;
  readonly bracket?: MassAmount;
}

export type Amount = MassAmount | VolumeAmount | CountAmount | ShareAmount | AllAmount | PinchAmount;

/** A name of an ingredient, part or formula. `text` is without quotes, inner spaces single. `end` includes the quotes. */
export interface Name extends Span {
  readonly text: string;
  readonly quoted: boolean;
}

/** Free text: a quoted note, or words after a comma. `text` is without quotes. */
export interface Text extends Span {
  readonly text: string;
  readonly quoted: boolean;
}

/** A length of time or a range of it, in minutes. `overnight` is 480 to 840 and `vague`. For a plain length low = high. */
export interface Duration extends Span {
  readonly lowMinutes: number;
  readonly highMinutes: number;
  readonly vague: boolean;
}

/** A temperature in Celsius, whatever it was written in; or a word whose value the formula gives. */
export type Temperature =
  | (Span & { readonly kind: 'degrees'; readonly lowCelsius: number; readonly highCelsius: number; readonly unit: 'C' | 'F' })
  | (Span & { readonly kind: 'room' | 'fridge' });

// --- roles, styles, kinds -------------------------------------------------------------------------------------------

export const ROLES = [
  'flour', 'liquid', 'fat', 'sweetener', 'egg', 'dairy', 'salt', 'leaven', 'inclusion', 'absorber', 'spice', 'other',
] as const;
export type Role = (typeof ROLES)[number];

export const PREFERMENT_KINDS = ['levain', 'poolish', 'biga', 'sponge', 'old dough'] as const;
export const PART_KINDS = [
  ...PREFERMENT_KINDS, 'soaker', 'scald', 'filling', 'topping', 'glaze', 'wash', 'custard', 'part', 'dough', 'batter', 'total formula',
] as const;
export type PartKind = (typeof PART_KINDS)[number];

export const STEP_KINDS = [
  'mix', 'knead', 'autolyse', 'rest', 'bulk', 'fold', 'stretch and fold', 'coil fold', 'laminate', 'divide', 'preshape', 'shape',
  'proof', 'retard', 'ripen', 'soak', 'chill', 'freeze', 'thaw', 'score', 'preheat', 'boil', 'steam', 'bake', 'fry', 'cool', 'slice',
  'glaze', 'fill', 'whisk', 'serve', 'do',
] as const;
export type StepKind = (typeof STEP_KINDS)[number];

// --- lines ----------------------------------------------------------------------------------------------------------

/**
 * Why a line is kept out of the dough: `for dusting`, `for the pan`, `for the top`, or any other words after `for`. The span
 * has `for` in it, `text` has not.
 */
export interface Purpose extends Span {
  readonly text: string;
}

/** `amount name [at temperature | at N % hydration] [as role] [for …] [, note]` */
export interface IngredientLine extends Span {
  readonly kind: 'ingredient';
  readonly amount: Amount;
  readonly name: Name;
  readonly temperature?: Temperature;
  /** `at 60 % hydration`, only meant for a starter. A percentage. */
  readonly hydrationPct?: Num;
  readonly role?: Span & { readonly role: Role };
  readonly purpose?: Purpose;
  readonly note?: Text;
}

/** `15 % of flour in levain`: how much of all the flour a preferment holds. Only in a `total formula`. */
export interface FlourShareLine extends Span {
  readonly kind: 'flour-share';
  readonly amount: ShareAmount;
  readonly part: Name;
}

/** `uses 8 slices of "Fig and walnut rye"` in a dish. Without `of`, `uses 300 g "Name"`. */
export interface UsesLine extends Span {
  readonly kind: 'uses';
  readonly amount: Amount;
  /** `slices`, `loaves`; undefined for a mass. */
  readonly noun?: Text;
  readonly formula: Name;
  readonly note?: Text;
}

/** In a record `until` may be left out: `volume 70 %` is an `until-volume`, too. */
export type StepDetail = Span &
  (
    | { readonly kind: 'lid'; readonly on: boolean }
    | { readonly kind: 'steam' }
    | { readonly kind: 'by'; readonly how: 'hand' | 'mixer' }
    | { readonly kind: 'until-core'; readonly temperature: Temperature }
    | { readonly kind: 'until-volume'; readonly percent: Num }
    | { readonly kind: 'until'; readonly text: Text }
    | { readonly kind: 'add'; readonly portion: Portion; readonly name: Name }
    | { readonly kind: 'at'; readonly offset: Duration }
    | { readonly kind: 'every'; readonly interval: Duration }
    | { readonly kind: 'times'; readonly count: Num }
    | { readonly kind: 'attended'; readonly attended: boolean }
    | { readonly kind: 'note'; readonly text: Text }
  );

/** How much of an ingredient a step adds. `fraction` is 0 to 1 (`half of`, `1/3 of`, `40 % of`). */
export type Portion =
  | { readonly kind: 'whole' }
  | { readonly kind: 'fraction'; readonly fraction: number }
  | { readonly kind: 'rest' }
  | { readonly kind: 'amount'; readonly amount: Amount };

/** `kind [duration] [at temperature] [, detail]…`. Refining lines (folds) are the children of its `Line`. */
export interface StepLine extends Span {
  readonly kind: 'step';
  readonly step: StepKind;
  readonly keyword: Span;
  /** What `do "anything"` does. */
  readonly label?: Text;
  readonly duration?: Duration;
  readonly temperature?: Temperature;
  readonly details: readonly StepDetail[];
}

/** `makes 2 loaves of 970 g`, `makes 2 loaves`, `makes 1.8 kg`, `makes 2 tins of 1.8 l`. */
export interface MakesLine extends Span {
  readonly kind: 'makes';
  readonly keyword: Span;
  readonly pieces?: Quantity;
  readonly noun?: Text;
  /** The weight (or the tin's volume) of one piece; with no `pieces`, of the whole. */
  readonly each?: MassAmount | VolumeAmount;
}

/** Every other `key value` line. `key` is the word(s) that open it. */
export interface PropertyLine extends Span {
  readonly kind: 'property';
  readonly key: PropertyKey;
  readonly keyword: Span;
  readonly value: PropertyValue;
}

export type PropertyKey =
  // formula and dish
  | 'style' | 'room' | 'fridge' | 'flour' | 'friction' | 'loses' | 'altitude' | 'note' | 'source' | 'author' | 'version' | 'serves'
  // parts
  | 'keep' | 'yields'
  // ingredient
  | 'like' | 'water' | 'protein' | 'fat' | 'sugar' | 'salt' | 'fibre' | 'absorbs' | 'density' | 'each' | 'costs' | 'contains' | 'role'
  // record
  | 'dough' | 'core' | 'weighed' | 'ph'
  // plan
  | 'ready' | 'start' | 'asleep' | 'away' | 'oven' | 'mixer' | 'hands' | 'pots' | 'bake' | 'make';

/** `kind` follows from the key; a value that could not be read is `missing` (and a problem says so). */
export type PropertyValue =
  | { readonly kind: 'missing' }
  | { readonly kind: 'text'; readonly text: Text }
  | { readonly kind: 'list'; readonly items: readonly Text[] } // style, contains
  | { readonly kind: 'temperature'; readonly temperature: Temperature }
  | { readonly kind: 'difference'; readonly celsius: number } // friction: a difference of temperatures
  | { readonly kind: 'loss'; readonly percent: Num; readonly where: 'oven' | 'bench' } // loses
  | { readonly kind: 'amount'; readonly amount: Amount } // keep, yields, each, and shares of an ingredient
  | { readonly kind: 'number'; readonly number: Num; readonly high?: Num } // serves (4 to 6), ph, absorbs (times its weight)
  | { readonly kind: 'altitude'; readonly metres: number }
  | { readonly kind: 'density'; readonly mass: MassAmount; readonly volume: VolumeUnit }
  | { readonly kind: 'cost'; readonly number: Num; readonly currency: string; readonly unit: MassUnit | VolumeUnit | 'each' }
  | { readonly kind: 'name'; readonly name: Name } // like
  | { readonly kind: 'weighed'; readonly mass: MassAmount; readonly pieces?: Quantity; readonly noun?: Text; readonly after?: Duration }
  | { readonly kind: 'instant'; readonly date: string; readonly time?: string; readonly zone?: string } // 2026-03-14, 08:00, Europe/Lisbon
  | { readonly kind: 'clock-range'; readonly from: string; readonly to: string; readonly days?: readonly DayRange[] } // 22:30, 05:30, Mon to Fri
  /** `oven "deck" holds 3 decks of 4 loaves or 24 rolls`: a name, decks that are heated apart, and what one of them holds. */
  | { readonly kind: 'capacity'; readonly name?: Name; readonly decks?: Holding; readonly holds: readonly Holding[] }
  /** `bake 6 loaves of "…", ready 07:00`: with a unit, so much dough instead of pieces. */
  | {
      readonly kind: 'order';
      readonly quantity: Quantity;
      readonly unit?: MassUnit;
      readonly noun?: Text;
      readonly formula: Name;
      readonly ready?: OrderTime;
    };

/** Days of the week, 1 for Monday to 7 for Sunday: `Sat` (twice the same), `Mon to Fri`, `Fri to Mon`. */
export interface DayRange extends Span {
  readonly from: number;
  readonly to: number;
}

/** What there is room for: `4 loaves`, `2`, `3 kg`, `2 kg of flour` (then the noun is `flour`). */
export interface Holding extends Span {
  readonly quantity: Quantity;
  readonly unit?: MassUnit;
  readonly noun?: Text;
}

/** When one order is ready, where it is not when the whole day is. */
export interface OrderTime extends Span {
  readonly date?: string;
  readonly time: string;
}

/** Lines of a variant. `part` is the one named after `in`. */
export type DeltaLine =
  | (Span & { readonly kind: 'based-on'; readonly keyword: Span; readonly base: Name })
  | (Span & { readonly kind: 'swap'; readonly keyword: Span; readonly from: Name; readonly to: Name; readonly part?: Name })
  | (Span & { readonly kind: 'set'; readonly keyword: Span; readonly name: Name; readonly amount: Amount; readonly part?: Name })
  | (Span & { readonly kind: 'add'; readonly keyword: Span; readonly line: IngredientLine; readonly part?: Name })
  | (Span & { readonly kind: 'drop'; readonly keyword: Span; readonly name: Name; readonly part?: Name });

/** A line with nothing but a comment, or nothing at all. */
export interface TriviaLine extends Span {
  readonly kind: 'blank' | 'comment';
}

/** A line that could not be read. Its text is kept as it is. */
export interface BadLine extends Span {
  readonly kind: 'bad';
}

export type BodyNode =
  | IngredientLine | FlourShareLine | UsesLine | StepLine | MakesLine | PropertyLine | DeltaLine | TriviaLine | BadLine;

/**
 * A comment, `#` included in the span but not in `text`. `accept` is set when it silences checks:
 * `# accept inclusion-load: the fruit is soaked`.
 */
export interface Comment extends Span {
  readonly text: string;
  readonly accept?: { readonly codes: readonly (Span & { readonly code: string })[]; readonly reason: string };
}

/** One line of the file with the deeper lines that refine it. The span runs from its first character that is not a space to its end, comment included. */
export interface Line<N = BodyNode> extends Span {
  readonly node: N;
  readonly comment?: Comment;
  readonly children: readonly Line[];
}

// --- blocks ---------------------------------------------------------------------------------------------------------

export type Head = Span &
  (
    | { readonly kind: 'use'; readonly keyword: Span; readonly path?: Text }
    | { readonly kind: 'formula' | 'dish' | 'plan' | 'ingredient'; readonly keyword: Span; readonly name?: Name }
    | {
        readonly kind: 'part';
        readonly keyword: Span;
        readonly part: PartKind;
        readonly name?: Name;
        /** `dough at 25 C`: the temperature wanted. */
        readonly temperature?: Temperature;
      }
    | { readonly kind: 'steps'; readonly keyword: Span }
    | { readonly kind: 'record'; readonly keyword: Span; readonly date?: string }
    /** A first-column line that opens no known block. Its indented lines are kept as they are. */
    | { readonly kind: 'unknown' }
    /** Lines before the first block, or a file with no block at all. The head has no text then. */
    | { readonly kind: 'none' }
  );

/** The kinds of blocks that have lines of their own. */
export type BlockKind = 'formula' | 'dish' | 'part' | 'steps' | 'ingredient' | 'record' | 'plan';

export interface Block {
  /** The exact text of the block: leading comment and blank lines, head, body, line ends. */
  readonly text: string;
  /** Blank lines and first-column comments just above the head. */
  readonly leading: readonly Line<TriviaLine>[];
  readonly head: Line<Head>;
  readonly lines: readonly Line[];
  /** What could not be read. Never empty when a `bad` line or an `unknown` head is in the block. */
  readonly problems: readonly Problem[];
}

/** Something the parser could not read, in a baker's words. */
export interface Problem extends Span {
  readonly code: ProblemCode;
  readonly message: string;
  /** A repair that is certain. */
  readonly fix?: { readonly title: string; readonly edits: readonly (Span & { readonly newText: string })[] };
}

export type ProblemCode =
  /** A line, or the rest of it, that says nothing the language knows here. */
  | 'not-understood'
  /** A first-column line that opens no block. */
  | 'unknown-block'
  /** A quote that is opened and not closed on its line. */
  | 'quote-open'
  /** `2,5` for `2.5`. The fix is certain; the value is read as meant. */
  | 'comma-decimal'
  /** Something that must be there is missing: a unit, a name, a path. */
  | 'incomplete'
  /** A known line in a block where it means nothing. */
  | 'out-of-place'
  /** An `accept` comment without a reason, or without a code. */
  | 'accept-without-reason';

/** A block and where it stands in its file. */
export interface PlacedBlock {
  readonly block: Block;
  /** UTF-16 offset of the block's text in the file. */
  readonly offset: number;
}

export interface Tree {
  readonly blocks: readonly PlacedBlock[];
}
