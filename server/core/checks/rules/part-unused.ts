import type { CheckContext, Fix } from '../check';
import { defineCheck, sizeIsMisread, troublesOf } from '../define';
import { lineBelow } from '../edits';
import { named, nearestWords, writtenName } from '../words';

export const partUnused = defineCheck({
  code: 'part-unused',
  severity: 'warning',
  title: 'A part that nothing takes in',
  why:
    'A levain or soaker that no later part takes in is made, paid for and left in its bowl. Its flour and water ' +
    'count nowhere, so the totals are not those of the dough you mean.',
  source: 'definition of the language',
  trips: `formula "Country loaf"

«levain»
  100 g     bread flour
  100 g     water
  20 g      starter

dough
  900 g     bread flour
  600 g     water
  20 g      salt
`,
  passes: `formula "Country loaf"

levain
  100 g     bread flour
  100 g     water
  20 g      starter

dough
  900 g     bread flour
  600 g     water
  20 g      salt
  all       levain
`,
  fixed: `formula "Country loaf"

levain
  100 g     bread flour
  100 g     water
  20 g      starter

dough
  900 g     bread flour
  600 g     water
  20 g      salt
  all       levain
`,
  find: (context) =>
    unusedParts(context).map(({ place, name }) => ({
      place,
      message:
        `Nothing takes ${named(name)} in, so it never reaches the dough. Add a line \`all ${writtenName(name)}\` to ` +
        'the part that uses it.',
      fixes: takeIntoDough(context, name),
    })),
});

/**
 * Parts that are missed only because of another mistake are left out, since that one speaks for them: a name that two
 * parts have, a name mistyped where the part is taken in, and a line that cannot be read, which may be the one.
 */
function unusedParts(context: CheckContext) {
  if (sizeIsMisread(context.section)) {
    return [];
  }
  const twice = troublesOf(context, 'part-twice').map(({ name }) => name.toLowerCase());
  const mistyped = troublesOf(context, 'part-missing').flatMap(({ name, nearest }) => nearestWords(name, nearest, 1));
  const spokenFor = new Set([...twice, ...mistyped.map((name) => name.toLowerCase())]);
  return troublesOf(context, 'part-unused').filter(({ name }) => !spokenFor.has(name.toLowerCase()));
}

function takeIntoDough({ section, formula }: CheckContext, name: string): readonly Fix[] {
  const dough = formula?.dough === undefined ? undefined : formula.parts[formula.dough];
  if (dough === undefined || formula?.isTotalFormula === true) {
    return [];
  }
  const last = section.blocks[dough.block]?.lines.filter(({ node }) => node.kind === 'ingredient').at(-1);
  if (last === undefined) {
    return [];
  }
  // Amounts stand in a column; the new line keeps the one of the line above it.
  const node = last.node;
  const width = node.kind === 'ingredient' ? Math.max(4, node.name.start - node.start) : 4;
  return [
    {
      title: `Take all of it into ${named(dough.name)}`,
      certain: false,
      edits: [lineBelow(section, dough.block, last.start, last.end, `${'all'.padEnd(width)}${writtenName(name)}`)],
    },
  ];
}
