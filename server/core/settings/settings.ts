/**
 * What a workspace can set, in one table: the reader of `proofsheet.json`, its JSON schema and the settings page of the
 * editor are all made from it.
 */
import { unreadable } from '../checks/rules/unreadable';
import { checks } from '../checks';
import { THRESHOLDS, type LimitOverrides, type Threshold } from '../checks/limits';
import type { SeverityOverrides } from '../checks/severity';
import { TAP_CELSIUS } from '../temperature';
import type { HoursOff } from '../timeline/model';
import type { MeasureSystem } from '../units/volume';

/** The name of the file. The nearest one, in the folder of a `.bake` file or above it, counts. */
export const SETTINGS_FILE = 'proofsheet.json';

export interface Settings {
  readonly measures?: MeasureSystem;
  /** IANA name, in its own spelling. */
  readonly zone?: string;
  /** What the tap gives, C. */
  readonly tapCelsius?: number;
  /** When everybody sleeps, and when nobody is there for another reason. */
  readonly asleep?: readonly HoursOff[];
  readonly away?: readonly HoursOff[];
  /** How warm the room is today, C: dough and levain rise by it, whatever room a formula was written in. */
  readonly roomTodayCelsius?: number;
  /** Thresholds by check code and name; they count for every style. */
  readonly limits: LimitOverrides;
  readonly checks: SeverityOverrides;
  readonly allergens?: 'eu' | 'us' | 'both';
  readonly labelRounding?: 'none' | 'eu' | 'us';
  /** What the editor shows between the words of a line. */
  readonly hints?: 'off' | 'quiet' | 'all';
}

/** Settings that are one of a few words: each word with what it means, and the word that counts when nothing is set. */
export const CHOICES = {
  measures: {
    what: 'Whose household measures a cup, tbsp, tsp or fl oz is.',
    words: { us: 'A US customary cup: 236.6 ml.', metric: 'A metric cup: 250 ml.', imperial: 'An imperial cup: 284.1 ml.' },
    usual: 'us',
  },
  allergens: {
    what: 'Which list allergens are named by.',
    words: {
      eu: 'The 14 of the European Union: Regulation (EU) 1169/2011, Annex II.',
      us: 'The 9 major allergens of United States law, sesame among them.',
      both: 'Both lists, each by its name.',
    },
    usual: 'both',
  },
  labelRounding: {
    what: 'How the numbers of a nutrition table are rounded.',
    words: {
      none: 'As they are computed, to a decimal.',
      eu: 'As the European Commission advises for nutrition declarations (guidance of December 2012).',
      us: 'As 21 CFR 101.9(c) wants it on a label.',
    },
    usual: 'none',
  },
  hints: {
    what: 'What the editor shows in small letters between the words of a line. It is no part of the file.',
    words: {
      off: 'Nothing.',
      quiet: 'The grams that a share comes to.',
      all: 'Grams of every amount, its share of the flour, temperatures in the other scale, and when each step begins.',
    },
    usual: 'quiet',
  },
} as const satisfies Readonly<Record<string, Choice>>;

export interface Choice {
  readonly what: string;
  readonly words: Readonly<Record<string, string>>;
  readonly usual: string;
}

/** The water of a bakery's own tap: it decides how much ice a dough takes in summer. */
export const TAP = {
  what:
    `How warm the water from the tap is, in C. Ice goes in where a dough wants colder water. Otherwise it is ${String(TAP_CELSIUS.value)} C, `
    + `a guess that the answer names: taps give ${String(TAP_CELSIUS.low)} to ${String(TAP_CELSIUS.high)} C by place and season, so measure yours.`,
  least: 0,
  most: 40,
} as const;

/** The room of the day. */
export const ROOM_TODAY = {
  what:
    'How warm your room is today, in C. Times of bulk, proof and ripening that stand in the room get longer or shorter by it. Otherwise '
    + 'the room is as warm as each formula says.',
  least: 0,
  most: 45,
} as const;

/** Hours when nothing that needs a hand is placed. */
export const HOURS_OFF = {
  asleep: {
    what: 'When you sleep, on the clock of the time zone. No step that needs a hand is placed there.',
    example: '22:30 to 05:30',
  },
  away: {
    what: 'When nobody is at the bakery, and on which days. No step that needs a hand is placed there.',
    example: '09:00 to 17:00 on Mon to Fri',
  },
} as const;

/** What a check can be set to. */
export const SEVERITIES = {
  off: 'Nothing is said.',
  info: 'Worth knowing, nothing wrong.',
  warning: 'It can be baked, and probably not as meant.',
  error: 'It must be settled. `proofsheet check` fails.',
} as const satisfies Readonly<Record<NonNullable<SeverityOverrides[string]>, string>>;

export const WHAT = {
  zone: 'Time zone of clock times, by its IANA name, such as Europe/Lisbon. Otherwise it is the zone of the computer.',
  limits: 'Limits of your own for checks, by the code of the check and the name of the limit. They count for every style.',
  checks: 'How much a check matters here, by its code. What cannot be read is never off.',
} as const;

/** Every setting, in the order in which they are shown. */
export const NAMES = [
  'measures', 'zone', 'tapCelsius', 'asleep', 'away', 'roomTodayCelsius', 'limits', 'checks', 'allergens', 'labelRounding', 'hints',
] as const satisfies readonly (keyof Settings)[];

export const LIMITS: Readonly<Record<string, Readonly<Record<string, Threshold>>>> = THRESHOLDS;

/** Below this no limit makes sense: nothing is colder than absolute zero, and there is less than none of nothing. */
export function leastValue({ unit }: Threshold): number {
  return unit === 'C' ? -273 : 0;
}

/** All checks that can be set, with whether `off` is one of the words. */
export const SETTABLE: readonly { readonly code: string; readonly title: string; readonly severity: string; readonly canBeOff: boolean }[] = checks.map(
  ({ code, title, severity }) => ({ code, title, severity, canBeOff: !unreadable.some((check) => check.code === code) }),
);

/** `over` laid over `base`: what it says wins, limit by limit and check by check; what it leaves unsaid stays. */
export function layered(base: Settings, over: Settings): Settings {
  const limits: Record<string, Readonly<Record<string, number>>> = { ...base.limits };
  for (const [code, values] of Object.entries(over.limits)) limits[code] = { ...limits[code], ...values };
  return { ...base, ...over, limits, checks: { ...base.checks, ...over.checks } };
}
