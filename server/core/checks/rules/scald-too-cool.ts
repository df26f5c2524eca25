import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { sourcesOf, THRESHOLDS } from '../limits';
import { celsius, named } from '../words';

export const scaldTooCool = defineCheck({
  code: 'scald-too-cool',
  severity: 'warning',
  title: 'A scald whose water does not scald',
  why:
    'A scald holds so much water because its starch has swollen, which takes about 65 C. With cooler water it is a ' +
    'paste of flour, and the dough is slack.',
  source: sourcesOf('scald-too-cool'),
  limits: THRESHOLDS['scald-too-cool'],
  trips: loaf({
    before: 'scald\n  50 g      bread flour\n  «250 g     water at 40 C»\n  rest      1 h\n',
    dough: ['1000 g    bread flour', '550 g     water', 'all       scald', '20 g      salt'],
  }),
  passes: loaf({
    before: 'scald\n  50 g      bread flour\n  250 g     water at 95 C\n  rest      1 h\n',
    dough: ['1000 g    bread flour', '550 g     water', 'all       scald', '20 g      salt'],
  }),
  find: ({ formula, limits }) => {
    const least = limits.get('scald-too-cool', 'leastCelsius');
    return (formula?.parts ?? []).filter(({ kind }) => kind === 'scald').flatMap((part): readonly Found[] => {
      const cooked = part.steps.some(({ node }) => ['boil', 'do', 'whisk', 'steam', 'bake', 'mix'].includes(node.step)) || part.yieldGrams !== part.grams;
      const waters = part.lines.filter((line) => line.ingredient?.isWater === true || line.role === 'dairy' || line.role === 'liquid');
      const hottest = Math.max(...waters.map((line) => line.celsius ?? Infinity));
      const [first] = waters;
      return cooked || first === undefined || hottest >= least
        ? []
        : [
            {
              place: first.place,
              message: `${celsius(hottest)} does not scald: the starch of ${named(part.name)} swells from about ${celsius(least)}. Pour the water on boiling, or cook it with a \`boil\` step.`,
            },
          ];
    });
  },
});
