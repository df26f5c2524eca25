import type { MakesLine, Num } from '../../../../grammar';
import { inTheWayOf, stepInUnit, toScaleStep } from '../../scaling/numbers';
import { rescale } from '../../scaling/rescale';
import { gramsFrom } from '../../units/mass';
import type { CheckContext, Fix } from '../check';
import { defineCheck, troublesOf } from '../define';
import { replaceNumber } from '../edits';
import { grams, percent, plain } from '../words';

/** What a kitchen scale reads to, and a fine one for salt, yeast and spices. */
const STEP = { grams: 1, smallGrams: 0.1 } as const;
/** A piece lighter than this is weighed on the fine one. */
const SMALL_GRAMS = 10;
/** Eggs are cracked whole. Where no liquid makes up for that, past this share of the dough scaling would only move the mistake. */
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
  const { quantity: { low, high }, unit } = each;
  const corrected = (number: Num): string => {
    const exact = (number.value * actualGrams) / claimedGrams;
    return inTheWayOf(number, toScaleStep(exact, stepInUnit(gramsFrom(exact, unit) < SMALL_GRAMS ? STEP.smallGrams : STEP.grams, unit)));
  };
  return [
    {
      title: `Correct \`makes\` to ${piecesOf(makes.node)}${corrected(low)} ${unit}`,
      certain: false,
      edits: (high === undefined ? [low] : [low, high]).map((number) => replaceNumber(makes.place.block, number, corrected(number))),
    },
  ];
}

function piecesOf({ pieces, noun }: MakesLine): string {
  return pieces === undefined ? '' : `${pieces.low.text} ${noun?.text ?? 'pieces'} of `;
}

/** The amounts brought to the size that `makes` says, as `proofsheet scale` would with a scale that reads to 1 g. */
function scaleAmounts({ section, formula, totals }: CheckContext, claimedGrams: number, actualGrams: number): readonly Fix[] {
  if (formula === undefined) {
    return [];
  }
  const request = { by: 'factor', factor: claimedGrams / actualGrams } as const;
  const scaled = rescale({ section, formula, flourGrams: totals?.flour_g ?? null }, request, STEP, { keepsMakes: true });
  if (scaled.kind === 'cannot' || scaled.edits.length === 0) {
    return [];
  }
  const missing = scaled.notes.reduce((sum, { missingGrams = 0 }) => sum + missingGrams, 0);
  return Math.abs(missing) > claimedGrams * MOST_EGG_ERROR
    ? []
    : [{ title: `Scale all amounts to ${grams(claimedGrams)} of dough`, certain: false, edits: scaled.edits }];
}
