/**
 * What the parser could not read. The parser has the words; here each code gets its page of documentation, the same shape
 * as every other finding, and its place in the catalogue.
 */
import type { Problem, ProblemCode } from '../../../../grammar';
import type { Section } from '../../formula/model';
import type { Check, Fix } from '../check';
import { defineCheck, type Found, type Rule } from '../define';
import { inEachBlock, placeOf, remembering } from '../walk';

type Page = Pick<Rule, 'title' | 'why' | 'trips' | 'passes' | 'fixed'> & Partial<Pick<Rule, 'severity'>>;

/** A page for every code: leaving one out does not compile. */
const PAGES: Readonly<Record<ProblemCode, Page>> = {
  'not-understood': {
    title: 'A line that says nothing here',
    why:
      'The line, or the rest of it, is not one that this block knows. Only this line is left out; everything else ' +
      'keeps its meaning.',
    trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt

steps
  «wiggle      8 min»
`,
    passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt

steps
  do "wiggle" 8 min
`,
  },
  'unknown-block': {
    title: 'A line in the first column that opens no block',
    why:
      'Lines that start in the first column open a block: `formula`, `dough`, `steps` and so on. The lines under an ' +
      'unknown one are kept, but count nowhere.',
    trips: `«fromula "Country loaf"»

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
    passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
    fixed: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  },
  'quote-open': {
    title: 'A quote that is not closed',
    why:
      'A name in quotes ends on the line it starts on. Without the closing quote the rest of the line is taken for ' +
      'the name.',
    trips: `formula «"Country loaf»

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
    passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
    fixed: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  },
  'comma-decimal': {
    // The number is read as it was meant, so nothing is lost meanwhile.
    severity: 'warning',
    title: 'A number with a comma',
    why:
      'A comma starts the details or the note of a line here, and people disagree whether it marks decimals or ' +
      'thousands. Written with a point, a number means the same to every baker and every program. `2,5` is read as ' +
      '2.5, `1,000` as 1000.',
    trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  «2,5» g     instant yeast
`,
    passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  2.5 g     instant yeast, from the fridge
`,
    fixed: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  2.5 g     instant yeast
`,
  },
  incomplete: {
    title: 'Something is missing',
    why:
      'Every number has a unit and every line a name: `700` of water may be grams or millilitres, and a guess would ' +
      'be wrong one day.',
    trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  5 «g»
`,
    passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
  5 g       instant yeast
`,
  },
  'out-of-place': {
    title: 'A line in a block where it means nothing',
    why:
      'The line is one the language knows, but not here: steps stand under `steps`, ingredients under a part. Where ' +
      'it stands it counts for nothing.',
    trips: `formula "Country loaf"
  «700 g     water»

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
    passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
`,
  },
  'accept-without-reason': {
    title: 'An `accept` comment without a reason',
    why:
      'An `accept` comment silences a check, and somebody will wonder why. Without a reason after a colon it ' +
      'silences nothing.',
    trips: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt «# accept salt-low»
`,
    passes: `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  10 g      salt # accept salt-low: served with salted butter
`,
  },
};

/** Codes whose repair is right without reading it. The others hold guesses at a mistyped word. */
const CERTAIN: ReadonlySet<ProblemCode> = new Set<ProblemCode>(['comma-decimal']);

export const unreadable: readonly Check[] = (Object.keys(PAGES) as ProblemCode[]).map((code) =>
  defineCheck({
    code,
    severity: 'error',
    source: 'definition of the language',
    ...PAGES[code],
    find: ({ section }) => {
      const problems = problemsOf(section);
      return problems.length === 0 ? problems : problems.filter((problem) => problem.code === code);
    },
  }),
);

/** Looked for once for all of these checks: hardly any section has a problem. */
const problemsOf: (section: Section) => readonly (Found & { readonly code: ProblemCode })[] = remembering(
  inEachBlock((block, index) =>
    block.problems.map(({ code, fix, message, ...span }) => ({
      code,
      place: placeOf(index, span),
      message,
      fixes: fix === undefined ? [] : [asFix(index, fix, CERTAIN.has(code))],
    })),
  ),
);

function asFix(block: number, { title, edits }: NonNullable<Problem['fix']>, certain: boolean): Fix {
  return { title, certain, edits: edits.map(({ newText, ...span }) => ({ place: placeOf(block, span), newText })) };
}
