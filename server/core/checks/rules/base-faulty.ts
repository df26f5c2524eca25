import type { Section } from '../../formula/model';
import type { Variant } from '../../variant/model';
import { basePlace, sourceOf } from '../../variant/places';
import type { Finding, Related } from '../check';
import { defineCheck } from '../define';
import { named } from '../words';

/**
 * In the catalogue for its page. It finds nothing by itself: what is passed on from a base is known only after all other checks
 * have run on both.
 */
export const baseFaulty = defineCheck({
  code: 'base-faulty',
  severity: 'error',
  title: 'A base with a mistake',
  why:
    'A variant is weighed from its base. A mistake there, in a line that the variant keeps, makes the weights of both wrong; it is ' +
    'put right in the base, once.',
  source: 'definition of the language',
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  all       levain
  20 g      salt

formula "Wetter loaf"
  based on  «"Country loaf"»
  set       water to 750 g
`,
  tripsBeside: ['part-missing'],
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt

formula "Wetter loaf"
  based on  "Country loaf"
  set       water to 750 g
`,
  find: () => [],
});

/** The finding for errors that a variant has from its base, at least one. */
export function baseFaultyFinding(section: Section, variant: Variant, errors: readonly Finding[]): Finding {
  const count = errors.length === 1 ? 'a mistake' : `${String(errors.length)} mistakes`;
  const related = errors.flatMap(({ place, message }): readonly Related[] => {
    const from = basePlace(section, place);
    const source = from && sourceOf(variant.base, from);
    return source === undefined ? [] : [{ elsewhere: source.block, start: source.start, end: source.end, message }];
  });
  return {
    code: baseFaulty.code,
    severity: baseFaulty.severity,
    message: `${named(variant.base.name)} has ${count} in what this formula takes from it, so the weights here cannot be right either. Put it right there.`,
    place: variant.baseName,
    fixes: [],
    related,
  };
}
