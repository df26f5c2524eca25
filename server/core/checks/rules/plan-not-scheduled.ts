import { defineCheck } from '../define';
import { headPlace, placeOf } from '../walk';

export const planNotScheduled = defineCheck({
  code: 'plan-not-scheduled',
  severity: 'info',
  title: 'A plan for a bake day',
  why:
    'A plan is read, but this version does not schedule several formulas over one oven. Each formula has a timeline ' +
    'of its own.',
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
              message:
                'This plan is read, but not scheduled yet: a later version will. Ask each formula for its own ' +
                'timeline until then.',
            },
          ]
        : [],
    ),
});
