/** Dates of the preview's "ready by" field: wall clock times of a zone and the instants they stand for. */

/** `2026-03-14T08:00`, as a date field of a page has it. */
export type LocalTime = string;

const SATURDAY = 6;
const DAY_MS = 86_400_000;

/** The zone that the setting names, or the computer's own when it names none that is known. */
export function zoneOf(setting: string): string {
  const wanted = setting.trim();
  try {
    if (wanted !== '') return new Intl.DateTimeFormat('en', { timeZone: wanted }).resolvedOptions().timeZone;
  } catch {
    // Not a zone: a preview with the computer's own is of more use than none.
  }
  return new Intl.DateTimeFormat('en').resolvedOptions().timeZone;
}

/** The wall clock of a zone at an instant. */
export function localTime(epochMs: number, zone: string): LocalTime {
  const parts = new Intl.DateTimeFormat('en', {
    timeZone: zone, hourCycle: 'h23', year: 'numeric', month: '2-digit', day: '2-digit', hour: '2-digit', minute: '2-digit',
  }).formatToParts(epochMs);
  const part = (type: Intl.DateTimeFormatPartTypes): string => parts.find((candidate) => candidate.type === type)?.value ?? '00';
  return `${part('year').padStart(4, '0')}-${part('month')}-${part('day')}T${part('hour')}:${part('minute')}`;
}

/**
 * The instant of a wall clock time in a zone; undefined if the text is no time. A time that the clocks skip is taken as if
 * they had not gone forward yet.
 */
export function instantOf(local: LocalTime, zone: string): number | undefined {
  const asUtc = utcOf(local);
  if (Number.isNaN(asUtc)) return undefined;
  // What the zone's clock shows at a guess tells how far off the guess is; a second look is needed next to a change of clocks.
  let epochMs = asUtc;
  for (let look = 0; look < 2; look += 1) epochMs += asUtc - utcOf(localTime(epochMs, zone));
  return epochMs;
}

/** Eight in the morning of the Saturday after the day of `nowMs`, market day: where a timeline ends unless somebody says otherwise. */
export function nextSaturday(nowMs: number, zone: string): LocalTime {
  const today = utcOf(`${localTime(nowMs, zone).slice(0, 10)}T00:00`);
  const ahead = (SATURDAY - new Date(today).getUTCDay() + 7) % 7 || 7;
  return `${new Date(today + ahead * DAY_MS).toISOString().slice(0, 10)}T08:00`;
}

function utcOf(local: LocalTime): number {
  return /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/.test(local) ? Date.parse(`${local}:00Z`) : Number.NaN;
}
