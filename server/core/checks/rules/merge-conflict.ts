import { conflictMarkIn } from '../../compare/conflict';
import type { Section } from '../../formula/model';
import { defineCheck } from '../define';
import { placeOf } from '../walk';

export const mergeConflict = defineCheck({
  code: 'merge-conflict',
  severity: 'error',
  title: 'Two versions that a merge has left',
  why:
    'Where two people have changed the same lines, git writes both versions into the file, between marks. Nobody can bake from both, so '
    + 'nothing else is found in such a formula until one of them is chosen.',
  source: 'definition of the language',
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
«<<<<<<< HEAD»
  700 g     water
=======
  720 g     water
>>>>>>> wetter
  20 g      salt
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  720 g     water
  20 g      salt
`,
  find: ({ section }) => {
    const marks = marksIn(section);
    const [first] = marks;
    if (first === undefined) return [];
    const count = marks.filter(({ mark }) => mark === 'begin').length;
    return [{
      place: first.place,
      message: `A merge has left both versions of some lines here${count > 1 ? `, in ${String(count)} places` : ''}, and nothing can be weighed from both. Keep the lines that you want, and take out the marks `
        + '(<<<<<<<, =======, >>>>>>>). "proofsheet compare" with the name of the file tells what the two versions differ in.',
      related: marks.slice(1).map(({ place, mark }) => ({ place, message: RELATED[mark] })),
    }];
  },
});

const RELATED = {
  begin: 'another one begins', base: 'what both began from', middle: 'the other version', end: 'the end of both',
} as const;

/** True where a merge has left marks, in a base too: what else would be found follows from them. */
export function isConflicted(section: Section): boolean {
  for (let one: Section | undefined = section; one !== undefined; one = one.variant?.base) if (hasMarks(one)) return true;
  return false;
}

function hasMarks(section: Section): boolean {
  return section.blocks.some(({ head, text }) => head.node.kind === 'unknown' && conflictMarkIn(text.slice(head.start, head.end)) !== undefined);
}

function marksIn({ blocks }: Section) {
  return blocks.flatMap(({ head, text }, index) => {
    const mark = head.node.kind === 'unknown' ? conflictMarkIn(text.slice(head.start, head.end)) : undefined;
    return mark === undefined ? [] : [{ mark, place: placeOf(index, head) }];
  });
}
