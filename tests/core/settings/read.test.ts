/** `proofsheet.json` read: what counts, and what is said of the rest, at its place. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LARGEST_SETTINGS } from '../../../server/core/settings/json';
import { NO_SETTINGS, readSettings, settingsFrom } from '../../../server/core/settings/read';
import { crossedLimits } from '../../../server/core/settings/pairs';
import { layered, LIMITS, type Settings } from '../../../server/core/settings/settings';
import { hoursOffText } from '../../../server/core/timeline/hours-off';
import { anySettings } from './arbitrary';

const CROSSED = 'nothing is right for both';

/** Settings as a file has them. */
function written({ asleep, away, ...rest }: Settings): object {
  return { ...rest, ...(asleep && { asleep: asleep.map(hoursOffText) }), ...(away && { away: away.map(hoursOffText) }) };
}

/** Problems as `«marked text» message`, a warning with a question mark in front. */
function said(text: string): readonly string[] {
  return readSettings(text).problems.map(({ start, end, severity, message }) => (
    `${severity === 'warning' ? '? ' : ''}«${text.slice(start, end)}» ${message}`
  ));
}

test('everything that can be set', () => {
  const settings = {
    measures: 'metric', zone: 'Europe/Lisbon', tapCelsius: 11.5, limits: { 'salt-high': { mostPct: 2.8 }, 'oven-temperature-odd': { leastCelsius: 70, mostCelsius: 340 } },
    checks: { 'vague-amount': 'off', 'salt-high': 'error', 'not-understood': 'info' }, allergens: 'eu', labelRounding: 'us',
  };
  expect(readSettings(JSON.stringify(settings, undefined, 2))).toEqual({ settings, problems: [] });
});

test('a zero is a zero, whatever sign a very small number leaves it', () => {
  expect(readSettings('{ "tapCelsius": -0, "limits": { "temperature-odd": { "leastCelsius": -1e-400 } } }').settings).toEqual({
    ...NO_SETTINGS, tapCelsius: 0, limits: { 'temperature-odd': { leastCelsius: 0 } },
  });
});

test('nothing, a byte-order mark, and the address of a schema set nothing and are fine', () => {
  for (const text of ['{}', '\uFEFF{ }\r\n', '{ "$schema": "./proofsheet.schema.json" }', '{ "limits": {}, "checks": {} }']) {
    expect(readSettings(text)).toEqual({ settings: NO_SETTINGS, problems: [] });
  }
});

