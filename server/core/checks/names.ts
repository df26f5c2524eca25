/** What the checks on names of other formulas, ingredients and styles share. */
import type { Name } from '../../../grammar';
import type { CheckContext, Fix } from './check';
import type { Found } from './define';
import { placeOf } from './walk';
import { didYouMean, named, nearestWords, quotedName } from './words';

/**
 * The finding for a name that no formula or dish within sight has; none when there is one.
 *
 * @param verb what cannot be done with it: `taken in`, `baked`
 */
export function missingFormula(context: CheckContext, block: number, name: Name, verb: string): readonly Found[] {
  const wanted = name.text.trim().toLowerCase().replace(/\s+/g, ' ');
  // A dish is not an ingredient of itself, whatever it is called.
  const self = context.formula?.name.toLowerCase();
  if (wanted === '' || context.formulaNamed(wanted) !== undefined) {
    return [];
  }
  const place = placeOf(block, name);
  const near = nearestWords(name.text, [...context.knownFormulas].filter((known) => known !== self));
  return [
    {
      place,
      message:
        `No formula called ${named(name.text)} can be ${verb}: there is none in this file or in the files it uses.` +
        (near.length > 0 ? didYouMean(near) : ' Correct the name, or bring its file in with `use "…"`.'),
      fixes: renames(near, (candidate) => ({ place, newText: quotedName(candidate) })),
    },
  ];
}

/** A fix for each name that may have been meant. */
export function renames(near: readonly string[], edit: (candidate: string) => Fix['edits'][number]): readonly Fix[] {
  return near.map((candidate) => ({ title: `Write ${named(candidate)}`, certain: false, edits: [edit(candidate)] }));
}
