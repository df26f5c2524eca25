import { defineCheck, troublesOf } from '../define';
import { named } from '../words';

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
      message:
        `There is already a part called ${named(name)} above. Give this one a name of its own in quotes, like ` +
        '`soaker "raisins"`.',
    })),
});
