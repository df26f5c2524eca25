import { wayRound } from '../bases';
import { defineCheck } from '../define';

export const variantNotComputed = defineCheck({
  code: 'variant-not-computed',
  severity: 'info',
  title: 'A formula based on another',
  why:
    'A variant is read and shown, but this version does not work out its weights: they depend on the formula it ' +
    'starts from.',
  source: 'limits of this version',
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt

formula "Wetter loaf"
  «based on  "Country loaf"»
  set       water to 750 g
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  find: (context) => {
    const { formula } = context;
    // A ring of variants could not be worked out by any version.
    if (wayRound(context) !== undefined) {
      return [];
    }
    const first = formula?.deltas.find(({ node }) => node.kind === 'based-on') ?? formula?.deltas[0];
    return first === undefined
      ? []
      : [
          {
            place: first.place,
            message:
              'This formula starts from another one. It is shown, but its weights are not worked out yet: a later ' +
              'version will.',
          },
        ];
  },
});
