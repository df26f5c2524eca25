import { defineCheck } from '../define';
import { STYLES, styleOf } from '../limits';
import { renames } from '../names';
import { listed, named, nearestWords } from '../words';

export const styleUnknown = defineCheck({
  code: 'style-unknown',
  severity: 'info',
  title: 'A style that no limit knows',
  why:
    'The style sets what counts as much salt or little water for this kind of bread. A word that is not known ' +
    'changes nothing, and the general limits apply.',
  source: 'definition of the language',
  trips: `formula "Country loaf"
  style     hearth, «with inclusoins»

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  passes: `formula "Country loaf"
  style     hearth

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  fixed: `formula "Country loaf"
  style     hearth, with inclusions

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  find: ({ formula }) =>
    (formula?.styles ?? [])
      .filter(({ text }) => text.trim() !== '' && styleOf(text) === undefined)
      .map(({ text, place }) => {
        const near = nearestWords(text, STYLES);
        return {
          place,
          message:
            `${named(text)} is not a style with limits of its own, so the general limits apply. Take it out, or write one of ` +
            `${listed(STYLES, 'or')}.`,
          fixes: renames(near, (candidate) => ({ place, newText: candidate })),
        };
      }),
});
