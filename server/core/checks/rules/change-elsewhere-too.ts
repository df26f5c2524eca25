import { inBase } from '../changes';
import { defineCheck, type Found } from '../define';
import { listed, named, writtenName } from '../words';

export const changeElsewhereToo = defineCheck({
  code: 'change-elsewhere-too',
  severity: 'info',
  title: 'An ingredient that stays in another part',
  why:
    'A line without `in` changes the dough. What is swapped or dropped there may stand in a soaker or a levain as well, and stays in ' +
    'it: somebody who may not eat it still cannot.',
  source: 'definition of the language',
  trips: `formula "Country loaf"

soaker
  50 g      walnuts
  50 g      water

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  100 g     walnuts
  all       soaker

formula "Pistachio loaf"
  based on  "Country loaf"
  swap      «walnuts» for pistachios
`,
  passes: `formula "Country loaf"

soaker
  50 g      walnuts
  50 g      water

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  100 g     walnuts
  all       soaker

formula "Pistachio loaf"
  based on  "Country loaf"
  swap      walnuts for pistachios
  swap      walnuts for pistachios in soaker
`,
  find: ({ section }) => (section.variant?.troubles ?? []).flatMap((trouble): readonly Found[] => {
    if (trouble.kind !== 'elsewhere-too') return [];
    const { place, name, part, parts, lines, change } = trouble;
    const { changes = [] } = section.variant ?? {};
    // What a line of its own changes, wherever that stands.
    const isLeft = lines.filter((line) => !changes.some((one, at) => at !== change && one.lines.some(({ block, start }) => block === line.block && start === line.start)));
    if (isLeft.length === 0) return [];
    const verb = changes[change]?.node.kind === 'drop' ? 'dropped' : 'swapped';
    const other = parts[0] ?? '';
    return [{
      place,
      message:
        `${named(name)} is ${verb} in ${named(part)} only: it stays in ${listed(parts.map(named))}. To change it there too, write the line again with ` +
        `\`in ${writtenName(other)}\` behind it.`,
      related: inBase(section, isLeft, 'It stays here.'),
    }];
  }),
});
