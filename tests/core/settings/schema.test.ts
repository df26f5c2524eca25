/** The JSON schema that editors complete and check `proofsheet.json` by: it is up to date, and a general-purpose validator agrees with the reader. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import Ajv from 'ajv';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checks } from '../../../server/core/checks';
import { THRESHOLDS } from '../../../server/core/checks/limits';
import { readSettings } from '../../../server/core/settings/read';
import { settingsSchema } from '../../../server/core/settings/schema';
import { CHOICES, NAMES } from '../../../server/core/settings/settings';
import { anySettings } from './arbitrary';

const FILE = path.join(import.meta.dirname, '../../../syntaxes/proofsheet.schema.json');
const schema = settingsSchema();
const validate = new Ajv({ allErrors: true }).addVocabulary(['enumDescriptions', 'patternErrorMessage']).compile(schema);

test('the schema that ships is the one that the checks give', () => {
  const text = `${JSON.stringify(schema, undefined, 2)}\n`;
  if (process.env['UPDATE'] === '1') writeFileSync(FILE, text);
  // Git may have given the file Windows line ends.
  expect(existsSync(FILE) && readFileSync(FILE, 'utf8').replaceAll('\r\n', '\n'), 'Out of date: run these tests with UPDATE=1').toBe(text);
});

test('it knows every setting, every check and every limit, and says what each is for', () => {
  interface Node { readonly description?: string; readonly properties?: Readonly<Record<string, Node>>; readonly enum?: readonly string[]; readonly enumDescriptions?: readonly string[] }
  const { properties = {} } = schema as Node;
  expect(Object.keys(properties)).toEqual(['$schema', ...NAMES]);
  expect(Object.keys(properties['checks']?.properties ?? {})).toEqual(checks.map(({ code }) => code));
  expect(Object.entries(properties['limits']?.properties ?? {}).map(([code, node]) => [code, Object.keys(node.properties ?? {})]))
    .toEqual(Object.entries(THRESHOLDS).map(([code, limits]) => [code, Object.keys(limits)]));
  const waiting: [string, Node][] = Object.entries(properties);
  for (const [name, node] of waiting) {
    expect(node.description, name).toMatch(/^[A-Z`].*[.}]$/);
    if (node.enum) expect(node.enumDescriptions, name).toHaveLength(node.enum.length);
    waiting.push(...Object.entries(node.properties ?? {}));
  }
  expect(waiting.length).toBeGreaterThan(50);
});

describe('a validator and the reader agree', () => {
  const agree = (value: unknown): boolean => {
    const isValid = validate(value);
    // A schema cannot compare two values.
    const problems = readSettings(JSON.stringify(value)).problems.filter(({ message }) => !message.includes('nothing is right for both'));
    expect(problems.length === 0, JSON.stringify(validate.errors)).toBe(isValid);
    return isValid;
  };

  test('that the examples of the schema are right', () => {
    const { examples } = schema as { examples: readonly unknown[] };
    expect(examples.map(agree)).toEqual(examples.map(() => true));
  });

  test('that anything made from the table is right', () => {
    fc.assert(fc.property(anySettings, (settings) => { expect(agree(settings)).toBe(true); }));
  });

  test.each<readonly [string, unknown]>([
    ['no settings', []],
    ['a name nobody knows', { limts: {} }],
    ['a word that is none of them', { measures: 'cups' }],
    ['a word in capitals', { allergens: 'EU' }],
    ['no word', { labelRounding: true }],
    ['no zone', { zone: '' }],
    ['blanks for a zone', { zone: '  ' }],
    ['a number for a zone', { zone: 1 }],
    ['a tap that boils', { tapCelsius: 54 }],
    ['words for hours', { asleep: 'at night' }],
    ['an hour too many', { asleep: ['22:30 to 05:30', '22:00 to 25:00'] }],
    ['a number for hours', { away: 9 }],
    ['a list in a list', { away: [['09:00 to 17:00']] }],
    ['a room like an oven', { roomTodayCelsius: 80 }],
    ['a check that is none', { checks: { 'salt-hihg': 'off' } }],
    ['a severity that is none', { checks: { 'salt-high': 'fatal' } }],
    ['what cannot be off', { checks: { 'not-understood': 'off' } }],
    ['checks in a list', { checks: ['salt-high'] }],
    ['a limit that is no number', { limits: { 'salt-high': { mostPct: '2' } } }],
    ['a limit below nothing', { limits: { 'salt-high': { mostPct: -0.1 } } }],
    ['a temperature below absolute zero', { limits: { 'oven-temperature-odd': { leastCelsius: -300 } } }],
    ['a limit that the check has not', { limits: { 'salt-high': { leastPct: 2 } } }],
    ['limits of a check that has none', { limits: { 'no-size': {} } }],
    ['a number in place of limits', { limits: { 'salt-high': 2 } }],
    ['a schema that is no address', { $schema: 1 }],
  ])('that %s is wrong', (_what, value) => {
    expect(agree(value)).toBe(false);
  });

  test('on anything else that looks like settings', () => {
    const odd = fc.oneof(fc.constantFrom<unknown>('off', 'error', 'us', 'both', 'eu', '', 0, -1, 2.5, null, true), fc.dictionary(fc.constantFrom('mostPct', 'leastPct', 'x'), fc.constantFrom<unknown>(1, -1, 'a'), { noNullPrototype: true }));
    const inside = fc.oneof(odd, fc.dictionary(fc.constantFrom('salt-high', 'salt-low', 'no-size', 'incomplete', 'x'), odd, { noNullPrototype: true }));
    const value = fc.dictionary(fc.constantFrom(...NAMES.filter((name) => name !== 'zone'), '$schema', 'x'), inside, { noNullPrototype: true });
    let right = 0;
    fc.assert(fc.property(value, (settings) => { right += agree(settings) ? 1 : 0; }), { numRuns: 1000 });
    expect(right).toBeGreaterThan(20); // so that both answers were put to the test
  });
});

test('what a schema cannot know, the reader says: which zones there are', () => {
  const settings = { zone: 'Europe/Lisboa' };
  expect(validate(settings)).toBe(true);
  expect(readSettings(JSON.stringify(settings)).problems).toHaveLength(1);
});

test('a word that counts when nothing is set is one of the words', () => {
  for (const { words, usual } of Object.values(CHOICES)) expect(Object.keys(words)).toContain(usual);
});
