/** What is read and shown but not worked out in this version: said aloud, so that nothing is ignored in silence. */
import { defineCheck } from '../define';
import { headPlace, placeOf } from '../walk';

export const variantNotComputed = defineCheck({
  code: 'variant-not-computed',
  severity: 'info',
  title: 'A formula based on another',
  why: 'A variant is read and shown, but this version does not work out its weights: they depend on the formula it starts from.',
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
  find: ({ formula }) => {
    const first = formula?.deltas.find(({ node }) => node.kind === 'based-on') ?? formula?.deltas[0];
    return first === undefined
      ? []
      : [
          {
            place: first.place,
            message: 'This formula starts from another one. It is shown, but its weights are not worked out yet: a later version will.',
          },
        ];
  },
});

export const planNotScheduled = defineCheck({
  code: 'plan-not-scheduled',
  severity: 'info',
  title: 'A plan for a bake day',
  why: 'A plan is read, but this version does not schedule several formulas over one oven. Each formula has a timeline of its own.',
  source: 'limits of this version',
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt

«plan "Saturday stall"»
  ready     2026-03-14 08:00 Europe/Lisbon
  bake      6 loaves of "Country loaf"
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  find: ({ section }) =>
    section.blocks.flatMap((block, index) =>
      block.head.node.kind === 'plan'
        ? [
            {
              place: headPlace(section, index).end > 0 ? headPlace(section, index) : placeOf(index, block.head),
              message: 'This plan is read, but not scheduled yet: a later version will. Ask each formula for its own timeline until then.',
            },
          ]
        : [],
    ),
});
