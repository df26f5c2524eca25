/** Paragraphs cut into sentences. */

/** A full stop behind these ends no sentence. */
const SHORT_WORDS = new Set(['approx', 'min', 'mins', 'hr', 'hrs', 'ca', 'oz', 'lb', 'tbsp', 'tsp', 'no', 'deg', 'temp', 'e.g', 'i.e', 'g', 'ml', 'c', 'f', 'vs']);

/** The sentences of a paragraph, each with its full stop; a semicolon ends one, too. */
export function sentencesOf(paragraph: string): readonly string[] {
  const sentences: string[] = [];
  let start = 0;
  for (let index = 0; index < paragraph.length; index += 1) {
    if (!isEnd(paragraph, index)) continue;
    const sentence = paragraph.slice(start, index + 1).trim();
    if (sentence !== '') sentences.push(sentence);
    start = index + 1;
  }
  const last = paragraph.slice(start).trim();
  return last === '' ? sentences : [...sentences, last];
}

function isEnd(text: string, index: number): boolean {
  const sign = text[index];
  if (sign === ';') return true;
  if (sign !== '.' && sign !== '!' && sign !== '?') return false;
  if (!/^\s+["'“‘(]?[\p{Lu}\p{N}]/u.test(text.slice(index + 1, index + 8))) return false;
  const before = /([\p{L}.]{1,12})$/u.exec(text.slice(Math.max(0, index - 12), index))?.[1]?.toLowerCase() ?? '';
  // `30 min. Then` does end one; before a number or a small letter it would not.
  return !SHORT_WORDS.has(before) || /^\s+\p{Lu}\p{Ll}/u.test(text.slice(index + 1, index + 8));
}
