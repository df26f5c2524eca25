/** Temperatures and lengths of time as the food facts and the advice of a sheet say them. */
import type { Range } from '../../core/estimate';
import { fahrenheit } from '../../core/units/temperature';
import { celsius, decimals, minutesRange } from '../numbers';

/** One thing said of a formula: what it is about, and the sentence or figure. */
export interface Fact {
  readonly label: string;
  readonly value: string;
}

/** A few facts under one title, the same on paper, in the preview and in a hover. */
export interface FactBlock {
  readonly title: string;
  /** Stands beside the title: what kind of numbers these are. */
  readonly about: string | undefined;
  readonly facts: readonly Fact[];
  /** What was taken for granted. */
  readonly notes: readonly string[];
}

/** `21 °C (70 °F)` */
export function bothScales(value: number): string {
  return `${celsius(value)} (${decimals(fahrenheit(value), 0)} °F)`;
}

/** A range of hours to what is worth reading of it: to 5 min under an hour, to a quarter under six, to a half above. */
export function hoursWords({ low, high }: Pick<Range, 'low' | 'high'>): string {
  return minutesRange(toStep(low), toStep(high));
}

function toStep(hours: number): number {
  const minutes = hours * 60;
  const step = minutes < 60 ? 5 : minutes < 360 ? 15 : 30;
  return Math.round(minutes / step) * step;
}

/** `a, b and c`; from the sixth on only how many more. */
export function named(names: readonly string[], most = 5): string {
  const shown = names.length > most + 1 ? names.slice(0, most) : names;
  const more = names.length - shown.length;
  const last = more > 0 ? `${String(more)} more` : shown.at(-1);
  const before = more > 0 ? shown : shown.slice(0, -1);
  return last === undefined ? '' : before.length === 0 ? last : `${before.join(', ')} and ${last}`;
}

/** With a capital and a full stop. */
export function sentence(text: string): string {
  const [first = ''] = text;
  return `${first.toUpperCase()}${text.slice(first.length)}${/[.!?]$/.test(text) ? '' : '.'}`;
}

/** A sentence to go on with after a colon. */
export function lowered(text: string): string {
  const [first = ''] = text;
  return (first.toLowerCase() + text.slice(first.length)).replace(/\.$/, '');
}
