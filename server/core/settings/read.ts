/**
 * `proofsheet.json` read: what it sets, and what is wrong with it. One wrong value costs that value only.
 *
 * The JSON schema (`schema.ts`) is made from the same table and refuses the same things, but for three that a schema cannot
 * know: which time zones there are, a name that stands twice, and a least above its most.
 */
import type { Node } from 'jsonc-parser';
import { nearest, type Span } from '../../../grammar';
import type { Severity } from '../checks/check';
import { settings as page } from '../checks/pages';
import { listed } from '../checks/words';
import { unknownZone } from '../timeline/clock';
import { parseHoursOff } from '../timeline/hours-off';
import type { HoursOff } from '../timeline/model';
import { zoneNamed } from '../timeline/zone-names';
import { crossedLimits, type SetLimit } from './pairs';
import { entriesOf, jsonTree, scalarOf, spanOf, type Entry } from './json';
import { CHOICES, HOURS_OFF, leastValue, LIMITS, NAMES, ROOM_TODAY, SETTABLE, SEVERITIES, TAP, type Settings } from './settings';

/** The code under which every problem of the file goes. */
export const SETTINGS_CODE = page.code;

/** Offsets are those of the text. */
export interface SettingsProblem extends Span {
  readonly severity: Exclude<Severity, 'info'>;
  readonly message: string;
}

export interface ReadSettings {
  readonly settings: Settings;
  /** In the order of the text. */
  readonly problems: readonly SettingsProblem[];
}

export const NO_SETTINGS: Settings = { limits: {}, checks: {} };

/** More would be a file of something else. */
const MOST_PROBLEMS = 100;

type Say = (span: Span, message: string, severity?: SettingsProblem['severity']) => void;

/**
 * What a text sets; never throws. A value that cannot be what it should be is an error, a name that nobody knows a
 * warning: what was meant by either does not count, everything else does.
 */
export function readSettings(text: string): ReadSettings {
  const problems: SettingsProblem[] = [];
  const say: Say = ({ start, end }, message, severity = 'error') => {
    // Of what is left open the parser gives an end past that of the text.
    problems.push({ start: Math.min(start, text.length), end: Math.min(end, text.length), message, severity });
  };
  // A byte-order mark is no character of the settings; the space in its place keeps all offsets.
  const { value, broken } = jsonTree(text.replace(/^\uFEFF/, ' '));
  for (const { message, ...span } of broken) say(span, message);
  const settings = value === undefined ? NO_SETTINGS : settingsIn(value, say);
  problems.sort((a, b) => a.start - b.start || a.end - b.end);
  return { settings, problems: problems.slice(0, MOST_PROBLEMS) };
}

/**
 * Settings from elsewhere, such as an editor's own: what is right counts, the rest is passed over. Names that are not
 * ours are expected there.
 */
export function settingsFrom(value: unknown): Settings {
  try {
    return readSettings(JSON.stringify(value) ?? '').settings;
  } catch {
    return NO_SETTINGS; // a value that no JSON can be made of
  }
}

function settingsIn(root: Node, say: Say): Settings {
  const entries = counted(root, say);
  if (entries === undefined) {
    say(spanOf(root), 'Settings stand in braces, each with its name: { "measures": "metric" }.');
    return NO_SETTINGS;
  }
  let settings = NO_SETTINGS;
  for (const { name, nameSpan, value } of entries) {
    if (value === undefined) continue;
    switch (name) {
      case 'measures':
        settings = { ...settings, ...optional(name, choiceIn(name, value, say)) };
        break;
      case 'allergens':
        settings = { ...settings, ...optional(name, choiceIn(name, value, say)) };
        break;
      case 'labelRounding':
        settings = { ...settings, ...optional(name, choiceIn(name, value, say)) };
        break;
      case 'hints':
        settings = { ...settings, ...optional(name, choiceIn(name, value, say)) };
        break;
      case 'zone':
        settings = { ...settings, ...optional(name, zoneIn(value, say)) };
        break;
      case 'tapCelsius':
        settings = { ...settings, ...optional(name, celsiusIn(name, TAP, '12 for water of 12 C', value, say)) };
        break;
      case 'asleep':
        settings = { ...settings, ...optional(name, hoursOffIn(name, value, say)) };
        break;
      case 'away':
        settings = { ...settings, ...optional(name, hoursOffIn(name, value, say)) };
        break;
      case 'roomTodayCelsius':
        settings = { ...settings, ...optional(name, celsiusIn(name, ROOM_TODAY, '26 for a warm day', value, say)) };
        break;
      case 'limits':
        settings = { ...settings, limits: limitsIn(value, say) };
        break;
      case 'checks':
        settings = { ...settings, checks: checksIn(value, say) };
        break;
      case '$schema':
        if (typeof scalarOf(value) !== 'string') say(spanOf(value), '"$schema" is an address in double quotes, and no setting. It may be left out.');
        break;
      default:
        say(nameSpan, `There is no setting ${quoted(name)}. ${hint(name, NAMES, `There are ${listed(NAMES)}.`)}`, 'warning');
    }
  }
  return settings;
}

