import type { Duration, PinchAmount } from '../../../../grammar';
import type { Section } from '../../formula/model';
import type { Found } from '../define';
import { defineCheck } from '../define';
import { inEachBlock, linesOfBlock, placeOf, valuesIn } from '../walk';
import { grams, minutes } from '../words';

/** What the language says a pinch is counted as. */
const PINCH_GRAMS = 0.3;

export const vagueAmount = defineCheck({
  code: 'vague-amount',
  severity: 'info',
  title: 'A pinch, or overnight',
  why:
    'A pinch differs threefold from hand to hand, and overnight is anything from 8 to 14 hours. A value is taken so ' +
    'that the rest can be worked out, but it is a guess. For salt and leaven, and for the length of a fermentation, ' +
    'a number is worth writing down.',
  source: 'common practice, no source: a pinch is counted as 0.3 g, overnight as 8 to 14 h',
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  «pinch»     cinnamon
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  0.5 g     cinnamon
`,
  fixed: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  0.3 g     cinnamon
`,
  find: ({ section }) => vagueIn(section),
});

const vagueIn: (section: Section) => readonly Found[] = inEachBlock((own, index) =>
  linesOfBlock(own, index).flatMap(({ block, line }): readonly Found[] =>
    valuesIn(line.node).flatMap((value): readonly Found[] => {
      if (isPinch(value) && value.bracket === undefined) {
        const place = placeOf(block, value);
        const weight = grams((value.quantity?.low.value ?? 1) * PINCH_GRAMS);
        return [
          {
            place,
            message: `A pinch is a guess: this is counted as ${weight}. If it matters, write the weight.`,
            fixes: [{ title: `Write ${weight}`, certain: false, edits: [{ place, newText: weight }] }],
          },
        ];
      }
      if (isVagueDuration(value)) {
        const place = placeOf(block, value);
        const newText = `${minutes(value.lowMinutes).replace(' h', '')} to ${minutes(value.highMinutes)}`;
        return [
          {
            place,
            message:
              `“${own.text.slice(place.start, place.end)}” is a guess: it is counted as ${newText}. Write the hours to get a time ` +
              'for each step.',
            fixes: [{ title: `Write ${newText}`, certain: false, edits: [{ place, newText }] }],
          },
        ];
      }
      return [];
    }),
  ),
);

function isPinch(value: object): value is PinchAmount {
  return 'kind' in value && value.kind === 'pinch' && 'start' in value;
}

function isVagueDuration(value: object): value is Duration {
  return 'lowMinutes' in value && 'vague' in value && value.vague === true && 'start' in value;
}
