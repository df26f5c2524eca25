import type { Temperature } from '../../../../grammar';
import type { Place } from '../../formula/model';
import type { Finding } from '../check';
import { defineCheck } from '../define';
import { linesOf, placeOf, valuesIn } from '../walk';

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
    const uses: Record<'room' | 'fridge', Place[]> = { room: [], fridge: [] };
    const scan = (block: number, node: object) => {
      for (const value of valuesIn(node)) {
        if (isWord(value)) {
          uses[value.kind].push(placeOf(block, value));
        }
      }
    };
    section.blocks.forEach((block, index) => scan(index, block.head.node));
    for (const { block, line } of linesOf(section)) {
      // A record says on its own how warm it was.
      if (section.blocks[block]?.head.node.kind !== 'record') {
        scan(block, line.node);
      }
    }
    return (['room', 'fridge'] as const).flatMap((word) => {
      const [first, ...others] = uses[word].sort((a, b) => a.block - b.block || a.start - b.start);
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

function isWord(value: object): value is Extract<Temperature, { readonly kind: 'room' | 'fridge' }> {
  return 'kind' in value && (value.kind === 'room' || value.kind === 'fridge') && 'start' in value;
}
