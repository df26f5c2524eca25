/** One amount of a formula, in grams and in per cent of what. */
import type { Analysis } from '../../core/analyse';
import type { ResolvedLine, ResolvedPart } from '../../core/formula/model';
import { whyUnknown } from '../../output/facts/unknown';
import { escaped, gramsOrNothing, paragraphs, percentOrNothing } from './markdown';

/**
 * `600 g, which is 63.8 % of the 940 g of flour in the dough`, and its share of all the flour where that is another number.
 * What is missing, where its weight cannot be known.
 */
export function amountWords(line: ResolvedLine, part: ResolvedPart, { section, formula, sheet, totals }: Analysis): string {
  const grams = gramsOrNothing(line.grams);
  if (grams === undefined) return escaped((formula && whyUnknown({ formula, section })) ?? '');
  // A line of a total formula lists what goes into all parts; the final dough holds what is left of it.
  const row = part.kind === 'total formula' && line.part === undefined ? sheet?.rows.find(r => r.key === line.key) : undefined;
  const flour = totals?.flour_g ?? null;
  if (row !== undefined && row.grams !== null) {
    const inDough = Math.abs(row.grams - (line.grams ?? 0)) > 0.05 ? `${grams} of it is weighed into the final dough.` : undefined;
    return paragraphs(`**${gramsOrNothing(row.grams)}**, ${percentOrNothing(row.pct) ?? '?'} of all the flour`, inDough);
  }
  const share = percentOrNothing(line.pct);
  const ofAll = flour === null || flour <= 0 || line.grams === null || part.usedFraction === null || !line.inDough
    ? undefined
    : (line.grams * part.usedFraction * 100) / flour;
  const sameBase = line.pct !== null && ofAll !== undefined && Math.abs(ofAll - line.pct) < 0.05;
  return paragraphs(
    share === undefined ? `**${grams}**` : `**${grams}**, ${share} of ${baseWords(part)}`,
    ofAll === undefined || sameBase ? undefined : `${percentOrNothing(ofAll)} of all the flour in the formula`,
    line.inDough ? undefined : 'Kept out of the dough.',
  );
}

/** What 100 % is in a part. */
function baseWords(part: ResolvedPart): string {
  const base = gramsOrNothing(part.baseGrams);
  if (part.kind === 'total formula') return 'all the flour';
  const hasFlour = part.lines.some(line => line.inDough && line.role === 'flour' && line.part === undefined);
  const what = hasFlour ? 'flour' : 'everything';
  return base === undefined ? `the ${what} in ${escaped(part.name)}` : `the ${base} of ${what} in ${escaped(part.name)}`;
}
