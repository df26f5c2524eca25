import type { Name, Span } from '../../../../grammar';
import { nameKey } from '../../formula/draft';
import type { Section } from '../../formula/model';
import type { CheckContext } from '../check';
import { defineCheck } from '../define';
import { placeOf } from '../walk';
import { listed, named } from '../words';

export const baseCycle = defineCheck({
  code: 'base-cycle',
  severity: 'error',
  title: 'Formulas that are based on each other',
  why:
    'A variant says what differs from its base. If the base is in the end the variant itself, none of them says what is in the ' +
    'dough, and none can be weighed.',
  source: 'definition of the language',
  trips: `formula "Wetter loaf"
  based on  «"Wetter loaf"»
  set       water to 750 g
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  find: (context) => {
    const base = baseOf(context.section);
    const round = base === undefined ? undefined : wayRound(context);
    if (base === undefined || round === undefined) {
      return [];
    }
    const message =
      round.length === 1
        ? `${listed(round.map(named))} is based on itself, so nothing says what is in it. Name the formula it starts from.`
        : `${listed(round.map(named))} are based on each other, so none of them says what is in the dough and nothing can be weighed. ` +
          'Base one of them on a formula with a dough of its own.';
    return [{ place: placeOf(base.block, base.name), message }];
  },
});

/** The formula that a section is based on, and where it says so. */
function baseOf({ blocks }: Section): { readonly name: Name & Span; readonly block: number } | undefined {
  for (const [block, { lines }] of blocks.entries()) {
    for (const { node } of lines) {
      if (node.kind === 'based-on') {
        return { name: node.base, block };
      }
    }
  }
  return undefined;
}

/** The names from a formula over its bases back to itself; undefined where the way ends, or leads into a ring of others. */
function wayRound({ section, formulaNamed }: CheckContext): readonly string[] | undefined {
  const way = [section.name];
  const seen = new Set([nameKey(section.name)]);
  for (let next = baseOf(section); next !== undefined; ) {
    const key = nameKey(next.name.text);
    if (key === nameKey(section.name)) {
      return way;
    }
    const base = formulaNamed(key);
    if (base === undefined || seen.has(key)) {
      return undefined;
    }
    seen.add(key);
    way.push(base.name);
    next = baseOf(base);
  }
  return undefined;
}
