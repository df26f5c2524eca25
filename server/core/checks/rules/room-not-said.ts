import type { Temperature } from '../../../../grammar';
import type { Place, Section } from '../../formula/model';
import type { Finding } from '../check';
import { defineCheck } from '../define';
import { inEachBlock, linesOfBlock, placeOf, valuesIn } from '../walk';

export const roomNotSaid = defineCheck({
  code: 'room-not-said',
  severity: 'info',
  title: '`room` or `fridge` without saying how warm it is',
  why:
    'A room is 18 C in one kitchen and 28 C in another, and dough ferments three times as fast in the second. A step ' +
    'at `room` means something only when the formula says how warm it is.',
  source: 'definition of the language',
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  5 g       instant yeast

steps
  mix         8 min
  bulk        4 h at «room»
`,
  passes: `formula "Country loaf"
  room      22 C

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  5 g       instant yeast

steps
  mix         8 min
  bulk        4 h at room
`,
  find: ({ section, formula }) => {
    if (formula === undefined) {
      return [];
    }
    const said = { room: formula.roomCelsius !== null, fridge: formula.fridgeCelsius !== null };
    const uses = wordsIn(section);
    return (['room', 'fridge'] as const).flatMap((word) => {
      const [first, ...others] = uses.filter(({ kind }) => kind === word).map(({ place }) => place).sort((a, b) => a.block - b.block || a.start - b.start);
      if (first === undefined || said[word]) {
        return [];
      }
      const related: Finding['related'] = others.map((place) => ({ place, message: 'and here' }));
      const example = word === 'room' ? 'room 22 C' : 'fridge 4 C';
      return [
        {
          place: first,
          message:
            `The formula does not say how warm the ${word} is, so nothing about this step's fermentation can be ` +
            `worked out. Add a line like \`${example}\` under its head.`,
          related,
        },
      ];
    });
  },
});

type Word = Extract<Temperature, { readonly kind: 'room' | 'fridge' }>;

/** A record says on its own how warm it was. */
const wordsIn: (section: Section) => readonly { readonly kind: Word['kind']; readonly place: Place }[] = inEachBlock((block, index) => {
  const nodes = [block.head.node, ...(block.head.node.kind === 'record' ? [] : linesOfBlock(block, index).map(({ line }) => line.node))];
  return nodes.flatMap((node) => valuesIn(node)).filter(isWord).map((value) => ({ kind: value.kind, place: placeOf(index, value) }));
});

function isWord(value: object): value is Word {
  return 'kind' in value && (value.kind === 'room' || value.kind === 'fridge') && 'start' in value;
}