/** The entries that count; undefined for a value that has none. */
function counted(node: Node, say: Say): readonly Entry[] | undefined {
  const entries = entriesOf(node);
  for (const { name, nameSpan, outdone } of entries ?? []) {
    if (outdone) say(nameSpan, `${quoted(name)} stands twice here. Only the last one counts.`, 'warning');
  }
  return entries?.filter(({ outdone }) => !outdone);
}

function choiceIn<K extends keyof typeof CHOICES>(name: K, node: Node, say: Say): keyof (typeof CHOICES)[K]['words'] | undefined {
  return wordIn(name, CHOICES[name].words, node, say);
}

/** The one of the words that the value is. */
function wordIn<W extends object>(name: string, words: W, node: Node, say: Say): keyof W | undefined {
  const value = scalarOf(node);
  if (typeof value === 'string' && Object.hasOwn(words, value)) return value as keyof W;
  const known = Object.keys(words);
  const near = typeof value === 'string' ? meant(value, known) : undefined;
  say(spanOf(node), `"${name}" is ${listed(known.map(quoted), 'or')}.${near === undefined ? '' : ` Did you mean ${quoted(near)}?`}`);
  return undefined;
}

function zoneIn(node: Node, say: Say): string | undefined {
  const value = scalarOf(node);
  if (typeof value !== 'string' || value.trim() === '') {
    say(spanOf(node), '"zone" is the name of a time zone in double quotes, such as "Europe/Lisbon".');
    return undefined;
  }
  const zone = zoneNamed(value);
  if (zone === undefined) say(spanOf(node), unknownZone(value));
  return zone;
}

function celsiusIn(
  name: string, { least, most }: { readonly least: number; readonly most: number }, example: string, node: Node, say: Say,
): number | undefined {
  const value = scalarOf(node);
  if (typeof value === 'number' && value >= least && value <= most) return value;
  say(spanOf(node), `"${name}" is a number from ${String(least)} to ${String(most)}, in C, without quotes: ${example}.`);
  return undefined;
}

/** One stretch of hours or a list of them; those that can be read count. Undefined when there is none to read. */
function hoursOffIn(name: HoursOff['kind'], node: Node, say: Say): readonly HoursOff[] | undefined {
  const items = node.type === 'array' ? node.children ?? [] : [node];
  const found = items.flatMap((item): readonly HoursOff[] => {
    const value = scalarOf(item);
    const read = typeof value === 'string' ? parseHoursOff(value, name) : undefined;
    if (read?.kind === 'hours') return [read.hours];
    say(spanOf(item), read?.message ?? `"${name}" is hours in double quotes, "${HOURS_OFF[name].example}", or a list of them in brackets.`);
    return [];
  });
  return found.length > 0 || items.length === 0 ? found : undefined;
}

