import type { CheckContext } from '../check';
import { defineCheck, troublesOf } from '../define';
import { textAt } from '../walk';
import { grams, named, writtenName } from '../words';

/** About what one of it weighs, for an example that a baker does not laugh at. */
const USUAL_GRAMS: Readonly<Record<string, number>> = { tsp: 4, tbsp: 12, cup: 120, 'fl oz': 30, ml: 1, l: 1000, each: 50 };

export const needsAWeight = defineCheck({
  code: 'needs-a-weight',
  severity: 'error',
  title: 'A measure that cannot be weighed',
  why:
    'A cup of one thing weighs three times a cup of another, and nobody knows what “1” of something weighs unless it ' +
    'is written down. Until it is, the weight of the dough and every share are unknown.',
  source:
    'the ingredient table that ships; household weights from the USDA National Nutrient Database for Standard ' +
    'Reference',
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  «2 cups»    flaked almonds
  20 g      salt
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  2 cups (160 g) flaked almonds
  20 g      salt
`,
  find: (context) =>
    troublesOf(context, 'needs-a-weight').map(({ place, name, unit }) => {
      const amount = textAt(context.section, place);
      if (unit === 'each' && isPoured(context, name)) {
        return {
          place,
          message: `\`${amount}\` has no unit, and nobody counts ${named(name)}. Write what it weighs, like \`${amount} g ${writtenName(name)}\`.`,
          fixes: [{ title: `Write ${amount} g`, certain: false, edits: [{ place, newText: `${amount} g` }] }],
        };
      }
      const example = `\`${amount} (${grams((USUAL_GRAMS[unit] ?? 50) * (Number.parseFloat(amount) || 1))}) ${writtenName(name)}\``;
      return {
        place,
        message:
          unit === 'each'
            ? `Nothing says what one ${named(name)} weighs, so ${amount} of it cannot be weighed. Write the weight in ` +
              'brackets, ' +
              `like ${example}, or give it an \`each 50 g\` line in an \`ingredient\` block.`
            : `Nothing says what one ${unit} of ${named(name)} weighs, so the weight of the dough is not known. Write the weight in brackets, like ${example}, ` +
              'or give it a `density 0.5 g per ml` line in an `ingredient` block.',
      };
    }),
});

/** What is weighed or poured and has no pieces: a bare number of it is a weight whose unit was forgotten. */
function isPoured({ catalogue }: CheckContext, name: string): boolean {
  const role = catalogue.find(name)?.role;
  return role === 'flour' || role === 'liquid' || role === 'salt' || role === 'leaven' || role === 'sweetener';
}
