import { defineCheck, troublesOf } from '../define';
import { listed, named } from '../words';

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
      message:
        names.length === 1
          ? `${listed(names.map(named))} takes itself in, so it would have to be made before it is made. Take this line out, or name another part.`
          : `${listed(names.map(named))} need each other, so ${names.length === 2 ? 'neither' : 'none of them'} can be made first and nothing ` +
            'can be weighed. Take one out of the other.',
    })),
});
