import type { ResolvedPart } from '../../formula/model';
import type { CheckContext, Fix } from '../check';
import { defineCheck, troublesOf } from '../define';
import { gramsIn, lineBelow, replaceNumber, writtenAtLeast, type Edit } from '../edits';
import { grams, named, writtenName } from '../words';

export const totalLeavesOut = defineCheck({
  code: 'total-leaves-out',
  severity: 'error',
  title: 'The total formula leaves out what a preferment uses',
  why:
    'A total formula lists everything, and the final dough is what is left when the preferments are taken out. If ' +
    'the list holds less rye than the levain, or none of the poolish’s yeast, the rest would be less than nothing ' +
    'and the sheet cannot be right.',
  source: 'definition of the trade’s sheet: final dough = total formula less the preferments, ingredient by ingredient',
  trips: `formula "Baguette"

poolish
  300 g     bread flour
  300 g     water
  1 g       instant yeast

total formula
  1000 g    bread flour
  680 g     water
  20 g      salt
  all       «poolish»
`,
  passes: `formula "Baguette"

poolish
  300 g     bread flour
  300 g     water
  1 g       instant yeast

total formula
  1000 g    bread flour
  680 g     water
  20 g      salt
  4 g       instant yeast
  all       poolish
`,
  fixed: `formula "Baguette"

poolish
  300 g     bread flour
  300 g     water
  1 g       instant yeast

total formula
  1000 g    bread flour
  680 g     water
  20 g      salt
  1 g       instant yeast
  all       poolish
`,
  find: (context) =>
    troublesOf(context, 'total-leaves-out').map((trouble) => {
      const { place, part, ingredient, neededGrams, listedGrams, listed } = trouble;
      return {
        place,
        message:
          listedGrams > 0
            ? `${named(part)} uses ${grams(neededGrams)} of ${named(ingredient)}, and the total formula lists ` +
              `${grams(listedGrams)}. ` +
              `The total counts everything, preferments too: raise it to ${grams(neededGrams)} at least.`
            : `${named(part)} uses ${grams(neededGrams)} of ${named(ingredient)}, and the total formula lists none. ` +
              'The total counts everything, preferments too: add it to the list.',
        related: listed === undefined ? [] : [{ place: listed, message: 'the amount in the list' }],
        fixes:
          listed === undefined ? add(context, ingredient, neededGrams) : raise(context, listed.start, ingredient, neededGrams),
      };
    }),
});

function totalPart({ formula }: CheckContext): ResolvedPart | undefined {
  return formula?.isTotalFormula === true && formula.dough !== undefined ? formula.parts[formula.dough] : undefined;
}

/** Raises the listed amount in the unit it is written in. */
function raise(context: CheckContext, amountStart: number, ingredient: string, neededGrams: number): readonly Fix[] {
  const part = totalPart(context);
  const line = part?.lines.find(({ amountPlace }) => amountPlace.start === amountStart);
  if (part === undefined || line?.source?.kind !== 'ingredient') {
    return [];
  }
  const { amount } = line.source;
  let edit: Edit | undefined;
  if (amount.kind === 'mass' && amount.quantity.high === undefined) {
    edit = replaceNumber(part.block, amount.quantity.low, writtenAtLeast(gramsIn(amount.unit, neededGrams), amount.unit));
  } else if (amount.kind === 'share' && amount.quantity.high === undefined && part.baseGrams !== null && line.role !== 'flour') {
    edit = replaceNumber(part.block, amount.quantity.low, writtenAtLeast((100 * neededGrams) / part.baseGrams, '%'));
  }
  if (edit === undefined) {
    return [];
  }
  return [{ title: `Raise ${named(ingredient)} to ${edit.newText} ${unitOf(amount)}`, certain: false, edits: [edit] }];
}

function unitOf(amount: { readonly kind: string; readonly unit?: string }): string {
  return amount.kind === 'share' ? '%' : (amount.unit ?? '');
}

/** A new line under the last ingredient, as a share where the list is written in shares. */
function add(context: CheckContext, ingredient: string, neededGrams: number): readonly Fix[] {
  const part = totalPart(context);
  const lines = part === undefined ? [] : (context.section.blocks[part.block]?.lines ?? []);
  const ingredients = lines.filter(({ node }) => node.kind === 'ingredient' && node.amount.kind !== 'all');
  const last = ingredients.at(-1);
  if (part === undefined || last?.node.kind !== 'ingredient') {
    return [];
  }
  const inShares = ingredients.every(({ node }) => node.kind === 'ingredient' && node.amount.kind === 'share');
  const amount =
    inShares && part.baseGrams !== null
      ? `${writtenAtLeast((100 * neededGrams) / part.baseGrams, '%')} %`
      : `${writtenAtLeast(neededGrams, 'g')} g`;
  // Amounts stand in a column; the new line keeps the one of the line above it.
  const width = Math.max(amount.length + 1, last.node.name.start - last.node.start);
  return [
    {
      title: `Add ${amount} of ${named(ingredient)} to the total formula`,
      certain: false,
      edits: [lineBelow(context.section, part.block, last.start, last.end, `${amount.padEnd(width)}${writtenName(ingredient)}`)],
    },
  ];
}
