import type { Section } from '../../formula/model';
import type { VariantTrouble } from '../../variant/model';
import type { Fix } from '../check';
import { defineCheck, type Found } from '../define';
import { inPartAt, inPart } from '../changes';
import { didYouMean, listed, named, nearestWords, writtenName } from '../words';

export const changeMatchesNothing = defineCheck({
  code: 'change-matches-nothing',
  severity: 'error',
  title: 'A change of something that the base has not',
  why:
    'A line of a variant changes a line of the formula that it is based on. Where that has no such ingredient, or no such part, ' +
    'nothing is changed, and the sheet is that of another bread than the one that is meant.',
  source: 'definition of the language',
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  100 g     walnuts

formula "Pistachio loaf"
  based on  "Country loaf"
  swap      «walnits» for pistachios
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  100 g     walnuts

formula "Pistachio loaf"
  based on  "Country loaf"
  swap      walnuts for pistachios
`,
  fixed: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  100 g     walnuts

formula "Pistachio loaf"
  based on  "Country loaf"
  swap      walnuts for pistachios
`,
  find: ({ section }) => (section.variant?.troubles ?? []).flatMap((trouble): readonly Found[] => {
    switch (trouble.kind) {
      case 'no-match': return [noMatch(section, trouble)];
      case 'part-missing': return [partMissing(section, trouble)];
      case 'unclear':
      case 'twice':
      case 'elsewhere-too':
        return [];
    }
  }),
});

function noMatch(section: Section, { change, place, name, part, nearest, elsewhere }: Extract<VariantTrouble, { kind: 'no-match' }>): Found {
  const base = named(section.variant?.base.name ?? '');
  if (elsewhere.length > 0) {
    return {
      place,
      message:
        `${named(name)} is not in ${named(part)} of ${base}, which is meant where no part is named, so this line changes nothing. It is in ` +
        `${listed(elsewhere.map(named))}: write ${listed(elsewhere.map((one) => `\`in ${writtenName(one)}\``), 'or')} behind it.`,
      fixes: elsewhere.map((one) => inPart(section, change, one)),
    };
  }
  const near = nearestWords(name, nearest);
  return {
    place,
    message:
      `${named(part)} of ${base} has no ${named(name)}, so this line changes nothing.` +
      (near.length > 0 ? didYouMean(near) : nearest.length === 0 ? '' : ` It has ${listed(nearest.slice(0, 12).map(named))}.`),
    fixes: near.map((candidate): Fix => ({ title: `Write ${named(candidate)}`, certain: false, edits: [{ place, newText: writtenName(candidate) }] })),
  };
}

function partMissing(section: Section, { place, name, isOwn, parts }: Extract<VariantTrouble, { kind: 'part-missing' }>): Found {
  const base = named(section.variant?.base.name ?? '');
  if (isOwn) {
    return { place, message: `${name === '' ? 'The dough' : named(name)} is written here in full, so there is nothing of ${base} in it to change. Make the change in its own lines.` };
  }
  const has = parts.length === 0 ? `${base} has no part at all` : `The parts of ${base} are ${listed(parts.map(named))}`;
  if (name === '') {
    return {
      place,
      message: `${base} has no dough, and this line does not say which part it changes, so it changes nothing. ${has}: write one of them behind \`in\`.`,
      fixes: parts.flatMap((part) => inPartAt(section, place, part)),
    };
  }
  const near = nearestWords(name, parts);
  return {
    place,
    message: `${base} has no part ${named(name)}, so this line changes nothing. ${has}.`,
    fixes: near.map((candidate): Fix => ({ title: `Write ${named(candidate)}`, certain: false, edits: [{ place, newText: writtenName(candidate) }] })),
  };
}
