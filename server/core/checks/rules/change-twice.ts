import { defineCheck, type Found } from '../define';
import { withoutTail } from '../edits';
import { inBase } from '../changes';
import { placeOf } from '../../formula/gather';
import { named } from '../words';
import type { Section } from '../../formula/model';

export const changeTwice = defineCheck({
  code: 'change-twice',
  severity: 'error',
  title: 'Two changes of one line',
  why:
    'Two lines that set the same amount, swap the same name, or change what another has dropped or added cannot both hold. The upper ' +
    'one counts. To swap and to set the amount of one line is no such case: each says something else. ' +
    'A formula starts from one other, so a second `based on` counts nowhere.',
  source: 'definition of the language',
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt

formula "Wetter loaf"
  based on  "Country loaf"
  set       water to 750 g
  set       «water» to 760 g
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  100 g     walnuts

formula "Wetter loaf"
  based on  "Country loaf"
  set       water to 750 g
  swap      walnuts for pistachios
  set       pistachios to 90 g
`,
  fixed: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt

formula "Wetter loaf"
  based on  "Country loaf"
  set       water to 750 g
`,
  find: ({ section }) => [...secondBases(section), ...(section.variant?.troubles ?? []).flatMap((trouble): readonly Found[] => {
    if (trouble.kind !== 'twice') return [];
    const { place, name, change, first } = trouble;
    const own = section.variant?.changes[change];
    const other = section.variant?.changes[first];
    const isAdded = other?.node.kind === 'add';
    return [{
      place,
      message: isAdded
        ? `${named(name)} is added by a line above, so this line changes nothing. Write it into that line.`
        : `A line above changes ${named(name)} already, and only that one counts. Keep one of the two.`,
      fixes: own === undefined ? [] : [{ title: 'Take this line out', certain: false, edits: [withoutTail(section, own.place)] }],
      related: [
        ...(other === undefined ? [] : [{ place: other.place, message: 'This line counts.' }]),
        ...inBase(section, other?.lines ?? [], 'The line that both change.'),
      ],
    }];
  })],
});

/** A formula starts from one other. */
function secondBases(section: Section): readonly Found[] {
  const bases = (section.blocks[0]?.lines ?? []).filter(({ node }) => node.kind === 'based-on');
  const [first, ...more] = bases;
  if (first?.node.kind !== 'based-on') return [];
  const message = `This formula is based on ${named(first.node.base?.text ?? '')} by a line above, and only that one counts. Keep one of the two.`;
  return more.map(({ node }) => {
    const place = placeOf(0, node);
    return { place, message, fixes: [{ title: 'Take this line out', certain: false, edits: [withoutTail(section, place)] }], related: [{ place: placeOf(0, first.node), message: 'This line counts.' }] };
  });
}
