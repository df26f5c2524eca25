/** Checks on what a file takes from elsewhere: other files, other formulas, ingredients to start from, styles. */
import type { Name } from '../../../../grammar';
import type { CheckContext, Fix } from '../check';
import { defineCheck, type Found } from '../define';
import { STYLES, styleOf } from '../limits';
import { linesOf, placeOf } from '../walk';
import { didYouMean, listed, named, nearestWords, quotedName, writtenName } from '../words';

type UseProblem = 'not-found' | 'outside' | 'itself' | 'not-bake';

/** `use` heads whose path has this problem. A `use` may stand behind a formula and is then a block of its section. */
function badUses({ section, useProblem }: CheckContext, problem: UseProblem, message: (path: string) => string): readonly Found[] {
  return section.blocks.flatMap((block, index): readonly Found[] => {
    const head = block.head.node;
    if (head.kind !== 'use' || head.path === undefined || useProblem?.(head.path.text) !== problem) {
      return [];
    }
    return [{ place: placeOf(index, head.path), message: message(head.path.text) }];
  });
}

export const useNotFound = defineCheck({
  code: 'use-not-found',
  severity: 'error',
  title: 'A file that is not there',
  why: 'The ingredients and formulas of the file that is missing are unknown here, so what is made with them cannot be worked out.',
  source: 'definition of the language',
  trips: `use «"missing.bake"»
`,
  passes: `use "pantry.bake"
`,
  find: (context) =>
    badUses(context, 'not-found', (path) => `There is no file ${named(path)}. The path counts from the folder of this file.`),
});

export const useOutside = defineCheck({
  code: 'use-outside',
  severity: 'error',
  title: 'A file outside the folder that is open',
  why: 'Only files inside the open folder are read, so that a formula from a stranger cannot look around your disk.',
  source: 'definition of the language',
  trips: `use «"../outside.bake"»
`,
  passes: `use "pantry.bake"
`,
  find: (context) =>
    badUses(context, 'outside', (path) => `${named(path)} is outside the open folder and is not read. Copy it into the folder.`),
});

export const useItself = defineCheck({
  code: 'use-itself',
  severity: 'error',
  title: 'A file that uses itself',
  why: 'A file has its own ingredients and formulas already.',
  source: 'definition of the language',
  trips: `use «"itself.bake"»
`,
  passes: `use "pantry.bake"
`,
  find: (context) => badUses(context, 'itself', () => 'This is the file itself. Take the line out.'),
});

export const useNotBake = defineCheck({
  code: 'use-not-bake',
  severity: 'error',
  title: 'A file that holds no formulas',
  why: 'Only files that end in `.bake` hold formulas and ingredients.',
  source: 'definition of the language',
  trips: `use «"prices.txt"»
`,
  passes: `use "pantry.bake"
`,
  find: (context) => badUses(context, 'not-bake', (path) => `${named(path)} does not end in \`.bake\`, so it is not read.`),
});

export const formulaMissing = defineCheck({
  code: 'formula-missing',
  severity: 'error',
  title: 'A formula that nobody can see from here',
  why: 'A dish that uses slices of a loaf, a plan that bakes one, and a formula based on another need the formula that is named: in this file or in one that a `use` line brings in.',
  source: 'definition of the language',
  trips: `dish "Bread pudding"
  serves    4
  uses      8 slices of «"Milk loaf"»

custard
  300 g     milk
`,
  passes: `formula "Milk loaf"
  makes     1 loaf of 900 g
  style     pan

dough
  100 %     bread flour
  62 %      water
  2 %       salt

dish "Bread pudding"
  serves    4
  uses      300 g "Milk loaf"

custard
  300 g     milk
`,
  find: (context) =>
    linesOf(context.section).flatMap(({ block, line: { node } }): readonly Found[] => {
      if (node.kind === 'uses') {
        return missing(context, block, node.formula, 'taken in');
      }
      if (node.kind === 'based-on') {
        return missing(context, block, node.base, 'built on');
      }
      return node.kind === 'property' && node.value.kind === 'order' ? missing(context, block, node.value.formula, 'baked') : [];
    }),
});

