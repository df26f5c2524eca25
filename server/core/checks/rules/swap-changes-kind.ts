import type { Role } from '../../../../grammar';
import { nameKey } from '../../formula/draft';
import type { Section } from '../../formula/model';
import { partKeyOf } from '../../variant/order';
import { inBase } from '../changes';
import { defineCheck, type Found } from '../define';
import { placeOf } from '../walk';
import { named } from '../words';

export const swapChangesKind = defineCheck({
  code: 'swap-changes-kind',
  severity: 'warning',
  title: 'A swap for something of another kind',
  why:
    'A swap keeps the weight of the line. One liquid for another, or one nut for another, keeps the dough what it is; a liquid for a ' +
    'flour makes it another, since all shares are of the flour.',
  source: 'common practice, no source',
  trips: `formula "Country loaf"

dough
  950 g     bread flour
  50 g      rye flour
  700 g     water
  20 g      salt

formula "Milk loaf"
  based on  "Country loaf"
  «swap      rye flour for milk»
`,
  passes: `formula "Country loaf"

dough
  800 g     bread flour
  200 g     rye flour
  700 g     water
  20 g      salt

formula "Milk loaf"
  based on  "Country loaf"
  swap      water for milk
`,
  find: ({ section, catalogue }) => (section.variant?.changes ?? []).flatMap(({ node, place, lines }): readonly Found[] => {
    const [line] = lines;
    if (node.kind !== 'swap' || line === undefined) return [];
    const written = section.variant?.base.blocks[line.block]?.lines.find(({ start }) => start === line.start)?.node;
    // What a line is by its own word stays so.
    if (written?.kind !== 'ingredient' || written.role !== undefined || isPart(section, written.name.text)) return [];
    const from = catalogue.find(written.name.text)?.role;
    const to = catalogue.find(node.to.text)?.role;
    if (from === undefined || to === undefined || GROUPS[from] === GROUPS[to] || (FREE.has(GROUPS[from]) && FREE.has(GROUPS[to]))) return [];
    return [{
      place: placeOf(place.block, node),
      message:
        `${named(written.name.text)} is ${WORDS[from]} and ${named(node.to.text)} is ${WORDS[to]}. The line keeps its amount, so the dough becomes another one. ` +
        'If that is meant, drop the one and add the other with an amount of its own.',
      related: inBase(section, lines, 'The line that is swapped.'),
    }];
  }),
});

/** What a part is called has no kind, even where an ingredient has the name too. */
function isPart(section: Section, name: string): boolean {
  return section.variant?.base.blocks.some((block) => partKeyOf(block) === nameKey(name)) === true;
}

/** Roles that do the same in a dough. */
const GROUPS: Readonly<Record<Role, string>> = {
  flour: 'flour', liquid: 'liquid', dairy: 'liquid', egg: 'liquid', fat: 'fat', sweetener: 'sweetener', salt: 'salt', leaven: 'leaven',
  inclusion: 'pieces', absorber: 'pieces', spice: 'spice', other: 'other',
};

/** Groups among which a dough bears a change. */
const FREE: ReadonlySet<string> = new Set(['pieces', 'spice', 'other', 'sweetener', 'fat']);

const WORDS: Readonly<Record<Role, string>> = {
  flour: 'a flour', liquid: 'a liquid', dairy: 'a dairy liquid', egg: 'egg', fat: 'a fat', sweetener: 'a sweetener', salt: 'salt', leaven: 'a leaven',
  inclusion: 'an inclusion', absorber: 'something that binds water', spice: 'a spice', other: 'another ingredient',
};
