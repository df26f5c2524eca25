/** Names of files from names of formulas, that every file system takes. */

/** Letters that do not come apart into a plain letter and an accent. */
const PLAIN_LETTERS: Readonly<Record<string, string>> = { ß: 'ss', æ: 'ae', œ: 'oe', ø: 'o', đ: 'd', ð: 'd', þ: 'th', ł: 'l', ı: 'i' };
/** Devices of Windows: no file may be called so, whatever its ending. */
const RESERVED = /^(?:con|prn|aux|nul|com\d|lpt\d)$/;
const LONGEST = 60;

/**
 * `two-ferment-country-loaf.html`: small letters, digits and hyphens. A name with none of these is `formula`. `taken` has the names that
 * there are, and gets the new one; one that is taken gets a number.
 */
export function fileNameOf(name: string, ending: string, taken: Set<string>): string {
  const plain = name.toLowerCase().replace(/[ßæœøđðþłı]/g, (letter) => PLAIN_LETTERS[letter] ?? '').normalize('NFKD').replace(/\p{M}/gu, '');
  const words = plain.replace(/['’]/g, '').replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '').slice(0, LONGEST).replace(/-+$/, '');
  const stem = words === '' ? 'formula' : RESERVED.test(words) ? `${words}-formula` : words;
  for (let number = 1; ; number += 1) {
    const file = `${stem}${number === 1 ? '' : `-${String(number)}`}.${ending}`;
    if (taken.has(file)) continue;
    taken.add(file);
    return file;
  }
}
