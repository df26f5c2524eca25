import { defineCheck, soundTotals } from '../define';
import { THRESHOLDS } from '../limits';
import { against, grams, percent } from '../words';

export const inclusionLoad = defineCheck({
  code: 'inclusion-load',
  severity: 'info',
  title: 'Many pieces for the gluten to carry',
  why:
    'Every raisin and nut interrupts the gluten and weighs it down. Up to about 40 % of the flour a wheat dough ' +
    'carries them; above that expect a smaller, closer loaf, a stronger flour and folding them in late.',
  source: THRESHOLDS['inclusion-load'].mostPct.source,
  limits: THRESHOLDS['inclusion-load'],
  trips: `formula "Raisin loaf"

«dough»
  1000 g    bread flour
  700 g     water
  20 g      salt
  500 g     raisins
`,
  passes: `formula "Raisin loaf"
  style     hearth, with inclusions

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  500 g     raisins
`,
  find: (context) => {
    const { formula, limits } = context;
    const totals = soundTotals(context);
    const load = totals?.inclusions_pct ?? null;
    const dough = formula?.kind !== 'formula' || formula.dough === undefined ? undefined : formula.parts[formula.dough];
    const limit = limits.get('inclusion-load', 'mostPct');
    if (load === null || load <= limit || dough === undefined) {
      return [];
    }
    const flour = totals?.flour_g ?? null;
    const weight = flour === null ? '' : ` (${grams((flour * load) / 100)})`;
    return [
      {
        place: dough.place,
        message:
          `Fruit, nuts and other pieces are ${against(load, limit)} % of the flour${weight}, over ${percent(limit)}. ` +
          'The loaf will be smaller and closer: fold them in late, use a strong flour, or take fewer.',
        related: formula?.parts
          .flatMap((part) => part.lines)
          .filter((line) => line.role === 'inclusion' && line.inDough && line.part === undefined)
          .map((line) => ({ place: line.place, message: 'counted as pieces' })),
      },
    ];
  },
});
