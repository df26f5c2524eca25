/** Headings of a card: which part of a formula they open, or what follows them. */
import type { PartKind } from '../../../grammar';

export interface PartHeading {
  readonly kind: PartKind;
  /** Undefined where the kind says it all. */
  readonly name: string | undefined;
  /** What else the heading says. */
  readonly comment: string | undefined;
  readonly decide: string | undefined;
  /** Its words are known: such a heading needs no colon. */
  readonly isKnown: boolean;
}

const KINDS: readonly (readonly [PartKind, string])[] = [
  ['levain', 'levain|leaven|sour|rye sour|sourdough starter|starter|starter build|levain build|sourdough levain|sourdough'],
  ['poolish', 'poolish'],
  ['biga', 'biga'],
  ['sponge', 'sponge|preferment|pre-ferment|pre-dough|predough'],
  ['old dough', 'old dough|pâte fermentée|pate fermentee'],
  ['soaker', 'soaker|soak'],
  ['scald', 'scald|tangzhong|yudane|water roux|roux'],
  ['filling', 'filling|stuffing'],
  ['topping', 'topping|toppings|streusel|crumble'],
  ['glaze', 'glaze|icing|frosting|syrup'],
  ['wash', 'wash|egg wash'],
  ['custard', 'custard'],
  ['batter', 'batter'],
  ['dough', 'dough|final dough|main dough|bread dough|bread|loaf|loaves|rolls|buns|base'],
];
const BY_NAME: ReadonlyMap<string, PartKind> = new Map(KINDS.flatMap(([kind, names]) => names.split('|').map((name) => [name, kind] as const)));
/** Headings that could as well be a line of ingredients or a title: they take a colon. */
const NEEDS_COLON = new Set(['starter', 'sourdough starter', 'sourdough', 'bread', 'loaf', 'loaves', 'rolls', 'buns', 'base', 'syrup', 'roux', 'soak', 'wash']);
const MOST_WORDS = 6;

/** A heading, without its colon or marks; undefined where the words are none. `marked`: a colon, or a mark of a heading, says that it is one. */
export function partHeading(text: string, marked: boolean): PartHeading | undefined {
  const bracket = text.indexOf('(');
  const aside = bracket > 0 ? text.slice(bracket).replace(/^\(|\)$/g, '').trim() : '';
  const [words = '', ...rest] = (bracket > 0 ? text.slice(0, bracket) : text).split(/,| [-–—] /);
  const said = words.trim();
  const name = said.replace(/^for (?:the )?|^the |^to make (?:the )?/i, '').trim();
  const comment = [aside, ...rest.map((piece) => piece.trim())].filter((piece) => piece !== '').join(', ') || undefined;
  if (name === '' || name.split(' ').length > MOST_WORDS || !/^[\p{L}\p{M}'’ -]+$/u.test(name)) return undefined;
  const lower = name.toLowerCase();
  const isFor = name.length < said.length;
  const exact = BY_NAME.get(lower);
  if (exact !== undefined) {
    if (!marked && !isFor && NEEDS_COLON.has(lower)) return undefined;
    const isGeneral = lower === 'preferment' || lower.startsWith('pre');
    const isPlain = exact === 'dough' || lower === exact || exact === 'topping' && lower === 'toppings' || (exact === 'levain' && !/sour$|build$/.test(lower));
    const beside = isPlain && lower !== exact ? [name, comment].filter((piece) => piece !== undefined).join(', ') : comment;
    return { kind: exact, name: isPlain ? undefined : name, comment: beside, decide: isGeneral ? 'is it a sponge, a poolish, a biga or a levain?' : undefined, isKnown: true };
  }
  const last = lower.split(' ').at(-1) ?? '';
  const kind = BY_NAME.get(last);
  if (kind !== undefined && !NEEDS_COLON.has(last)) return { kind, name: kind === 'dough' ? undefined : name, comment: kind === 'dough' ? [name, comment].filter((piece) => piece !== undefined).join(', ') : comment, decide: undefined, isKnown: true };
  if (!marked) return undefined;
  return { kind: 'part', name, comment, decide: undefined, isKnown: false };
}

export type Marker = 'ingredients' | 'method' | 'notes';

const MARKERS: ReadonlyMap<string, Marker> = new Map([
  ...['ingredients', 'ingredient', 'ingredient list', 'you need', 'you will need', 'what you need', 'formula', 'recipe', 'ingredientes', 'ingrédients', 'ingredienti', 'zutaten'].map((word) => [word, 'ingredients'] as const),
  ...['method', 'directions', 'direction', 'instructions', 'preparation', 'procedure', 'steps', 'how to make it', 'what to do', 'process', 'preparo', 'modo de preparo', 'preparação',
    'préparation', 'zubereitung', 'preparazione'].map((word) => [word, 'method'] as const),
  ...['notes', 'note', 'tips', 'tip', 'storage', 'notas', 'hinweise'].map((word) => [word, 'notes'] as const),
]);

/** What follows a heading such as `Method`. */
export function markerOf(heading: string): Marker | undefined {
  return MARKERS.get(heading.toLowerCase().trim());
}
