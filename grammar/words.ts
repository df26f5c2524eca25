/** Small things about pieces of the author's text. */

/** The text without spaces around it, and with one space wherever it has some. */
export function oneSpaced(text: string): string {
  return text.trim().replace(/\s+/g, ' ');
}

/** A piece of the author's text that is short enough to stand in a message. */
export function shorten(text: string): string {
  if (text.length <= 40) return text;
  // A character of two units is not cut in half.
  return `${text.slice(0, 39).replace(/[\ud800-\udbff]$/, '')}…`;
}
