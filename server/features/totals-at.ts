/** The totals of the formula or dish at the cursor in a few words, for a line that is always on the screen, and all of them to read there. */
import type { Analysis } from '../core/analyse';
import { sectionAt } from '../project/file';
import type { ProjectFile } from '../project/file';
import { dotted, escaped, gramsOrNothing, percentOrNothing } from './shared/markdown';
import { formulaWords } from './shared/totals';

export interface TotalsAt {
  /** `72 % · salt 2 % · 4 × 950 g`: hydration, salt, pieces. What is not known is left out. */
  readonly short: string;
  /** The same for who listens: `Country loaf: hydration 72 %, salt 2 %, 4 loaves of 950 g`. */
  readonly spoken: string;
  /** Markdown: all the totals, as on hover. */
  readonly all: string;
}

/** Read from what is known of the file, so that it may be asked at each move of the cursor. Undefined where no formula is, or none of it is known. */
export function totalsAt(file: ProjectFile, offset: number): TotalsAt | undefined {
  const analysis = sectionAt(file, offset)?.analysis;
  if (analysis?.formula === undefined || analysis.totals === undefined) return undefined;
  const facts = factsOf(analysis.formula, analysis.totals);
  if (facts.length === 0) return undefined;
  const { name, kind } = analysis.formula;
  const title = name === '' ? `This ${kind}` : name;
  return {
    short: dotted(facts.map(([short]) => short)),
    spoken: `${title}: ${facts.map(([, spoken]) => spoken).join(', ')}`,
    all: `**${escaped(title)}**\n\n${formulaWords(analysis)}`,
  };
}

type Fact = readonly [short: string, spoken: string];

function factsOf({ yield: { pieces, noun, pieceGrams } }: NonNullable<Analysis['formula']>, totals: NonNullable<Analysis['totals']>): readonly Fact[] {
  const facts: Fact[] = [];
  const dough = gramsOrNothing(totals.dough_g || null);
  if (totals.flour_g !== null && totals.flour_g > 0) {
    const hydration = percentOrNothing(totals.hydration_pct);
    const salt = percentOrNothing(totals.salt_pct);
    if (hydration !== undefined) facts.push([hydration, `hydration ${hydration}`]);
    if (salt !== undefined) facts.push([`salt ${salt}`, `salt ${salt}`]);
  }
  const piece = gramsOrNothing(pieceGrams || null);
  if (pieces !== null && pieces > 0 && piece !== undefined) facts.push([`${pieces} × ${piece}`, `${pieces} ${noun} of ${piece}`]);
  else if (dough !== undefined) facts.push([dough, `${dough} in all`]);
  return facts;
}
