import { inBase } from '../changes';
import { defineCheck, type Found } from '../define';
import { listed, named, writtenName } from '../words';

export const changeUnclear = defineCheck({
  code: 'change-unclear',
  severity: 'error',
  title: 'A change that may mean several lines',
  why:
    'Where two lines of the base may be meant, one would be changed and the other kept, and nobody could say which. So none is, ' +
    'until the line says it.',
  source: 'definition of the language',
  trips: `formula "Country loaf"

dough
  800 g     bread flour
  200 g     rye flour
  700 g     water
  20 g      salt

formula "Spelt loaf"
  based on  "Country loaf"
  swap      «flour» for spelt flour
`,
  passes: `formula "Country loaf"

dough
  800 g     bread flour
  200 g     rye flour
  700 g     water
  20 g      salt

formula "Spelt loaf"
  based on  "Country loaf"
  swap      rye flour for spelt flour
`,
  fixed: `formula "Country loaf"

dough
  800 g     bread flour
  200 g     rye flour
  700 g     water
  20 g      salt

formula "Spelt loaf"
  based on  "Country loaf"
  swap      bread flour for spelt flour
`,
  find: ({ section }) => (section.variant?.troubles ?? []).flatMap((trouble): readonly Found[] => {
    if (trouble.kind !== 'unclear') return [];
    const { place, name, part, candidates, lines } = trouble;
    const isOneName = candidates.length === 1;
    return [{
      place,
      message: isOneName
        ? `${named(name)} stands in ${String(lines.length)} lines of ${named(part)}, and one amount cannot be set for all, so this line changes nothing. Drop it and add it anew with one amount.`
        : `${named(name)} may mean ${listed(candidates.map(named), 'or')} in ${named(part)}, so this line changes nothing. Write the name of one.`,
      fixes: isOneName ? [] : candidates.map((candidate) => ({ title: `Write ${named(candidate)}`, certain: false, edits: [{ place, newText: writtenName(candidate) }] })),
      related: inBase(section, lines, 'It may be this line.'),
    }];
  }),
});
