/** Time zones by the names of the IANA time zone database: which exist, and which was probably meant. */
import { editDistance } from '../../../grammar';
import * as Zoned from 'temporal-polyfill/fns/ZonedDateTime';

/** Names in daily use that platforms know but leave out of their lists, where the older name stands instead. */
const UNLISTED_NAMES = [
  'Africa/Asmara', 'America/Argentina/Buenos_Aires', 'America/Nuuk', 'Asia/Ho_Chi_Minh', 'Asia/Kathmandu', 'Asia/Kolkata', 'Asia/Yangon',
  'Atlantic/Faroe', 'Europe/Kyiv', 'Pacific/Chuuk', 'Pacific/Kanton', 'Pacific/Pohnpei', 'UTC',
] as const;

/** More edits than this away and it is another word. */
const MOST_EDITS = 3;

/**
 * The zone's name in its own spelling (`europe/lisbon` is `Europe/Lisbon`), or undefined if the platform's time zone
 * data has no such zone. Fixed offsets such as `+01:00` are zones too.
 */
export function zoneNamed(name: string): string | undefined {
  try {
    return Zoned.create(0n, name).timeZoneId;
  } catch {
    return undefined; // the one way the platform has of saying that it knows no such zone
  }
}

/** Every zone, by name. */
export function zoneNames(): readonly string[] {
  return [...new Set([...Intl.supportedValuesOf('timeZone'), ...UNLISTED_NAMES])].sort();
}

/** Zones that a mistyped name, or a city on its own, may have meant; best first, at most `limit`. */
export function nearestZones(name: string, limit = 3): readonly string[] {
  const wanted = plain(name);
  if (wanted === '') return [];
  const scored: { readonly zone: string; readonly edits: number }[] = [];
  for (const zone of zoneNames()) {
    const whole = plain(zone);
    const city = whole.slice(whole.lastIndexOf('/') + 1);
    // A city alone, or the right city in the wrong region, is as good as the whole name mistyped.
    const wantedCity = wanted.slice(wanted.lastIndexOf('/') + 1);
    const edits = Math.min(editDistance(wanted, whole, MOST_EDITS), editDistance(wantedCity, city, MOST_EDITS) + (wanted.includes('/') ? 1 : 0));
    if (edits <= Math.min(MOST_EDITS, Math.floor(wantedCity.length / 2))) scored.push({ zone, edits });
  }
  scored.sort((a, b) => a.edits - b.edits || (a.zone < b.zone ? -1 : 1));
  // A city as it is spelled needs no guesses beside it.
  const isSpelled = scored[0]?.edits === 0;
  return scored.filter(({ edits }) => !isSpelled || edits === 0).slice(0, limit).map(({ zone }) => zone);
}

function plain(name: string): string {
  return name.trim().toLowerCase().replace(/[\s_-]+/g, '_');
}
