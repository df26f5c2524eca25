import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { waterNeeded } from '../water';
import { celsius } from '../words';

export const waterTooHot = defineCheck({
  code: 'water-too-hot',
  severity: 'warning',
  title: 'Water too hot for yeast',
  why:
    'Yeast and sourdough suffer from about 40 C and die from about 50 C. Hot water is for soakers and scalds; a dough ' +
    'that ' +
    'would need it wants warmer flour or a longer rise.',
  source: sourcesOf('water-too-hot'),
  limits: THRESHOLDS['water-too-hot'],
  trips: loaf({
    dough: ['1000 g    bread flour', '«700 g     water at 60 C»', '20 g      salt', '5 g       instant yeast'],
  }),
  passes: loaf({ dough: ['1000 g    bread flour', '700 g     water at 30 C', '20 g      salt', '5 g       instant yeast'] }),
  find: (context) => {
    const { formula, limits, reports } = context;
    const most = limits.get('water-too-hot', 'mostCelsius');
    const boiling = limits.get('temperature-odd', 'mostWaterCelsius');
    const stated = (formula?.parts ?? []).flatMap((part): readonly Found[] => {
      // Boiling water on rye and the yeast later is a way of making dough: only where yeast and water go in together.
      const added = part.steps.length > 0 && !part.isPreferment;
      const alive = part.lines.some((line) => line.starterHydrationPct !== undefined || line.key.startsWith('yeast-') || (line.part !== undefined && formula?.parts[line.part]?.isPreferment === true));
      const waters = part.lines.filter((line) => line.ingredient?.isWater === true);
      const mean = waters.reduce((sum, line) => sum + (line.grams ?? 0) * (line.celsius ?? most), 0) / waters.reduce((sum, line) => sum + (line.grams ?? 0), 0);
      const [first] = [...waters].sort((a, b) => (b.celsius ?? 0) - (a.celsius ?? 0));
      return added || !alive || first === undefined || first.celsius === null || !(mean > most) || first.celsius > boiling
        ? []
        : [
            {
              place: first.place,
              message:
                `Water at ${celsius(first.celsius)} kills yeast (${celsius(most)} at most where the two meet). Take it ` +
                `at 20 to 35 C, or put the yeast in when the dough is lukewarm.`,
            },
          ];
    });
    const water = waterNeeded(context);
    if (
      stated.length > 0 ||
      water?.temperature.verdict !== 'too hot for yeast' ||
      water.celsius - water.leewayCelsius <= most ||
      reports.culture()?.organism === null
    ) {
      return stated;
    }
    // A dough that would be hot itself is another finding.
    return water.desiredCelsius > most
      ? []
      : [
          {
            place: water.dough.place,
            message:
              `A dough of ${celsius(water.desiredCelsius)} would take water at ${celsius(water.celsius)}, which hurts ` +
              `yeast. Warm the flour, want a cooler dough, ` +
              'or give it longer.',
          },
        ];
  },
});
