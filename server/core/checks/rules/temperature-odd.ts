import type { PartKind, StepKind } from '../../../../grammar';
import { PREFERMENT_KINDS } from '../../../../grammar';
import { ABSOLUTE_ZERO_CELSIUS } from '../../units/temperature';
import { degreesOf, type Degrees } from '../dough';
import type { CheckContext } from '../check';
import { defineCheck, type Found } from '../define';
import { inFahrenheit } from '../edits';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { allSteps, isKind } from '../method';
import { linesOf, placeOf } from '../walk';
import { celsius, degrees } from '../words';

/** Hotter is no oven's temperature. */
const OVEN_CELSIUS = 300;
const COLD: ReadonlySet<StepKind> = new Set<StepKind>(['retard', 'chill', 'freeze']);
const OVEN: ReadonlySet<StepKind> = new Set<StepKind>(['bake', 'preheat']);
/** Pans and pots. */
const HOT: ReadonlySet<StepKind> = new Set<StepKind>([
  'boil', 'fry', 'steam', 'do', 'fill', 'glaze', 'whisk', 'serve', 'slice', 'mix', 'knead', 'soak', 'cool',
]);

/** A batter may be cooked in the pot. */
const RISING_PARTS: ReadonlySet<PartKind> = new Set<PartKind>(['dough', 'total formula', ...PREFERMENT_KINDS]);

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
      return node.kind === 'part' ? odd(context, index, degreesOf(node.temperature), get(RISING_PARTS.has(node.part) ? 'mostRisingCelsius' : 'mostHotCelsius'), `a ${node.part}`) : [];
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
  // 200 F is no dough either.
  const fits = heat.unit === 'C' && heat.celsius > most && asF <= most && asF > 0;
  const impossible = heat.celsius < ABSOLUTE_ZERO_CELSIUS;
  return [
    {
      place,
      message: impossible
        ? `Nothing is as cold as ${celsius(heat.celsius)}: absolute zero is at -273 C. Correct the number.`
        : `For ${what}, ${degrees(heat.celsius, heat.unit)} cannot be meant (${celsius(heat.celsius < least ? least : most)} at ` +
          `${heat.celsius < least ? 'least' : 'most'}). ` +
          (fits ? 'Is it meant in Fahrenheit?' : heat.celsius > most && heat.celsius <= OVEN_CELSIUS ? 'That is an oven: does it belong to a `bake` step?' : 'Is a digit wrong, or does it belong to another step?'),
      fixes: fits ? inFahrenheit(section, place) : [],
    },
  ];
}
