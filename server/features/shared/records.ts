/** Records in hovers: each line against its plan, all of a formula in short. */
import type { Span } from '../../../grammar';
import type { ResolvedFormula } from '../../core/formula/model';
import { comparisonsAt } from '../../core/records';
import { capital } from '../../core/checks/words';
import { bakeWords, comparisonWords, latestFirst, paceWords, recordsView } from '../../output/records';
import { remembered } from '../../project/remembered';
import { escaped, paragraphs } from './markdown';

/** Every hover on a line of a record asks, and every bake is looked at for the pace. */
const viewOf = remembered((formula: ResolvedFormula) => recordsView({ formula }));

/** More lines make a hover that scrolls. */
const MOST_BAKES = 6;

/** Of one line of a record: planned, was, the difference and what it means; undefined where nothing is to be compared. */
export function recordLineWords(formula: ResolvedFormula, block: number, line: Span): string | undefined {
  const compared = viewOf(formula).compared.find(({ record }) => record.block === block);
  const found = compared === undefined ? [] : comparisonsAt(compared, line);
  if (found.length === 0) return undefined;
  // Of a line with one figure its own words say what it is of.
  return found.map((comparison) => {
    const subject = found.length === 1 ? '' : `${comparison.what}: `;
    return escaped(`${capital(`${subject}${comparisonWords(comparison)}`)}. ${comparison.meaning}`);
  }).join('  \n');
}

/** Of a formula: its last bakes, a line each, and the pace fitted to all; undefined where nothing was recorded. */
export function recordsWords(formula: ResolvedFormula): string | undefined {
  const view = viewOf(formula);
  const { compared, pace } = view;
  if (compared.length === 0) return undefined;
  const lines = latestFirst(view).slice(0, MOST_BAKES).map((bake) => escaped(bakeWords(bake)));
  const more = compared.length - lines.length;
  return paragraphs('**Records**', [...lines, ...(more > 0 ? [`and ${more} more`] : [])].join('  \n'), escaped(paceWords(pace)));
}
