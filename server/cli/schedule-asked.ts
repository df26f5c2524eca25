/** What a command line asks of a schedule: the moment it hangs on, the hours off, and what is not as the formula has it. */
import type { Settings } from '../core/settings/settings';
import { formatInstant, parseLocalInstant, unknownZone } from '../core/timeline/clock';
import { parseHoursOff } from '../core/timeline/hours-off';
import type { Conditions, HoursOff, TimelineRequest } from '../core/timeline/model';
import { zoneNamed } from '../core/timeline/zone-names';
import { celsius } from '../core/units/temperature';
import { decimals } from '../output/numbers';
import { didYouMean } from './nearest';
import type { Options, OptionSpecs } from './options';
import { Refusal } from './refusal';
import type { Surroundings } from './verb';

export const ASKED_OPTIONS: OptionSpecs = {
  ready: { value: 'TIME', what: 'ready by then: "2026-03-14 08:00"' },
  start: { value: 'TIME', what: 'begun then' },
  zone: { value: 'ZONE', what: 'such as Europe/Lisbon; if left out that of proofsheet.json, else of this machine' },
  asleep: { value: 'HOURS', what: 'no hands then: "22:30 to 05:30"; may be given several times; none for none' },
  away: { value: 'HOURS', what: 'the same while nobody is there: "09:00 to 17:00 on Mon to Fri"' },
  room: { value: 'DEGREES', what: 'the room today, such as 21 or 70F: the dough rises by it' },
  dough: { value: 'DEGREES', what: 'the dough as measured after mixing, such as 26' },
  pace: { value: 'own|NUMBER', what: 'own: as fast as your records say; 1.1: a tenth faster than written' },
};

/** The moment that a schedule hangs on, as typed. */
interface AskedAnchor {
  readonly kind: TimelineRequest['anchor']['kind'];
  readonly text: string;
}

/** How fast the dough rises: a number of times the formula's own pace, or what the records say. */
export type AskedPace = number | 'own';

export interface ScheduleAsked {
  readonly anchor: AskedAnchor | undefined;
  /** Spelled as the database has it; undefined when none is asked for. */
  readonly zone: string | undefined;
  readonly asleep: readonly HoursOff[] | undefined;
  readonly away: readonly HoursOff[] | undefined;
  readonly conditions: Conditions;
  readonly pace: AskedPace | undefined;
}

/** Degrees that a room, and a dough out of the mixer, can have, C. Beyond is a slip of the keys; no source. */
const LIMITS = { room: { least: 0, most: 45 }, dough: { least: 0, most: 45 } } as const;
/** Beyond these a pace is a slip of the keys; no source. */
const PACE = { least: 0.2, most: 5 } as const;

/**
 * Reads the options before any file is.
 * @throws Refusal for a value that cannot be read, with the form that can
 */
export function scheduleAskedFor(options: Options, systemZone: string): ScheduleAsked {
  const [ready, start] = [options.get('ready'), options.get('start')];
  if (ready !== undefined && start !== undefined) throw new Refusal('--ready and --start cannot both be given: a schedule hangs on one of them.');
  const text = ready ?? start;
  const wanted = options.get('zone');
  const zone = wanted === undefined ? undefined : zoneOf(wanted);
  if (text !== undefined) askedInstant(text, zone ?? systemZone);
  const [roomCelsius, doughCelsius] = [degreesOf(options, 'room'), degreesOf(options, 'dough')];
  return {
    anchor: text === undefined ? undefined : { kind: ready === undefined ? 'start' : 'ready', text },
    zone,
    asleep: hoursOf(options, 'asleep'),
    away: hoursOf(options, 'away'),
    conditions: { ...(roomCelsius !== undefined && { roomCelsius }), ...(doughCelsius !== undefined && { doughCelsius }) },
    pace: paceOf(options.get('pace')),
  };
}

/** What counts for the formulas of one workspace. What the command line says wins over its settings. */
export interface AskedHere {
  readonly zone: string;
  readonly anchor: TimelineRequest['anchor'];
  readonly hoursOff: readonly HoursOff[];
  readonly conditions: Conditions;
}

/**
 * Brings what is asked together with the settings of a workspace; `say` gets what there is to know of the time: that it comes
 * twice, or has passed.
 * @throws Refusal for a time that does not exist in the zone of the settings
 */
