/** English nouns that agree with a number: pieces in `makes`, and eggs. */

/** `miches` is not more than one `mich`. */
const ENDS_IN_E = /(?:miche|brioche|quiche|tranche|ganache)s$/i;

/** `loaf` for `loaves`, `bunch` for `bunches`, `tin` for `tins`; a word with no plural ending as it is. */
export function singular(noun: string): string {
  if (noun.endsWith('loaves')) return noun.replace(/ves$/, 'f');
  if (ENDS_IN_E.test(noun)) return noun.slice(0, -1);
  return noun.replace(/(ch|sh|x|ss)es$|(?<!s)s$/, '$1');
}

/** `loaves` for `loaf`, `bunches` for `bunch`, `tins` for `tin`; a word that ends in s as it is. */
export function plural(noun: string): string {
  if (noun.endsWith('s')) return noun;
  if (noun.endsWith('loaf')) return noun.replace(/f$/, 'ves');
  return /(?:ch|sh|x)$/.test(noun) ? `${noun}es` : `${noun}s`;
}

/** Words that these rules may touch: others would come out as no word at all. */
const TOUCHABLE = /^[a-z][a-zâéèêëîïôûü' -]*$/i;

/**
 * The noun for a new number, when it agreed with the old one and the change can be taken back; otherwise the noun as it is.
 * Up to one is one: `1/2 loaf`.
 */
export function agreeing(noun: string, before: number, after: number): string {
  const isOne = after <= 1;
  if (isOne === before <= 1 || !TOUCHABLE.test(noun)) return noun;
  const changed = isOne ? singular(noun) : plural(noun);
  return (isOne ? plural(changed) : singular(changed)) === noun ? changed : noun;
}
