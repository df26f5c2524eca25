import type { Comment } from '../../../../grammar';
import type { Place } from '../../formula/model';
import { defineCheck, type Found } from '../define';
import { withoutTail } from '../edits';
import { loaf } from '../examples';
import { linesOf, placeOf } from '../walk';

/** How such a comment begins; the converter writes it, and a baker may. */
const OPENING = /^to decide\s*:\s*/i;

export const toDecide = defineCheck({
  code: 'to-decide',
  severity: 'warning',
  title: 'A comment that says what is left to decide',
  why:
    'A formula that was drafted from another text has questions in it: how much salt is “to taste”, is 900 g the dough or the ' +
    'loaf. Until they are settled the formula is not the bread that somebody meant, and a comment is easily read over.',
  source: 'definition of the language',
  trips: loaf({ more: ['«# to decide: how much? rice flour for dusting»'] }),
  passes: loaf({ more: ['20 g      rice flour for dusting'] }),
  fixed: loaf({}),
  find: ({ section }) => {
    const found: Found[] = [];
    const look = (block: number, comment: Comment | undefined): void => {
      if (comment === undefined || !OPENING.test(comment.text)) return;
      const place: Place = placeOf(block, comment);
      found.push({
        place,
        message: `Left to decide: ${sentence(comment.text.replace(OPENING, ''))} Settle it in the text, then take the comment out.`,
        fixes: [{ title: 'It is settled: take the comment out', certain: false, edits: [withoutTail(section, place)] }],
      });
    };
    section.blocks.forEach((block, index) => {
      for (const line of block.leading) look(index, line.comment);
      look(index, block.head.comment);
    });
    for (const { block, line } of linesOf(section)) look(block, line.comment);
    return found;
  },
});

function sentence(words: string): string {
  const text = words.trim();
  return text === '' ? 'it is not said what.' : /[.?!]$/.test(text) ? text : `${text}.`;
}
