/** How many pieces of what weight, as somebody types it: `4 loaves of 900 g`, `4 x 900g`. */
import type { Kind } from './kinds';

export interface Size {
  readonly pieces: number;
  /** Of dough, before the oven. */
  readonly pieceGrams: number;
  /** The weight in the unit that it was typed in: `2 lb`. */
  readonly weight: string;
  /** `loaves`, `loaf` where it is one. */
  readonly noun: string;
}

/** More than any bench takes at a time; whatever is above is a slip. */
export const MOST_PIECES = 500;

const GRAMS_PER: Readonly<Record<string, number>> = { g: 1, kg: 1000, oz: 28.349523125, lb: 453.59237 };
const WRITTEN = /^(\d+)\s*([a-z]+?)??\s*(?:x|×|of|at)?\s*(\d+(?:\.\d+)?)\s*(g|kg|oz|lb)?$/;

/** The usual batch of a kind, as it would be typed. */
export function usualSize({ nouns, pieces, pieceGrams }: Kind): string {
  return `${pieces} ${nouns[0]?.[1] ?? 'pieces'} of ${pieceGrams} g`;
}

/** What was typed, or in a sentence why it cannot be that. A number without a unit is grams. */
export function sizeFrom(text: string, kind: Kind): Size | string {
  const { nouns, leastPieceGrams, mostPieceGrams, label } = kind;
  const example = usualSize(kind);
  const typed = text.trim().toLowerCase();
  if (/\d,\d/.test(typed)) return `Write a point in numbers: ${typed.replaceAll(/(\d),(\d)/g, '$1.$2')}`;
  const [, count = '', word, amount = '', unit = 'g'] = WRITTEN.exec(typed) ?? [];
  if (count === '') return `Write a number of pieces and the weight of each, such as: ${example}`;
  const forms = word === undefined ? nouns[0] : nouns.find((each) => each.includes(word));
  if (forms === undefined) return `A ${label.toLowerCase()} is counted in ${nouns.map(([, many]) => many).join(' or ')}. Write it so: ${example}`;
  const pieces = Number(count);
  if (pieces < 1 || pieces > MOST_PIECES) return `${pieces} pieces cannot be made at once. Write 1 to ${MOST_PIECES}.`;
  const pieceGrams = Number(amount) * (GRAMS_PER[unit] ?? 1);
  if (pieceGrams < leastPieceGrams || pieceGrams > mostPieceGrams) {
    const given = unit === 'g' ? '' : `, which is ${Math.round(pieceGrams)} g`;
    return `${Number(amount)} ${unit} of dough for a piece${given}: this method is for ${leastPieceGrams} to ${mostPieceGrams} g. Write a weight between, or take another kind.`;
  }
  return { pieces, pieceGrams, weight: `${Number(amount)} ${unit}`, noun: pieces === 1 ? forms[0] : forms[1] };
}
