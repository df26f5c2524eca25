/** Lengths of time in a sentence, and how the language writes them. */
import { numbersAt, type At } from './amounts';
import { isDash, isSign, isWord, type Token } from './tokens';

export interface ReadDuration {
  readonly lowMinutes: number;
  readonly highMinutes: number;
  /** `overnight` */
  readonly isNight: boolean;
}

const UNITS = new Map<string, number>([
  ...['s', 'sec', 'secs', 'second', 'seconds'].map((word) => [word, 1 / 60] as const),
  ...['min', 'mins', 'minute', 'minutes', 'm'].map((word) => [word, 1] as const),
  ...['h', 'hr', 'hrs', 'hour', 'hours'].map((word) => [word, 60] as const),
  ...['d', 'day', 'days'].map((word) => [word, 24 * 60] as const),
]);

/** `40 minutes`, `1 h 30 min`, `an hour and a half`, `45 minutes to 1 hour`, `8-10 hours`, `overnight`. */
export function durationAt(tokens: readonly Token[], index: number): At<ReadDuration> | undefined {
  if (isWord(tokens[index], 'overnight')) return { value: { lowMinutes: 8 * 60, highMinutes: 14 * 60, isNight: true }, next: index + 1 };
  const first = simpleAt(tokens, index);
  if (first === undefined) return undefined;
  if (!isDash(tokens[first.next]) && !isWord(tokens[first.next], 'to')) return first;
  const second = simpleAt(tokens, first.next + 1);
  if (second === undefined || second.value.highMinutes <= first.value.lowMinutes) return first;
  return { value: { lowMinutes: first.value.lowMinutes, highMinutes: second.value.highMinutes, isNight: false }, next: second.next };
}

function simpleAt(tokens: readonly Token[], index: number): At<ReadDuration> | undefined {
  const numbers = numbersAt(tokens, index);
  if (numbers === undefined) return undefined;
  const unitIndex = isDash(tokens[numbers.next]) ? numbers.next + 1 : numbers.next;
  // `1h30`
  const [, minutes] = /^h(\d{1,2})$/i.exec(tokens[unitIndex]?.text ?? '') ?? [];
  if (minutes !== undefined) {
    const total = (value: number): number => value * 60 + Number(minutes);
    return { value: { lowMinutes: total(numbers.value.lowValue), highMinutes: total(numbers.value.highValue), isNight: false }, next: unitIndex + 1 };
  }
  const unit = unitAt(tokens, unitIndex);
  if (unit === undefined) return undefined;
  let [low, high] = [numbers.value.lowValue * unit, numbers.value.highValue * unit];
  let next = unitIndex + 1;
  if (unit >= 60) {
    const from = isWord(tokens[next], 'and') ? next + 1 : next;
    const rest = numbersAt(tokens, from);
    const restUnit = rest && unitAt(tokens, rest.next);
    if (rest !== undefined && restUnit === 1) {
      low += rest.value.lowValue;
      high += rest.value.highValue;
      next = rest.next + 1;
    } else if (isWord(tokens[next], 'and') && isWord(tokens[next + 1], 'a') && isWord(tokens[next + 2], 'half')) {
      low += unit / 2;
      high += unit / 2;
      next += 3;
    }
  }
  return low > 0 && high < 100_000 ? { value: { lowMinutes: low, highMinutes: high, isNight: false }, next } : undefined;
}

function unitAt(tokens: readonly Token[], index: number): number | undefined {
  const token = tokens[index];
  // `30'`
  if (isSign(token, "'", '′', '’') && token?.spaced === false) return 1;
  return token?.kind === 'word' ? UNITS.get(token.text.toLowerCase()) : undefined;
}

/** `20 min`, `1 h 30 min`, `10 to 16 h`, `overnight` */
export function durationWords({ lowMinutes, highMinutes, isNight }: ReadDuration): string {
  if (isNight) return 'overnight';
  if (lowMinutes === highMinutes) return oneDuration(lowMinutes);
  const unit = lowMinutes % 60 === 0 && highMinutes % 60 === 0 ? 60 : 1;
  if (lowMinutes >= 1 && (unit === 60 || highMinutes <= 240)) return `${plain(lowMinutes / unit)} to ${plain(highMinutes / unit)} ${unit === 60 ? 'h' : 'min'}`;
  return `${oneDuration(lowMinutes)} to ${oneDuration(highMinutes)}`;
}

function oneDuration(minutes: number): string {
  if (minutes < 1) return `${plain(minutes * 60)} s`;
  const hours = Math.floor(minutes / 60);
  const rest = minutes - hours * 60;
  if (hours === 0) return `${plain(rest)} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${plain(rest)} min`;
}

function plain(value: number): string {
  return String(Math.round(value * 100) / 100);
}

/** Minutes of an ISO 8601 duration such as `PT1H30M`; undefined for anything else. */
export function isoMinutes(text: string): number | undefined {
  const found = /^P(?:(\d{1,6}(?:\.\d{1,6})?)D)?(?:T(?:(\d{1,6}(?:\.\d{1,6})?)H)?(?:(\d{1,6}(?:\.\d{1,6})?)M)?(?:(\d{1,6}(?:\.\d{1,6})?)S)?)?$/i.exec(text.trim());
  if (found === null || text.trim().length < 3) return undefined;
  const [, days = '0', hours = '0', minutes = '0', seconds = '0'] = found;
  return Number(days) * 1440 + Number(hours) * 60 + Number(minutes) + Number(seconds) / 60;
}
