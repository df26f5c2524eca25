import type { StepKind } from '../../../../grammar';
import { degreesOf, type Degrees } from '../dough';
import type { CheckContext } from '../check';
import { defineCheck, type Found } from '../define';
import { inFahrenheit } from '../edits';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { allSteps, isKind } from '../method';
import { linesOf, placeOf } from '../walk';
import { celsius } from '../words';

const COLD: ReadonlySet<StepKind> = new Set<StepKind>(['retard', 'chill', 'freeze']);
const OVEN: ReadonlySet<StepKind> = new Set<StepKind>(['bake', 'preheat']);
/** Pans and pots. */
const HOT: ReadonlySet<StepKind> = new Set<StepKind>([
  'boil', 'fry', 'steam', 'do', 'fill', 'glaze', 'whisk', 'serve', 'slice', 'mix', 'knead', 'soak', 'cool',
]);

export const temperatureOdd = defineCheck({
  code: 'temperature-odd',
  severity: 'error',
  title: 'A temperature that cannot be meant',
  why:
    'Water above 100 C, a bulk in an oven, a fridge as warm as a bath, or colder than anything is: mostly Fahrenheit ' +
    'written ' +
    'as Celsius, or a digit too many.',
  source: sourcesOf('temperature-odd'),
  limits: THRESHOLDS['temperature-odd'],
  trips: loaf({ more: ['5 g       instant yeast'], steps: ['mix         8 min', 'bulk        2 h at «75 C»'] }),
  passes: loaf({ more: ['5 g       instant yeast'], steps: ['mix         8 min', 'bulk        2 h at 75 F'] }),
  fixed: loaf({ more: ['5 g       instant yeast'], steps: ['mix         8 min', 'bulk        2 h at 75 F'] }),
  find: (context) => {
    const { formula, section, limits } = context;
    if (formula === undefined) {
      return [];
    }
    const get = (name: string) => limits.get('temperature-odd', name);
    const steps = allSteps(formula).flatMap(({ step }): readonly Found[] => {
      const kind = step.node.step;
      const most = OVEN.has(kind) ? Infinity : COLD.has(kind) ? get('mostColdCelsius') : HOT.has(kind) ? get('mostHotCelsius') : get('mostRisingCelsius');
      const what = isKind('bulk', 'proof', 'ripen', 'retard')(step) ? `a ${kind}` : `\`${kind}\``;
      return odd(context, step.place.block, degreesOf(step.node.temperature), most, what);
    });
    const heads = section.blocks.flatMap(({ head: { node } }, index): readonly Found[] => {
      const isDough = node.kind === 'part' && (node.part === 'dough' || node.part === 'total formula' || node.part === 'levain' || node.part === 'poolish' || node.part === 'biga' || node.part === 'sponge');
      return node.kind === 'part' ? odd(context, index, degreesOf(node.temperature), isDough ? get('mostRisingCelsius') + 50 : get('mostHotCelsius'), `the ${node.part}`) : [];
    });
    const lines = linesOf(section).flatMap(({ block, line: { node } }): readonly Found[] => {
      if (node.kind !== 'ingredient') {
        return [];
      }
      const isWater = context.catalogue.find(node.name.text)?.isWater === true;
      return odd(context, block, degreesOf(node.temperature), get(isWater ? 'mostWaterCelsius' : 'mostHotCelsius'), node.name.text);
    });
    return [...steps, ...heads, ...lines];
  },
});

function odd({ section, limits }: CheckContext, block: number, heat: Degrees | undefined, most: number, what: string): readonly Found[] {
  const least = limits.get('temperature-odd', 'leastCelsius');
  if (heat === undefined || (heat.celsius >= least && heat.celsius <= most)) {
    return [];
  }
  const place = placeOf(block, heat.span);
  const asF = (heat.celsius - 32) / 1.8;
  const fits = heat.unit === 'C' && heat.celsius > most && asF <= most;
  const impossible = heat.celsius < -273.15;
  return [
    {
      place,
      message: impossible
        ? `Nothing is as cold as ${celsius(heat.celsius)}: absolute zero is at -273 C. Correct the number.`
        : `For ${what}, ${celsius(heat.celsius)} cannot be meant (${celsius(heat.celsius < least ? least : most)} at ` +
          `${heat.celsius < least ? 'least' : 'most'}). ` +
          (fits ? 'Is it meant in Fahrenheit?' : 'Is a digit too many, or does it belong to another step?'),
      fixes: fits ? inFahrenheit(section, place) : [],
    },
  ];
}
