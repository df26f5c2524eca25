/**
 * A new name in the form in which the old one stood: `4 duck eggs` becomes `4 goose eggs` when "Duck egg" is called "Goose
 * egg", and a line that had no capital gets none.
 */
import { foldName } from '../../core/ingredients/names';

/** `reference` is how the old name stood where the new one was given, `written` how it stands here. */
export function inTheForm(newName: string, written: string, reference: string): string {
  return inTheCase(inTheNumber(newName, written, reference), written, reference);
}

function inTheCase(newName: string, written: string, reference: string): string {
  const [first = ''] = newName;
  const rest = newName.slice(first.length);
  if (startsLow(written) && startsHigh(reference)) return isAcronym(newName) ? newName : first.toLowerCase() + rest;
  return startsHigh(written) && startsLow(reference) ? first.toUpperCase() + rest : newName;
}

const startsHigh = (text: string): boolean => /^\p{Lu}/u.test(text);
const startsLow = (text: string): boolean => /^\p{Ll}/u.test(text);
const isAcronym = (text: string): boolean => /^\p{Lu}[\p{Lu}\d]/u.test(text);

/** Only English has its number said here; any other word stays as it is given. */
function inTheNumber(newName: string, written: string, reference: string): string {
  const [here, there] = [isPlural(written), isPlural(reference)];
  if (here === there || foldName(written) !== foldName(reference)) return newName;
  const changed = withLastWord(newName, here ? PLURALS : SINGULARS);
  return here && isPlural(newName) ? newName : changed;
}

function isPlural(name: string): boolean {
  return withLastWord(name, SINGULARS) !== name;
}

/** Endings and what stands in their place in the other number, the rarer ones first. */
type Endings = readonly (readonly [ending: RegExp, other: string])[];
const SINGULARS: Endings = [[/ves$/i, 'f'], [/ies$/i, 'y'], [/es$/i, ''], [/s$/i, '']];
const PLURALS: Endings = [[/f$/i, 'ves'], [/(?<=[^aeiou])y$/i, 'ies'], [/(?<=ch|sh|x|s|o)$/i, 'es'], [/(?<=[a-z])$/i, 's']];

/** The name with its last word in another number, if that is still the same name to a look-up. */
function withLastWord(name: string, endings: Endings): string {
  const last = /\S+$/u.exec(name)?.[0] ?? '';
  const changed = endings.map(([ending, other]) => last.replace(ending, other)).find(word => word !== last && foldName(word) === foldName(last));
  return changed === undefined ? name : name.slice(0, name.length - last.length) + changed;
}
