import type { Place } from '../../formula/model';
import type { Fix } from '../check';
import { defineCheck } from '../define';
import { loaf } from '../examples';
import type { Slip } from '../slips';
import { textAt } from '../walk';
import { grams, named } from '../words';

export const unitSlip = defineCheck({
  code: 'unit-slip',
  severity: 'error',
  title: 'A weight in a unit that cannot be meant',
  why:
    '18 kg of salt to a kilo of flour, or 700 mg of flour: the number is right and the unit is not. Nothing else about ' +
    'the dough can be judged until it is.',
  source: 'common practice, no source: only where the other unit makes a weight that somebody would use',
  trips: loaf({ dough: ['1000 g    bread flour', '700 g     water', '«18 kg»     salt'] }),
  passes: loaf({ dough: ['1000 g    bread flour', '700 g     water', '18 g      salt'] }),
  fixed: loaf({ dough: ['1000 g    bread flour', '700 g     water', '18 g     salt'] }),
  find: ({ section, reports }) =>
    reports.slips().map((slip) => ({
      place: slip.line.amountPlace,
      message:
        `${textAt(section, slip.line.amountPlace)} of ${named(slip.line.name)} cannot be meant beside ` +
        `${grams(restGrams(slip))} of everything else in ${named(slip.part.name)}: the dough would be ${isMuch(slip) ? `hardly anything but ${slip.line.name}` : `without any ${slip.line.name}`}. Is it ${slip.meant} instead of ${slip.unit}?`,
      fixes: inOtherUnit(slip),
    })),
});

/** What else goes into the part. */
function restGrams({ line, part }: Slip): number {
  return (part.grams ?? 0) - (line.grams ?? 0);
}

function isMuch(slip: Slip): boolean {
  return (slip.line.grams ?? 0) > 0.01 * restGrams(slip);
}

function inOtherUnit({ line, meant, unit }: Slip): readonly Fix[] {
  const { source } = line;
  if (source?.kind !== 'ingredient' || source.amount.kind !== 'mass') {
    return [];
  }
  const { quantity, end } = source.amount;
  const written = (quantity.high ?? quantity.low).text;
  // The unit ends the amount, whatever stands between it and the number.
  const place: Place = { block: line.place.block, start: end - unit.length, end };
  return [{ title: `Write ${written} ${meant}`, certain: false, edits: [{ place, newText: meant }] }];
}