export function askedHere(
  { anchor, ...asked }: ScheduleAsked & { readonly anchor: AskedAnchor }, settings: Settings, { systemZone, nowMs }: Pick<Surroundings, 'systemZone' | 'nowMs'>,
  say: (note: string) => void,
): AskedHere {
  const { epochMs, zone, note } = askedInstant(anchor.text, asked.zone ?? settings.zone ?? systemZone);
  if (note !== undefined) say(note);
  if (epochMs < nowMs) say(`${momentText(epochMs, zone)} has passed. The times are given all the same.`);
  const room = asked.conditions.roomCelsius ?? settings.roomTodayCelsius;
  return {
    zone,
    anchor: { kind: anchor.kind, epochMs },
    hoursOff: [...(asked.asleep ?? settings.asleep ?? []), ...(asked.away ?? settings.away ?? [])],
    conditions: { ...asked.conditions, ...(room !== undefined && { roomCelsius: room }) },
  };
}

/** `Sat 2026-03-14 08:00` */
export function momentText(epochMs: number, zone: string): string {
  const { weekday, date, time } = formatInstant(epochMs, zone);
  return `${weekday} ${date} ${time}`;
}

function zoneOf(wanted: string): string {
  const zone = zoneNamed(wanted);
  if (zone === undefined) throw new Refusal(unknownZone(wanted));
  return zone;
}

/**
 * A time as typed, on the clock of a zone.
 * @throws Refusal for one that cannot be read, or that the clocks skip
 */
export function askedInstant(text: string, zone: string): Extract<ReturnType<typeof parseLocalInstant>, { readonly kind: 'instant' }> {
  const instant = parseLocalInstant(text, zoneOf(zone));
  if (instant.kind === 'bad') throw new Refusal(instant.message);
  return instant;
}

/** `none` is for a bakery whose settings have hours off that do not count this once. */
function hoursOf(options: Options, kind: HoursOff['kind']): readonly HoursOff[] | undefined {
  const values = options.all(kind);
  if (values.length === 0) return undefined;
  return values.filter((value) => value !== 'none').map((value) => {
    const parsed = parseHoursOff(value, kind);
    if (parsed.kind === 'bad') throw new Refusal(`--${kind}: ${parsed.message}`);
    return parsed.hours;
  });
}

function degreesOf(options: Options, name: 'room' | 'dough'): number | undefined {
  const value = options.get(name);
  if (value === undefined) return undefined;
  const [, number = '', unit = 'C'] = /^([+-]?\d+(?:\.\d+)?)\s*°?\s*([CF])?$/i.exec(value.trim()) ?? [];
  if (number === '') {
    const meant = /^[+-]?\d+,\d+/.test(value.trim()) ? ` Write a point, not a comma: --${name} ${value.trim().replace(',', '.')}.` : '';
    throw new Refusal(`--${name} takes degrees, such as ${name === 'room' ? '21, "21 C" or "70 F"' : '26, "26 C" or "79 F"'}, not "${value}".${meant}`);
  }
  const degrees = unit.toUpperCase() === 'F' ? celsius(Number(number)) : Number(number);
  const { least, most } = LIMITS[name];
  if (degrees >= least && degrees <= most) return degrees;
  // 70 is a room in Fahrenheit.
  const inFahrenheit = unit.toUpperCase() === 'C' && celsius(degrees) >= least && celsius(degrees) <= most ? ` Is it Fahrenheit? Then write "${number} F".` : '';
  throw new Refusal(`--${name} takes ${String(least)} to ${String(most)} C, and this is ${decimals(degrees, 1)} C.${inFahrenheit}`);
}

function paceOf(value: string | undefined): AskedPace | undefined {
  if (value === undefined || value === 'own') return value;
  const pace = /^(?:\d+(?:\.\d+)?|\.\d+)$/.test(value.trim()) ? Number(value) : Number.NaN;
  if (pace >= PACE.least && pace <= PACE.most) return pace;
  throw new Refusal(
    `--pace takes "own", or a number from ${String(PACE.least)} to ${String(PACE.most)}, such as 1.1 for a dough that rises a tenth faster than written, not "${value}".`
    + didYouMean(value, ['own']),
  );
}
