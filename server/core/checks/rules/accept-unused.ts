import type { Section } from '../../formula/model';
import type { Accept } from '../accept';
import type { Finding, Fix } from '../check';
import { defineCheck } from '../define';
import { withoutTail } from '../edits';
import { didYouMean, nearestWords } from '../words';

/**
 * In the catalogue for its page. It finds nothing by itself: whether an `accept` silences anything is known only after
 * all other checks have run, so `runChecks` calls `unusedAccept` then.
 */
export const acceptUnused = defineCheck({
  code: 'accept-unused',
  severity: 'warning',
  title: 'An `accept` comment that silences nothing',
  why:
    'A comment that once silenced a finding and no longer does is a trap: the next finding of that kind on this line ' +
    'would be hidden without anybody having looked at it.',
  source: 'definition of the language',
  trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt # accept «salt-high»: it is for the brine
`,
  passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  35 g      salt # accept salt-high: half of it stays in the cloth
`,
  fixed: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  find: () => [],
});

/** The finding for an `accept` that silenced nothing. `known`: the codes there are. */
export function unusedAccept(section: Section, accept: Accept, known: readonly string[]): Finding {
  return {
    code: acceptUnused.code,
    severity: acceptUnused.severity,
    message: known.includes(accept.code)
      ? `There is no ${accept.code} finding here to accept. Take the comment out.`
      : `No check is called ${accept.code}.${didYouMean(nearestWords(accept.code, known))}`,
    place: accept.codePlace,
    fixes: accept.codes.length === 1 ? [removeComment(section, accept)] : [],
    related: [],
  };
}

function removeComment(section: Section, accept: Accept): Fix {
  return { title: 'Take the comment out', certain: true, edits: [withoutTail(section, accept.place)] };
}