function limitsIn(node: Node, say: Say): Settings['limits'] {
  const codes = counted(node, say);
  if (codes === undefined) {
    say(spanOf(node), '"limits" holds checks, each with its limits: { "salt-high": { "mostPct": 2.8 } }.');
    return {};
  }
  const found: Record<string, Readonly<Record<string, number>>> = {};
  const set: SetLimit[] = [];
  for (const { name: code, nameSpan, value } of codes) {
    const limits = Object.hasOwn(LIMITS, code) ? LIMITS[code] : undefined;
    if (limits === undefined) {
      const isCheck = SETTABLE.some((check) => check.code === code);
      say(nameSpan, isCheck
        ? `The check "${code}" goes by no limit. How much it matters is set under "checks".`
        : `No check with limits is called ${quoted(code)}. ${hint(code, Object.keys(LIMITS), CATALOGUE)}`, 'warning');
    } else if (value !== undefined) {
      const values = valuesIn(code, limits, value, say);
      if (values.length > 0) found[code] = Object.fromEntries(values.map((each) => [each.name, each.value]));
      set.push(...values);
    }
  }
  for (const { span, message } of crossedLimits(set)) say(span, message, 'warning');
  return found;
}

function valuesIn(code: string, limits: NonNullable<(typeof LIMITS)[string]>, node: Node, say: Say): readonly SetLimit[] {
  const known = Object.keys(limits);
  const entries = counted(node, say);
  if (entries === undefined) {
    const [first = ''] = known;
    say(spanOf(node), `"${code}" holds limits by name: { "${first}": ${String(limits[first]?.value)} }.`);
    return [];
  }
  const found: SetLimit[] = [];
  for (const { name, nameSpan, value: at } of entries) {
    const limit = Object.hasOwn(limits, name) ? limits[name] : undefined;
    if (limit === undefined) {
      say(nameSpan, `The check "${code}" has no limit ${quoted(name)}. ${hint(name, known, `It has ${listed(known)}.`)}`, 'warning');
    } else if (at !== undefined) {
      const value = scalarOf(at);
      const least = leastValue(limit);
      if (typeof value === 'number' && Number.isFinite(value) && value >= least) found.push({ code, name, value, span: spanOf(at) });
      else say(spanOf(at), `"${name}" is a number from ${String(least)} up, in ${limit.unit}, without quotes: ${String(limit.value)} unless it is set.`);
    }
  }
  return found;
}

function checksIn(node: Node, say: Say): Settings['checks'] {
  const entries = counted(node, say);
  if (entries === undefined) {
    say(spanOf(node), '"checks" holds how much checks matter, by code: { "vague-amount": "off" }.');
    return {};
  }
  const found: Record<string, keyof typeof SEVERITIES> = {};
  for (const { name: code, nameSpan, value } of entries) {
    const check = SETTABLE.find((each) => each.code === code);
    if (check === undefined) {
      const codes = SETTABLE.map((each) => each.code);
      say(nameSpan, `No check is called ${quoted(code)}. ${hint(code, codes, CATALOGUE)}`, 'warning');
    } else if (value !== undefined) {
      if (!check.canBeOff && value.value === 'off') {
        say(spanOf(value), `"${code}" cannot be off: what cannot be read counts for nothing, and somebody must hear of it. "info" is the least.`);
        continue;
      }
      const word = wordIn(code, check.canBeOff ? SEVERITIES : AUDIBLE, value, say);
      if (word !== undefined) found[code] = word;
    }
  }
  return found;
}

const CATALOGUE = 'A finding shows its code, and the page of checks has them all.';

/** What a check can be set to that is never off. */
const { off: _off, ...AUDIBLE } = SEVERITIES;

function optional<K extends string, V>(key: K, value: V | undefined): { readonly [P in K]?: V } {
  return value === undefined ? {} : { [key]: value } as { readonly [P in K]?: V };
}

/** `Did you mean "limits"?`, failing that what else can be said. */
function hint(word: string, known: readonly string[], otherwise: string): string {
  const near = meant(word, known);
  return near === undefined ? otherwise : `Did you mean ${quoted(near)}?`;
}

function meant(word: string, known: readonly string[]): string | undefined {
  return known.find((each) => each.toLowerCase() === word.toLowerCase()) ?? nearest(word, known);
}

/** A name in a sentence. No sentence is made for one that fills the screen. */
function quoted(word: string): string {
  return word.length > 60 ? `"${word.slice(0, 60)}…"` : `"${word}"`;
}
