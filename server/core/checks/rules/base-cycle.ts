import { baseOf, wayRound } from '../bases';
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
