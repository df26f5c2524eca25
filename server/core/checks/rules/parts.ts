/** Checks on how the parts of a formula take each other in. */
import type { CheckContext, Fix } from '../check';
import { defineCheck, troublesOf } from '../define';
import { lineBelow, scaledBlock } from '../edits';
import { grams, listed, named, nearestWords, quotedName, writtenName } from '../words';

export const partMissing = defineCheck({
  code: 'part-missing',
  severity: 'error',
  title: 'A part is taken in that nothing makes',
  why:
    '`all levain` takes in everything that the part of that name makes. If no part has the name, its flour, water and weight are missing from ' +
    'the dough, and no total can be trusted.',
  source: 'definition of the language',
  trips: `formula "Country loaf"

levain
  100 g     bread flour
  100 g     water
  20 g      starter

dough
  900 g     bread flour
  600 g     water
  all       «levian»
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
  all       levain
  20 g      salt
`,
  fixed: `formula "Country loaf"

levain
  100 g     bread flour
  100 g     water
  20 g      starter

dough
  900 g     bread flour
  600 g     water
  all       levain
  20 g      salt
`,
  find: (context) =>
    troublesOf(context, 'part-missing').map(({ place, name, nearest }) => {
      const near = nearestWords(name, nearest);
      const there = nearest.length === 0 ? 'This formula makes no part yet' : `The parts here are ${listed(nearest.map(named))}`;
      return {
        place,
        message: `No part is called ${named(name)}, so nothing is taken in. ${there}: write one of these names, or open a part \`part ${quotedName(name)}\`.`,
        fixes: near.map((candidate) => ({
          title: `Take in ${named(candidate)}`,
          certain: false,
          edits: [{ place, newText: writtenName(candidate) }],
        })),
      };
    }),
});

export const partUnused = defineCheck({
  code: 'part-unused',
  severity: 'warning',
  title: 'A part that nothing takes in',
  why:
    'A levain or soaker that no later part takes in is made, paid for and left in its bowl. Its flour and water count nowhere, so the totals ' +
    'are not those of the dough you mean.',
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
      message: `Nothing takes ${named(name)} in, so it never reaches the dough. Add a line \`all ${writtenName(name)}\` to the part that uses it.`,
      fixes: takeIntoDough(context, name),
    })),
});

/**
 * Parts that are missed only because of another mistake are left out, since that one speaks for them: a name that two
 * parts have, and a name mistyped where the part is taken in.
 */
function unusedParts(context: CheckContext) {
  const twice = troublesOf(context, 'part-twice').map(({ name }) => name.toLowerCase());
  const mistyped = troublesOf(context, 'part-missing').flatMap(({ name, nearest }) => nearestWords(name, nearest, 1));
  const spokenFor = new Set([...twice, ...mistyped.map((name) => name.toLowerCase())]);
  return troublesOf(context, 'part-unused').filter(({ name }) => !spokenFor.has(name.toLowerCase()));
}

function takeIntoDough({ section, formula }: CheckContext, name: string): readonly Fix[] {
  const dough = formula?.dough === undefined ? undefined : formula.parts[formula.dough];
  const last = dough === undefined || formula?.isTotalFormula === true ? undefined : section.blocks[dough.block]?.lines.filter(({ node }) => node.kind === 'ingredient').at(-1);
  if (dough === undefined || last === undefined) {
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

export const partShort = defineCheck({
  code: 'part-short',
  severity: 'error',
  title: 'More is called for than the part makes',
  why:
    'A preferment written in grams makes what it makes. If the dough calls for more, you find out with the bowl empty and the dough half mixed.',
  source: 'arithmetic',
  trips: `formula "Country loaf"

levain
  60 g      bread flour
  60 g      water
  20 g      starter

dough
  900 g     bread flour
  600 g     water
  «200 g»     levain
  20 g      salt
`,
  passes: `formula "Country loaf"

levain
  60 g      bread flour
  60 g      water
  20 g      starter

dough
  900 g     bread flour
  600 g     water
  140 g     levain
  20 g      salt
`,
  fixed: `formula "Country loaf"

levain
  86 g      bread flour
  86 g      water
  29 g      starter

dough
  900 g     bread flour
  600 g     water
  200 g     levain
  20 g      salt
`,
  find: (context) =>
    troublesOf(context, 'part-short').map(({ place, name, madeGrams, calledForGrams }) => ({
      place,
      message:
        `${grams(calledForGrams)} of ${named(name)} is called for, but it makes ${grams(madeGrams)}: ` +
        `${grams(calledForGrams - madeGrams)} is missing. Make more of it, or ask for less.`,
      fixes: makeMore(context, name, madeGrams, calledForGrams),
    })),
});

function makeMore({ section, formula }: CheckContext, name: string, madeGrams: number, calledForGrams: number): readonly Fix[] {
  const part = formula?.parts.find((candidate) => candidate.name === name);
  if (part === undefined || madeGrams <= 0) {
    return [];
  }
  const edits = scaledBlock(section, part.block, calledForGrams / madeGrams);
  return edits.length === 0 ? [] : [{ title: `Make ${grams(calledForGrams)} of ${named(name)}`, certain: false, edits }];
}

export const partCycle = defineCheck({
  code: 'part-cycle',
  severity: 'error',
  title: 'Parts that need each other first',
  why: 'Each part is made from parts that are ready before it. If two need each other, neither can be started.',
  source: 'definition of the language',
  trips: `formula "Country loaf"

sponge
  100 g     bread flour
  100 g     water
  all       soaker

soaker
  50 g      raisins
  all       «sponge»

dough
  900 g     bread flour
  all       sponge
  20 g      salt
`,
  passes: `formula "Country loaf"

soaker
  50 g      raisins
  20 g      water

sponge
  100 g     bread flour
  100 g     water
  all       soaker

dough
  900 g     bread flour
  500 g     water
  all       sponge
  20 g      salt
`,
  find: (context) =>
    troublesOf(context, 'part-cycle').map(({ place, names }) => ({
      place,
      message: `${listed(names.map(named))} ${names.length === 1 ? 'needs itself' : 'need each other'} before ${
        names.length === 1 ? 'it' : 'either'
      } can be made. Take one of them out of the other.`,
    })),
});

export const partTwice = defineCheck({
  code: 'part-twice',
  severity: 'error',
  title: 'Two parts with one name',
  why: 'A later part takes an earlier one in by its name. With two of the same name, nobody can tell which is meant.',
  source: 'definition of the language',
  trips: `formula "Seeded loaf"

soaker
  50 g      oats
  50 g      water

«soaker»
  40 g      raisins
  20 g      water

dough
  900 g     bread flour
  600 g     water
  all       soaker
  20 g      salt
`,
  passes: `formula "Seeded loaf"

soaker "oats soaker"
  50 g      oats
  50 g      water

soaker "raisins soaker"
  40 g      raisins
  20 g      water

dough
  900 g     bread flour
  600 g     water
  all       oats soaker
  all       raisins soaker
  20 g      salt
`,
  find: (context) =>
    troublesOf(context, 'part-twice').map(({ place, name }) => ({
      place,
      message: `There is already a part called ${named(name)} above. Give this one a name of its own in quotes, like \`soaker "raisins"\`.`,
    })),
});
