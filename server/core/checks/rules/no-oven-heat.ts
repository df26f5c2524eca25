import type { PlacedStep } from '../../formula/model';
import type { CheckContext, Fix } from '../check';
import { defineCheck } from '../define';
import { lineAbove } from '../edits';
import { placeOf, textAt } from '../walk';

export const noOvenHeat = defineCheck({
  code: 'no-oven-heat',
  severity: 'warning',
  title: 'A bake in an oven that nobody heated',
  why:
    'An oven and its stone take 30 to 60 minutes to heat through. Without a `preheat` step the plan has the dough ' +
    'ready in front of a cold oven, and a proofed dough does not wait.',
  source: 'common practice, no source',
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  5 g       instant yeast

steps
  mix         8 min
  bulk        3 h at 24 C
  «bake»        40 min at 230 C
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  5 g       instant yeast

steps
  mix         8 min
  bulk        3 h at 24 C
  preheat     45 min at 230 C
  bake        40 min at 230 C
`,
  fixed: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  5 g       instant yeast

steps
  mix         8 min
  bulk        3 h at 24 C
  preheat     45 min at 230 C
  bake        40 min at 230 C
`,
  find: (context) => {
    const { formula } = context;
    if (formula === undefined) {
      return [];
    }
    // A part may roast its nuts in the oven that the method has hot anyway.
    const inMethod = coldBakes(formula.method);
    const heated = formula.method.some((step) => step.node.step === 'preheat');
    const inParts = heated ? [] : formula.parts.flatMap((part) => coldBakes(part.steps));
    return [...inMethod, ...inParts].map((step) => ({
      place: placeOf(step.place.block, step.node.keyword),
      message:
        'Nothing heats the oven before this bake, so the dough would wait in front of a cold one. Put a `preheat` ' +
        'step before it.',
      fixes: preheat(context, step),
    }));
  },
});

/** The first bake that no preheat comes before: once it has baked, the oven is hot. */
function coldBakes(steps: readonly PlacedStep[]): readonly PlacedStep[] {
  const first = steps.find((step) => step.node.step === 'preheat' || step.node.step === 'bake');
  return first?.node.step === 'bake' ? [first] : [];
}

function preheat({ section, limits }: CheckContext, step: PlacedStep): readonly Fix[] {
  const { node, place } = step;
  // Nobody heats an oven to the heat of a room: that temperature is a slip, and has its own finding.
  if (node.temperature?.kind !== 'degrees' || node.temperature.highCelsius < limits.get('oven-temperature-odd', 'leastCelsius')) {
    return [];
  }
  const text = section.blocks[place.block]?.text ?? '';
  // Durations stand in a column; the new line keeps the one of the bake.
  const gap = /^[ \t]*/.exec(text.slice(node.keyword.end))?.[0].length ?? 1;
  const width = node.keyword.end - node.keyword.start + gap;
  const heat = textAt(section, placeOf(place.block, node.temperature));
  const line = `${'preheat '.padEnd(width)}45 min at ${heat.replace(/^at\s+/, '')}`;
  const edit = lineAbove(section, place.block, place.start, line);
  return [{ title: `Preheat for 45 min at ${heat}`, certain: false, edits: [edit] }];
}
