import { defineCheck, type Found } from '../define';
import { renames } from '../names';
import { linesOf, placeOf } from '../walk';
import { didYouMean, named, writtenName } from '../words';

export const likeMissing = defineCheck({
  code: 'like-missing',
  severity: 'warning',
  title: 'An ingredient like one that nobody knows',
  why:
    '`like` takes over the composition of a known ingredient. If that one is not known, your own has no water, ' +
    'protein or fat either.',
  source: 'the ingredient table that ships',
  trips: `ingredient "Mill flour"
  like      «braed flour»
`,
  passes: `ingredient "Mill flour"
  like      bread flour
`,
  fixed: `ingredient "Mill flour"
  like      bread flour
`,
  find: ({ section, catalogue }) =>
    linesOf(section).flatMap(({ block, line: { node } }): readonly Found[] => {
      const own = section.kind === 'ingredient' ? catalogue.find(section.name) : undefined;
      const name = node.kind === 'property' && node.key === 'like' && node.value.kind === 'name' ? node.value.name : undefined;
      if (name === undefined) {
        return [];
      }
      const place = placeOf(block, name);
      const like = catalogue.find(name.text);
      // Made from nothing, although there is such an ingredient: it is itself made like this one.
      if (like !== undefined && own?.source === 'own ingredient') {
        return [
          {
            place,
            message:
              `${named(name.text)} is ${like === own ? 'this ingredient' : 'itself like this ingredient'}, so neither says what is in it: its water, protein ` +
              'and role are not known. Name one that ships, like `like bread flour`.',
          },
        ];
      }
      if (like !== undefined) {
        return [];
      }
      const near = catalogue.nearest(name.text, 3);
      return [
        {
          place,
          message:
            `${named(name.text)} is not in the ingredient table, so nothing is taken over from it.${didYouMean(near)}`,
          fixes: renames(near, (candidate) => ({ place, newText: writtenName(candidate) })),
        },
      ];
    }),
});
