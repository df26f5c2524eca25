import { isHeadless } from '../../formula/sections';
import { defineCheck } from '../define';
import { lineEnd } from '../edits';
import { headPlace } from '../walk';

const dough = `dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`;

export const noFormula = defineCheck({
  code: 'no-formula',
  severity: 'info',
  title: 'Parts that belong to no formula',
  why:
    'Parts and steps belong to the `formula` above them. Without one they are reckoned all the same, but have no name: ' +
    'no plan ' +
    'can bake them, no dish can take them in, and they have no size, room or style.',
  source: 'definition of the language',
  trips: `«dough»${dough.slice('dough'.length)}`,
  passes: `formula "Country loaf"

${dough}`,
  fixed: `formula "Untitled"

${dough}`,
  find: ({ section }) => {
    // A head that cannot be read may be the formula; that is the finding then.
    if (
      !isHeadless(section) ||
      section.blocks.some(({ head, problems }) => head.node.kind === 'unknown' || (head.node.kind === 'none' && problems.length > 0))
    ) {
      return [];
    }
    const at = Math.max(0, section.blocks.findIndex(({ head }) => head.node.kind === 'part'));
    const place = headPlace(section, at);
    const end = lineEnd(section, at);
    const first = section.blocks[0]?.head;
    return [
      {
        place,
        message:
          'These parts belong to no formula, so nothing can call them by name or say how much they make. Put a line ' +
          'like `formula "Untitled"` above them.',
        fixes:
          first === undefined
            ? []
            : [{ title: 'Put `formula "Untitled"` above', certain: false, edits: [{ place: { block: 0, start: first.start, end: first.start }, newText: `formula "Untitled"${end}${end}` }] }],
      },
    ];
  },
});
