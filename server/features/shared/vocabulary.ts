/** The grammar's own words about its words, in the shapes that hover and completion need. */
import { lookUp } from '../../../grammar';
import type { BlockKind } from '../../../grammar';
import { code, paragraphs } from './markdown';

/** One sentence on a word, and a line with it. Empty for a word that the language does not have. */
export function wordWithExample(label: string, block?: BlockKind): string {
  const word = lookUp(label, block);
  return word === undefined ? '' : paragraphs(word.doc, `Written like this: ${code(word.example)}`);
}

/** One sentence on a word. */
export function wordMeans(label: string, block?: BlockKind): string {
  return lookUp(label, block)?.doc ?? '';
}