test('the examples that the README and the page of checks give', () => {
  for (const [page, example] of [['README.md', /```json\n([^`]*)```/], ['server/core/checks/README.md', /`(\{ "limits": [^`]*)`/]] as const) {
    const text = example.exec(readFileSync(path.join(import.meta.dirname, '../../..', page), 'utf8'))?.[1] ?? '';
    expect(readSettings(text).problems, page).toEqual([]);
    expect(Object.keys(readSettings(text).settings.limits), page).toEqual(['salt-high']);
  }
});

test('a time zone is spelled as the database has it', () => {
  expect(readSettings('{ "zone": "europe/lisbon" }')).toEqual({ settings: { ...NO_SETTINGS, zone: 'Europe/Lisbon' }, problems: [] });
});

test('hours off, one or a list of them', () => {
  expect(readSettings('{ "asleep": "22:30-05:30", "away": ["09:00 to 17:00 on Mon to Fri", "12:00 to 13:00 on Sun"], "roomTodayCelsius": 26 }')).toEqual({
    settings: {
      ...NO_SETTINGS,
      asleep: [{ kind: 'asleep', fromMinute: 1350, toMinute: 330 }],
      away: [{ kind: 'away', fromMinute: 540, toMinute: 1020, days: [1, 2, 3, 4, 5] }, { kind: 'away', fromMinute: 720, toMinute: 780, days: [7] }],
      roomTodayCelsius: 26,
    },
    problems: [],
  });
});

describe('one wrong thing costs that thing only', () => {
  const right = '"measures": "metric", "limits": { "salt-high": { "mostPct": 2 } }';
  test.each([
    ['"limts": {}', '? «"limts"» There is no setting "limts". Did you mean "limits"?'],
    ['"oven": 3', '? «"oven"» There is no setting "oven". There are measures, zone, tapCelsius, asleep, away, roomTodayCelsius, limits, checks, allergens, labelRounding and hints.'],
    ['"__proto__": { "measures": "us" }', '? «"__proto__"» There is no setting "__proto__". There are measures, zone, tapCelsius, asleep, away, roomTodayCelsius, limits, checks, allergens, labelRounding and hints.'],
    ['"allergens": "EU"', '«"EU"» "allergens" is "eu", "us" or "both". Did you mean "eu"?'],
    ['"allergens": ["eu", "us"]', '«["eu", "us"]» "allergens" is "eu", "us" or "both".'],
    ['"labelRounding": null', '«null» "labelRounding" is "none", "eu" or "us".'],
    ['"zone": "Europe/Lisboa"', '«"Europe/Lisboa"» There is no time zone "Europe/Lisboa". Did you mean Europe/Lisbon?'],
    ['"zone": ""', '«""» "zone" is the name of a time zone in double quotes, such as "Europe/Lisbon".'],
    ['"zone": 1', '«1» "zone" is the name of a time zone in double quotes, such as "Europe/Lisbon".'],
    ...['"12"', '-1', '54', 'null', 'true'].map((wrong) => [`"tapCelsius": ${wrong}`, `«${wrong}» "tapCelsius" is a number from 0 to 40, in C, without quotes: 12 for water of 12 C.`]),
    ['"roomTodayCelsius": 80', '«80» "roomTodayCelsius" is a number from 0 to 45, in C, without quotes: 26 for a warm day.'],
    ['"asleep": 22', '«22» "asleep" is hours in double quotes, "22:30 to 05:30", or a list of them in brackets.'],
    ['"asleep": "at night"', '«"at night"» "at night" says no hours. Write when they begin and end: 22:30 to 05:30.'],
    ['"away": ["09:00 to 17:00", "9 to 5"]', '«"9 to 5"» "9" is no time of day. The day runs from 00:00 to 23:59, with a colon and no am or pm: 09:00 to 17:00 on Mon to Fri.'],
    ['"checks": "off"', '«"off"» "checks" holds how much checks matter, by code: { "vague-amount": "off" }.'],
    ['"checks": { "vague-amuont": "off" }', '? «"vague-amuont"» No check is called "vague-amuont". Did you mean "vague-amount"?'],
    ['"checks": { "constructor": "off" }', '? «"constructor"» No check is called "constructor". A finding shows its code, and the page of checks has them all.'],
    ['"checks": { "vague-amount": "warn" }', '«"warn"» "vague-amount" is "off", "info", "warning" or "error".'],
    ['"checks": { "vague-amount": "errors" }', '«"errors"» "vague-amount" is "off", "info", "warning" or "error". Did you mean "error"?'],
    ['"checks": { "not-understood": "off" }', '«"off"» "not-understood" cannot be off: what cannot be read counts for nothing, and somebody must hear of it. "info" is the least.'],
    ['"checks": { "incomplete": false }', '«false» "incomplete" is "info", "warning" or "error".'],
  ])('%s', (wrong, sentence) => {
    for (const text of [`{ ${wrong}, ${right} }`, `{ ${right}, ${wrong} }`]) {
      expect(said(text)).toEqual([sentence]);
      const { limits, measures } = readSettings(text).settings;
      expect({ limits, measures }).toEqual({ limits: { 'salt-high': { mostPct: 2 } }, measures: 'metric' });
    }
  });

  test.each([
    ['"salt-hihg": { "mostPct": 2 }', '? «"salt-hihg"» No check with limits is called "salt-hihg". Did you mean "salt-high"?'],
    ['"no-size": { "mostPct": 2 }', '? «"no-size"» The check "no-size" goes by no limit. How much it matters is set under "checks".'],
    ['"salt-high": 2', '«2» "salt-high" holds limits by name: { "mostPct": 2.5 }.'],
    ['"salt-high": { "mostPC": 2 }', '? «"mostPC"» The check "salt-high" has no limit "mostPC". Did you mean "mostPct"?'],
    ['"salt-high": { "toString": 2 }', '? «"toString"» The check "salt-high" has no limit "toString". It has mostPct.'],
    ['"salt-high": { "mostPct": "2" }', '«"2"» "mostPct" is a number from 0 up, in % of all flour, without quotes: 2.5 unless it is set.'],
    ['"salt-high": { "mostPct": -1 }', '«-1» "mostPct" is a number from 0 up, in % of all flour, without quotes: 2.5 unless it is set.'],
    ['"salt-high": { "mostPct": 1e999 }', '«1e999» "mostPct" is a number from 0 up, in % of all flour, without quotes: 2.5 unless it is set.'],
    ['"oven-temperature-odd": { "leastCelsius": -274 }', '«-274» "leastCelsius" is a number from -273 up, in C, without quotes: 90 unless it is set.'],
  ])('limits: %s', (wrong, sentence) => {
    const text = `{ "limits": { ${wrong}, "salt-low": { "leastPct": 1 } }, "measures": "metric" }`;
    expect(said(text)).toEqual([sentence]);
    expect(readSettings(text).settings).toEqual({ limits: { 'salt-low': { leastPct: 1 } }, checks: {}, measures: 'metric' });
  });

  test('of a name that stands twice the last one counts, at every depth', () => {
    expect(said('{ "measures": "us", "measures": "metric" }')).toEqual(['? «"measures"» "measures" stands twice here. Only the last one counts.']);
    const text = '{ "limits": { "salt-high": { "mostPct": 9, "mostPct": 2 } } }';
    expect(readSettings(text).problems).toHaveLength(1);
    expect(readSettings(text).settings.limits).toEqual({ 'salt-high': { mostPct: 2 } });
  });

  test('a very long name is not said in full', () => {
    expect(said(`{ "${'x'.repeat(1000)}": 1 }`)[0]!.split('» ')[1]).toMatch(/^There is no setting "x{60}…"\. /);
  });
});

describe('a file that is no JSON', () => {
  test.each([
    ['', '«» The file is empty. Settings stand in braces: {} are none at all.'],
    ['5', '«5» Settings stand in braces, each with its name: { "measures": "metric" }.'],
    ['["us"]', '«["us"]» Settings stand in braces, each with its name: { "measures": "metric" }.'],
    ['{ "measures": "metric", }', '«}» Nothing follows the last comma. Take it out.'],
    ['{ "measures": metric }', '«metric» This is not JSON. Names and words stand in double quotes; numbers, true and false stand without.'],
    ["{ 'measures': \"us\" }", '«\'measures\'» JSON takes double quotes: "rye", not \'rye\'.'],
    ['{ "measures" "us" }', '«"us"» A colon belongs here, between the name and its value.'],
    ['{ "measures": "us" "zone": "UTC" }', '«"zone"» A comma belongs here, before the next setting.'],
    ['{ "limits": { "salt-high": { "mostPct": 2,8 } } }', '«2,8» A number takes a decimal point: 2.5, not 2,5.'],
    ['{ "measures": }', '«}» Something is missing before this.'],
    ['{ "measures": "metric"', '«» A closing brace } is missing.'],
    ['{ "measures": "metric\n}', '«"metric» The closing double quote is missing.'],
    ['[/*', '«[/*» Settings stand in braces, each with its name: { "measures": "metric" }.'],
    ['{ } { }', '«{» Nothing may follow the last closing brace.'],
    ['{ // why\n}', '«// why» JSON has no comments. Give reasons in a text file beside it.'],
    ['{ "a\\q": 1 }', '«"a\\q"» A backslash in double quotes begins an escape, and this is none. Write two for one that stands for itself.'],
  ])('%s', (text, sentence) => {
    expect(said(text)[0]).toBe(sentence);
  });

  test('what could be read of it counts', () => {
    expect(readSettings('{ "measures": "metric", "limits": { "salt-high": { "mostPct": 2 }, "zone": ').settings)
      .toEqual({ measures: 'metric', limits: { 'salt-high': { mostPct: 2 } }, checks: {} });
    expect(readSettings('{ "measures": "us" "zone": "UTC" }').settings).toMatchObject({ measures: 'us', zone: 'UTC' });
  });

  test('and is nested a hundred thousand deep, or is larger than settings are', () => {
    for (const text of ['['.repeat(100_000), '{"a":'.repeat(100_000), ' '.repeat(LARGEST_SETTINGS) + '{}']) {
      const { settings, problems } = readSettings(text);
      expect(settings).toEqual(NO_SETTINGS);
      expect(problems).toHaveLength(1);
    }
    // Braces in quotes nest nothing.
    expect(readSettings(`{ "$schema": "${'{'.repeat(1000)}" }`).problems).toEqual([]);
  });
});

describe('settings from elsewhere', () => {
  test('what is right counts, names of others are passed over', () => {
    expect(settingsFrom({ measures: 'metric', zone: '', preview: { followCursor: true }, limits: { 'salt-high': { mostPct: 2, least: 'x' } }, checks: null }))
      .toEqual({ measures: 'metric', limits: { 'salt-high': { mostPct: 2 } }, checks: {} });
  });

  test('whatever it is', () => {
    const circle: Record<string, unknown> = {};
    circle['self'] = circle;
    for (const odd of [undefined, null, 1n, circle, () => 1, Symbol('x'), 'text', [], NaN]) expect(settingsFrom(odd)).toEqual(NO_SETTINGS);
  });
});

test('laid over others, limit by limit and check by check', () => {
  const base = { measures: 'imperial', zone: 'UTC', limits: { 'salt-high': { mostPct: 2 }, 'salt-low': { leastPct: 1 } }, checks: { 'no-size': 'info' } } as const;
  const over = { measures: 'metric', limits: { 'salt-high': { mostPct: 3 } }, checks: { 'vague-amount': 'off' } } as const;
  expect(layered(base, over)).toEqual({
    measures: 'metric', zone: 'UTC', limits: { 'salt-high': { mostPct: 3 }, 'salt-low': { leastPct: 1 } }, checks: { 'no-size': 'info', 'vague-amount': 'off' },
  });
  expect(layered(base, NO_SETTINGS)).toEqual(base);
});

describe('any text', () => {
  const anyText = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 200 }),
    fc.string({ unit: fc.constantFrom('{', '}', '[', ']', '"', ':', ',', '\\', ' ', '\n', '1', '-', 'e', '/', '*', 'limits', 'salt-high', 'mostPct', 'off'), maxLength: 60 }),
    fc.json(),
    // Right settings with something cut out and something put in.
    fc.tuple(anySettings, fc.nat(), fc.nat(20), fc.string({ maxLength: 5 })).map(([settings, at, cut, put]) => {
      const text = JSON.stringify(settings, undefined, 1);
      const start = at % (text.length + 1);
      return text.slice(0, start) + put + text.slice(start + cut);
    }),
  );

  test('is read without a fault; problems lie in it, in order; and what was read is read again the same', () => {
    fc.assert(fc.property(anyText, (text) => {
      const { settings, problems } = readSettings(text);
      let last = 0;
      for (const { start, end, message } of problems) {
        expect(start).toBeGreaterThanOrEqual(last);
        expect(end).toBeGreaterThanOrEqual(start);
        expect(end).toBeLessThanOrEqual(text.length);
        expect(message).toMatch(/[.?]$/);
        last = start;
      }
      const again = readSettings(JSON.stringify(written(settings)));
      // Two limits may each be right and leave nothing between them.
      expect({ settings: again.settings, problems: again.problems.filter(({ message }) => !message.includes(CROSSED)) }).toEqual({ settings, problems: [] });
    }), { numRuns: 2000 });
  });
});

