/** What of the characters of a text from elsewhere does not matter: kinds of spaces, marks that nobody sees. */

/** Nothing is seen of these: zero-width marks, soft hyphens, control characters. A tab and a line end stay. */
const UNSEEN = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u2064\ufeff]/g;
const SPACES = /[\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]/g;
const FRACTION_SLASHES = /[\u2044\u2215]/g;

/** The lines of a text, tidied one by one. Their numbers are those of the text. */
export function tidyLines(text: string): readonly string[] {
  return text.split(/\r\n|\r|\n|\u2028|\u2029/).map(tidy);
}

/** One line with plain spaces, plain slashes in fractions, and nothing that cannot be seen. Tabs stay: they part the cells of a table. */
export function tidy(line: string): string {
  return line.replace(SPACES, ' ').replace(UNSEEN, '').replace(FRACTION_SLASHES, '/').replace(/ {2,}/g, ' ').trim();
}

/** With one space where there are some, and tabs too. */
export function oneLine(text: string): string {
  return tidy(text.replace(/\s+/g, ' '));
}

/** Something to read: a rule of dashes or stars is none. */
export function hasWords(line: string): boolean {
  return /[\p{L}\p{N}]/u.test(line);
}

/** Without any of these characters at its end. A pattern would look again and again at a long run of them. */
export function withoutEnd(text: string, characters: string): string {
  let end = text.length;
  while (end > 0 && characters.includes(text[end - 1] ?? '')) end -= 1;
  return text.slice(0, end);
}

export const DASH = /^[-\u2010-\u2015\u2212]$/;
