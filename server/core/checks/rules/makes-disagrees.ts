import type { MakesLine } from '../../../../grammar';
import type { CheckContext, Fix } from '../check';
import { defineCheck, troublesOf } from '../define';
import { scaledBlock, scaledMass, written } from '../edits';
import { grams, percent, plain } from '../words';

/** Eggs are cracked whole. Past this difference to the wanted dough, scaling by rounding eggs would only move the mistake. */
const MOST_EGG_ERROR = 0.01;

export const makesDisagrees = defineCheck({
  code: 'makes-disagrees',
  severity: 'warning',
  title: '`makes` and the amounts disagree',
  why:
    'The amounts in the dough fix its weight, and `makes` fixes it a second time. When the two differ, the pieces on ' +
    'the bench are not the weight you planned for, and tins, oven times and prices that go by the piece are off.',
  source: 'arithmetic; 2 % apart is taken as agreeing, about what stays on hands and bowl (common practice, no source)',
  trips: `formula "Country loaf"
  «makes     2 loaves of 970 g»

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  passes: `formula "Country loaf"
  makes     2 loaves of 860 g

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  fixed: `formula "Country loaf"
  makes     2 loaves of 860 g

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  find: (context) =>
    troublesOf(context, 'makes-disagrees').map(({ place, claimedGrams, actualGrams }) => {
      const nothing = claimedGrams <= 0 || actualGrams <= 0;
      const apart = howFar(claimedGrams, actualGrams);
      return {
        place,
        message:
          `\`makes\` asks for ${grams(claimedGrams)} of dough, the amounts give ${grams(actualGrams)}` +
          `${nothing ? '' : `, ${apart}`}. ` +
          'Correct the piece weight, or scale the amounts.',
        // Nothing can be scaled up from nothing.
        fixes: nothing
          ? []
          : [...correctMakes(context, claimedGrams, actualGrams), ...scaleAmounts(context, claimedGrams, actualGrams)],
      };
    }),
});

/** `8 % less`; for what is many times too much or too little, so said: `19000 % more` is no number a baker can picture. */
function howFar(claimedGrams: number, actualGrams: number): string {
  const times = Math.max(claimedGrams, actualGrams) / Math.min(claimedGrams, actualGrams);
  if (times >= 4) {
    return actualGrams > claimedGrams ? `${plain(times)} times as much` : `${plain(times)} times too little`;
  }
  return `${percent((Math.abs(actualGrams - claimedGrams) / claimedGrams) * 100)} ${actualGrams > claimedGrams ? 'more' : 'less'}`;
}

function correctMakes({ formula }: CheckContext, claimedGrams: number, actualGrams: number): readonly Fix[] {
  const makes = formula?.makes;
  const each = makes?.node.each;
  if (makes === undefined || each?.kind !== 'mass') {
    return [];
  }
  const ratio = actualGrams / claimedGrams;
  const weight = `${written(each.quantity.low.value * ratio, each.unit)} ${each.unit}`;
  return [
    {
      title: `Correct \`makes\` to ${piecesOf(makes.node)}${weight}`,
      certain: false,
      edits: scaledMass(makes.place.block, each, ratio),
    },
  ];
}

function piecesOf({ pieces, noun }: MakesLine): string {
  return pieces === undefined ? '' : `${pieces.low.text} ${noun?.text ?? 'pieces'} of `;
}

function scaleAmounts({ section, formula }: CheckContext, claimedGrams: number, actualGrams: number): readonly Fix[] {
  if (formula === undefined) {
    return [];
  }
  const factor = claimedGrams / actualGrams;
  const eggError = formula.parts
    .flatMap((part) => part.lines)
    .reduce((sum, { source, grams: lineGrams }) => {
      const amount = source?.kind === 'ingredient' ? source.amount : undefined;
      if (amount?.kind !== 'count' || amount.bracket !== undefined || lineGrams === null) {
        return sum;
      }
      const count = amount.quantity.low.value;
      const exact = count * factor;
      return count > 0 ? sum + ((Math.max(1, Math.round(exact)) - exact) * lineGrams) / count : sum;
    }, 0);
  if (Math.abs(eggError) > claimedGrams * MOST_EGG_ERROR) {
    return [];
  }
  const blocks = [...formula.parts.map((part) => part.block), ...formula.method.map((step) => step.place.block)];
  const edits = [...new Set(blocks)].flatMap((block) => scaledBlock(section, block, factor));
  return edits.length === 0 ? [] : [{ title: `Scale all amounts to ${grams(claimedGrams)} of dough`, certain: false, edits }];
}