describe('a least above its most', () => {
  test('in one check, at the most that is set', () => {
    expect(said('{ "limits": { "room-odd": { "leastCelsius": 30, "mostCelsius": 20 } } }')).toEqual([
      '? «20» "leastCelsius" (30) is above "mostCelsius" (20), so nothing is right for both. Change one of them.',
    ]);
  });

  test('against what counts where nothing is set, and in two checks that go together', () => {
    expect(said('{ "limits": { "room-odd": { "leastCelsius": 50 } } }')).toEqual([
      '? «50» "leastCelsius" (50) is above "mostCelsius" (45), so nothing is right for both. Change one of them.',
    ]);
    expect(said('{ "limits": { "salt-low": { "leastPct": 2.8 } } }')).toEqual([
      '? «2.8» "leastPct" of salt-low (2.8) is above "mostPct" of salt-high (2.5), so nothing is right for both. Change one of them.',
    ]);
    expect(said('{ "limits": { "salt-low": { "leastPct": 2.8 }, "salt-high": { "mostPct": 3 } } }')).toEqual([]);
  });

  test('no limits that ship are crossed', () => {
    const all = Object.entries(LIMITS).flatMap(([code, limits]) => Object.entries(limits).map(([name, { value }]) => ({ code, name, value, span: { start: 0, end: 0 } })));
    expect(crossedLimits(all)).toEqual([]);
  });
});

test('each way to be wrong in a limit: the check, the limit, the unit', () => {
  expect(said('{ "limits": { "salt-hihg": { "mostPct": 3 } } }')).toEqual(['? «"salt-hihg"» No check with limits is called "salt-hihg". Did you mean "salt-high"?']);
  expect(said('{ "limits": { "salt-high": { "mostGrams": 3 } } }')).toEqual(['? «"mostGrams"» The check "salt-high" has no limit "mostGrams". It has mostPct.']);
  expect(said('{ "limits": { "salt-high": { "mostPct": "3 %" } } }')).toEqual(['«"3 %"» "mostPct" is a number from 0 up, in % of all flour, without quotes: 2.5 unless it is set.']);
});
