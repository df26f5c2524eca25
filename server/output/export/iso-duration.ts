/** Lengths of time as ISO 8601 has them. */

const MINUTES_PER_DAY = 24 * 60;

/**
 * `PT1H35M`, `P1DT1H30M`; `PT0M` for none. To the minute. Days, hours and minutes only, as RFC 5545 (3.3.6) restricts it: no reader
 * of either stumbles over it.
 */
export function isoDuration(minutes: number): string {
  const whole = Math.max(0, Math.round(minutes));
  const [days, hours, rest] = [Math.floor(whole / MINUTES_PER_DAY), Math.floor((whole % MINUTES_PER_DAY) / 60), whole % 60];
  const date = days > 0 ? `${String(days)}D` : '';
  const time = `${hours > 0 ? `${String(hours)}H` : ''}${rest > 0 ? `${String(rest)}M` : ''}`;
  if (date === '' && time === '') return 'PT0M';
  return `P${date}${time === '' ? '' : `T${time}`}`;
}
