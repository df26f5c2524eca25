import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { HEATS, wordsOf } from '../method';
import { placeOf } from '../walk';

const TASTES = /\b(taste|tastes|lick|nibble|try a (bit|piece|pinch))\b/i;

export const rawDoughTasted = defineCheck({
  code: 'raw-dough-tasted',
  severity: 'warning',
  title: 'Tasting raw dough',
  why:
    'Flour is raw food, and raw flour and egg have made people ill. Public guidance is not to taste raw dough, batter ' +
    'or starter; nose and fingers tell as much.',
  source: 'US FDA advice on raw flour, as repeated on several pages',
  trips: loaf({
    steps: ['mix         8 min, «"taste for salt"»', 'preheat     45 min at 235 C', 'bake        40 min at 235 C'],
  }),
  passes: loaf({ steps: ['mix         8 min, "smell it"', 'preheat     45 min at 235 C', 'bake        40 min at 235 C'] }),
  find: ({ formula, reports }) => {
    if (formula?.kind !== 'formula' || !reports.leaves().some(({ line }) => line.role === 'flour')) {
      return [];
    }
    const first = formula.method.findIndex(({ node }) => HEATS.has(node.step));
    return formula.method.slice(0, first < 0 ? undefined : first).flatMap((step): readonly Found[] =>
      wordsOf(step)
        .filter(({ text }) => TASTES.test(text) && !/\b(do not|don't|don’t|never)\b/i.test(text))
        .map((words) => ({ place: placeOf(step.place.block, words), message: 'Raw flour and egg can make people ill, so public guidance is not to taste raw dough. Weigh the salt, and smell the dough instead.' })),
    );
  },
});
