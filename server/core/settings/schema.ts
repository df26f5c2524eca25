/**
 * The JSON schema of `proofsheet.json`, and the same for the settings of the editor. Made from the table of settings, the
 * checks and their thresholds, so that completion in the editor knows what the reader knows. JSON Schema draft-07, the one
 * that editors complete by; `enumDescriptions` is the editors' own addition to it.
 */
import type { Threshold } from '../checks/limits';
import { HOURS_OFF_PATTERN } from '../timeline/hours-off';
import { CHOICES, HOURS_OFF, leastValue, LIMITS, ROOM_TODAY, SETTABLE, SEVERITIES, SETTINGS_FILE, TAP, WHAT, type Choice } from './settings';

/** Plain data, as JSON holds it. */
export type Json = string | number | boolean | null | readonly Json[] | { readonly [name: string]: Json };

/** The schema of the file. */
export function settingsSchema(): { readonly [name: string]: Json } {
  return {
    $schema: 'http://json-schema.org/draft-07/schema#',
    $comment: 'Made from the checks and their limits: UPDATE=1 npx vitest run -c .config/vitest.config.mts tests/core/settings',
    title: 'Settings of a workspace of formulas',
    description:
      `${SETTINGS_FILE} holds for every .bake file beside it and in the folders under it. It wins over the settings of the `
      + 'editor, so that the editor, the command line and a check of every change say the same.',
    type: 'object',
    additionalProperties: false,
    properties: {
      $schema: { type: 'string', description: 'Where this schema is, for editors that do not know it by the name of the file.' },
      measures: choice(CHOICES.measures),
      zone: { type: 'string', minLength: 1, pattern: '\\S', description: WHAT.zone, examples: ['Europe/Lisbon'] },
      tapCelsius: { type: 'number', minimum: TAP.least, maximum: TAP.most, description: TAP.what, examples: [12] },
      asleep: hoursOffSchema(HOURS_OFF.asleep),
      away: hoursOffSchema(HOURS_OFF.away),
      roomTodayCelsius: { type: 'number', minimum: ROOM_TODAY.least, maximum: ROOM_TODAY.most, description: ROOM_TODAY.what, examples: [26] },
      limits: limitsSchema(),
      checks: checksSchema(),
      allergens: choice(CHOICES.allergens),
      labelRounding: choice(CHOICES.labelRounding),
      hints: choice(CHOICES.hints),
    },
    definitions: { severity: severitySchema(true), severityNotOff: severitySchema(false) },
    examples: [{ measures: 'metric', zone: 'Europe/Lisbon', limits: { 'salt-high': { mostPct: 2.2 } }, checks: { 'vague-amount': 'off' } }],
  };
}

/** One stretch of hours, or a list of them. */
function hoursOffSchema({ what, example }: HoursOffWords): Json {
  return { anyOf: [HOURS, { type: 'array', items: HOURS }], description: what, examples: [example, [example]] };
}

/** `limits` in the file. */
function limitsSchema(): { readonly [name: string]: Json } {
  return {
    type: 'object',
    additionalProperties: false,
    description: `${WHAT.limits} Example: { "salt-high": { "mostPct": 2.2 } }`,
    properties: record(Object.entries(LIMITS), ([code, limits]) => [code, {
      type: 'object',
      additionalProperties: false,
      description: titleOf(code),
      properties: record(Object.entries(limits), ([name, limit]) => [name, {
        type: 'number', minimum: leastValue(limit), default: limit.value, description: sentenceOf(name, limit),
      }]),
    }]),
  };
}

/** `checks` in the file. */
function checksSchema(): { readonly [name: string]: Json } {
  return {
    type: 'object',
    additionalProperties: false,
    description: `${WHAT.checks} Example: { "vague-amount": "off" }`,
    properties: record(SETTABLE, ({ code, title, severity, canBeOff }) => [code, {
      allOf: [{ $ref: `#/definitions/${canBeOff ? 'severity' : 'severityNotOff'}` }], default: severity, description: `${title}.`,
    }]),
  };
}

function severitySchema(canBeOff: boolean): Json {
  const words = Object.entries(SEVERITIES).filter(([word]) => canBeOff || word !== 'off');
  return { type: 'string', enum: words.map(([word]) => word), enumDescriptions: words.map(([, what]) => what) };
}

