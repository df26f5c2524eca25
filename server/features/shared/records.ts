/** Records in hovers: each line against its plan, all of a formula in short. */
import type { Span } from '../../../grammar';
import type { ResolvedFormula } from '../../core/formula/model';
import { comparisonsAt } from '../../core/records';
import { capital } from '../../core/checks/words';
import { comparisonWords, paceWords, recordsView } from '../../output/records';
import { escaped, paragraphs } from './markdown';

/** More lines make a hover that scrolls. */
const MOST_BAKES = 6;

/** Of one line of a record: planned, was, the difference and what it means; undefined where nothing is to be compared. */
export function recordLineWords(formula: ResolvedFormula, block: number, line: Span): string | undefined {
  const compared = recordsView({ formula }).compared.find(({ record }) => record.block === block);
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
  const { compared, pace } = recordsView({ formula });
  if (compared.length === 0) return undefined;
  const latest = [...compared].sort((a, b) => (a.record.date < b.record.date ? 1 : a.record.date > b.record.date ? -1 : 0));
  const lines = latest.slice(0, MOST_BAKES).map(({ record, comparisons }) => {
    const bulk = comparisons.find(({ what, step }) => what === 'length' && step === 'bulk');
    const loss = comparisons.find(({ what }) => what === 'loss');
    const figures = [bulk && `bulk ${comparisonWords(bulk)}`, loss && `loss ${comparisonWords(loss)}`].filter((text) => text !== undefined);
    return escaped(`${record.date === '' ? 'no date' : record.date}: ${figures.length === 0 ? 'no bulk and no weight noted' : figures.join('; ')}`);
  });
  const more = compared.length - lines.length;
  return paragraphs('**Records**', [...lines, ...(more > 0 ? [`and ${more} more`] : [])].join('  \n'), escaped(paceWords(pace)));
}
