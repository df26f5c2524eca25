/** The stable JSON form of records: snake case, Celsius, minutes, per cent. What was not noted is null. */
import { lossPctOf } from '../core/records';
import type { FormulaEntry } from './entry';
import { recordsView } from './records';

/** `records`, a list in the order of the text, and `pace`: the fitted figure, or `reason` why there is none. */
export function recordsJson(entry: FormulaEntry): { readonly records: readonly unknown[]; readonly pace: unknown } {
  const { compared, pace } = recordsView(entry);
  const formula = entry.asWritten ?? entry.formula;
  return {
    records: compared.map(({ record, comparisons }) => ({
      date: record.date === '' ? null : record.date,
      line: entry.lineOf(record.place),
      room_c: record.roomCelsius?.value ?? null,
      dough_c: record.doughCelsius?.value ?? null,
      core_c: record.coreCelsius?.value ?? null,
      loss_pct: lossPctOf(formula, record),
      ph: record.ph?.value ?? null,
      note: record.note === '' ? null : record.note,
      figures: comparisons.map(({ what, step, place, unit, planned, was, difference, meaning }) => ({
        what, step: step ?? null, line: entry.lineOf(place), unit, planned_low: planned?.low ?? null, planned_high: planned?.high ?? null, was, difference, meaning,
      })),
    })),
    pace: 'reason' in pace
      ? { reason: pace.reason }
      : { pace: pace.pace, low: pace.low, high: pace.high, bakes: pace.bakes, residual_pct: pace.residualPct, notes: pace.notes },
  };
}