function missing({ knownFormulas, formula }: CheckContext, block: number, name: Name, verb: string): readonly Found[] {
  const wanted = name.text.trim().toLowerCase().replace(/\s+/g, ' ');
  // A dish is not an ingredient of itself, whatever it is called.
  const self = formula?.name.toLowerCase();
  if (wanted === '' || knownFormulas.has(wanted)) {
    return [];
  }
  const place = placeOf(block, name);
  const near = nearestWords(name.text, [...knownFormulas].filter((known) => known !== self));
  return [
    {
      place,
      message:
        `No formula called ${named(name.text)} can be ${verb}: there is none in this file or in the files it uses.` +
        (near.length > 0 ? didYouMean(near) : ' Correct the name, or bring its file in with `use "…"`.'),
      fixes: rename(near, (candidate) => ({ place, newText: quotedName(candidate) })),
    },
  ];
}

export const usesNotWeighed = defineCheck({
  code: 'uses-not-weighed',
  severity: 'info',
  title: 'Slices that nobody weighed',
  why: 'A slice weighs what the knife makes of it. Without a weight, what the dish takes of a loaf counts in no total, cost or nutrition.',
  source: 'common practice, no source: slices differ by more than half',
  trips: `formula "Milk loaf"
  makes     1 loaf of 900 g
  style     pan

dough
  100 %     bread flour
  62 %      water
  2 %       salt

dish "Bread pudding"
  serves    4
  uses      «8 slices of "Milk loaf"»

custard
  300 g     milk
`,
  passes: `formula "Milk loaf"
  makes     1 loaf of 900 g
  style     pan

dough
  100 %     bread flour
  62 %      water
  2 %       salt

dish "Bread pudding"
  serves    4
  uses      300 g "Milk loaf"

custard
  300 g     milk
`,
  find: (context) =>
    (context.formula?.parts ?? []).flatMap((part) =>
      part.lines.flatMap((line): readonly Found[] => {
        const { source } = line;
        // Where the formula itself is missing, that is the finding.
        if (source?.kind !== 'uses' || line.grams !== null || missing(context, line.place.block, source.formula, '').length > 0) {
          return [];
        }
        const what = source.noun === undefined ? 'this much' : `${source.noun.text} of it`;
        return [
          {
            place: { ...line.place, start: line.amountPlace.start },
            message:
              `Nothing says what ${what} weigh, so ${named(source.formula.text)} counts in no total of this dish. ` +
              `Write a weight, like \`uses 300 g ${quotedName(source.formula.text)}\`.`,
          },
        ];
      }),
    ),
});

export const likeMissing = defineCheck({
  code: 'like-missing',
  severity: 'warning',
  title: 'An ingredient like one that nobody knows',
  why: '`like` takes over the composition of a known ingredient. If that one is not known, your own has no water, protein or fat either.',
  source: 'the ingredient table that ships',
  trips: `ingredient "Mill flour"
  like      «braed flour»
`,
  passes: `ingredient "Mill flour"
  like      bread flour
`,
  fixed: `ingredient "Mill flour"
  like      bread flour
`,
  find: ({ section, catalogue }) =>
    linesOf(section).flatMap(({ block, line: { node } }): readonly Found[] => {
      if (node.kind !== 'property' || node.key !== 'like' || node.value.kind !== 'name' || catalogue.find(node.value.name.text) !== undefined) {
        return [];
      }
      const { name } = node.value;
      const place = placeOf(block, name);
      const near = catalogue.nearest(name.text, 3);
      return [
        {
          place,
          message: `${named(name.text)} is not in the ingredient table, so nothing is taken over from it.${didYouMean(near)}`,
          fixes: rename(near, (candidate) => ({ place, newText: writtenName(candidate) })),
        },
      ];
    }),
});

export const styleUnknown = defineCheck({
  code: 'style-unknown',
  severity: 'info',
  title: 'A style that no limit knows',
  why: 'The style sets what counts as much salt or little water for this kind of bread. A word that is not known changes nothing, and the limits of a lean hearth loaf apply.',
  source: 'definition of the language',
  trips: `formula "Country loaf"
  style     hearth, «bricohe»

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  passes: `formula "Country loaf"
  style     hearth

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  fixed: `formula "Country loaf"
  style     hearth, brioche

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  find: ({ formula }) =>
    (formula?.styles ?? [])
      .filter(({ text }) => text.trim() !== '' && styleOf(text) === undefined)
      .map(({ text, place }) => {
        const near = nearestWords(text, STYLES);
        return {
          place,
          message: `${named(text)} is not a style with limits of its own, so it changes none. The styles are ${listed(STYLES)}.`,
          fixes: rename(near, (candidate) => ({ place, newText: candidate })),
        };
      }),
});

function rename(near: readonly string[], edit: (candidate: string) => Fix['edits'][number]): readonly Fix[] {
  return near.map((candidate) => ({ title: `Write ${named(candidate)}`, certain: false, edits: [edit(candidate)] }));
}