/** The settings of the editor that are made from the checks, as its manifest holds them: shorter, since the file is the place for them. */
export function editorSettings() {
  const { description: _, ...limits } = limitsSchema();
  const settings = {
    'proofsheet.limits': {
      ...limits, default: {},
      markdownDescription: `${WHAT.limits} ${WINS} Example: \`{ "salt-high": { "mostPct": 2.2 } }\``,
    },
    'proofsheet.checks': {
      type: 'object', default: {},
      markdownDescription: `${WHAT.checks} ${WINS} Example: \`{ "vague-amount": "off" }\``,
      propertyNames: { enum: SETTABLE.map(({ code }) => code) },
      additionalProperties: severitySchema(true),
    },
    // Not a number by default: the answers say which tap was measured and which was guessed.
    'proofsheet.tapCelsius': { type: ['number', 'null'], minimum: TAP.least, maximum: TAP.most, default: null, markdownDescription: `${TAP.what} ${WINS}` },
    'proofsheet.asleep': hoursOffInEditor(HOURS_OFF.asleep),
    'proofsheet.away': hoursOffInEditor(HOURS_OFF.away),
    'proofsheet.roomTodayCelsius': {
      type: ['number', 'null'], minimum: ROOM_TODAY.least, maximum: ROOM_TODAY.most, default: null, markdownDescription: `${ROOM_TODAY.what} ${WINS}`,
    },
    'proofsheet.allergens': choice(CHOICES.allergens),
    'proofsheet.labelRounding': choice(CHOICES.labelRounding),
    'proofsheet.hints': choice(CHOICES.hints),
  } satisfies Readonly<Record<string, { readonly [name: string]: Json }>>;
  // Each folder of a workspace may have its own.
  return record(Object.entries(settings), ([name, setting]) => [name, { ...setting, scope: 'resource', order: ORDER.indexOf(name) + 1 }]);
}

/** As the editor lists its settings, those of every day first. What is not made here stands in the manifest with its number. */
const ORDER: readonly string[] = [
  'hints', 'preview.followCursor', 'zone', 'asleep', 'away', 'roomTodayCelsius', 'tapCelsius', 'measures', 'allergens', 'labelRounding',
  'checks', 'limits', 'mostBackgroundFiles', 'trace.server',
].map((name) => `proofsheet.${name}`);

type HoursOffWords = (typeof HOURS_OFF)[keyof typeof HOURS_OFF];

const HOURS: Json = {
  type: 'string', pattern: HOURS_OFF_PATTERN,
  patternErrorMessage: `Write hours like this: ${HOURS_OFF.asleep.example}, or ${HOURS_OFF.away.example}.`,
};

/** A list, which the editor has a form for. */
function hoursOffInEditor({ what, example }: HoursOffWords): { readonly [name: string]: Json } {
  return { type: 'array', items: HOURS, default: [], markdownDescription: `${what} Example: \`${example}\`. ${WINS}` };
}

const WINS = `What a \`${SETTINGS_FILE}\` says wins over it.`;

function choice({ what, words, usual }: Choice): { readonly [name: string]: Json } {
  return { type: 'string', enum: Object.keys(words), enumDescriptions: Object.values(words), default: usual, description: what };
}

function titleOf(code: string): string {
  const check = SETTABLE.find((each) => each.code === code);
  return check === undefined ? code : `${check.title}.`;
}

/** `The most salt lines, in % of all flour. Otherwise it is 2.5, and by style: flatbread 3.2.` */
function sentenceOf(name: string, { what, unit, value, byStyle }: Threshold): string {
  const styles = Object.entries(byStyle ?? {}).map(([style, own]) => `${style} ${String(own)}`);
  const otherwise = styles.length === 0 ? '' : `, and by style: ${styles.join(', ')}`;
  return `The ${name.startsWith('least') ? 'least' : 'most'} that is not found fault with: ${what}, in ${unit}. Otherwise it is ${String(value)}${otherwise}.`;
}

function record<T>(items: readonly T[], entry: (item: T) => readonly [string, Json]): { readonly [name: string]: Json } {
  return Object.fromEntries(items.map(entry));
}
