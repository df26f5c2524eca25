/** Every check brings the text that trips it and the text that does not: the catalogue tests itself. */
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { checks } from '../../../server/core/checks';
import { unreadable } from '../../../server/core/checks/rules/unreadable';
import { findingsIn, marked, type TextOptions } from '../bake';

/** The paths that examples of `use` name. */
const USE_PROBLEMS: ReadonlyMap<string, 'not-found' | 'outside' | 'itself' | 'not-bake'> = new Map([
  ['missing.bake', 'not-found'],
  ['../outside.bake', 'outside'],
  ['itself.bake', 'itself'],
  ['prices.txt', 'not-bake'],
]);
const options: TextOptions = { useProblem: (path) => USE_PROBLEMS.get(path) };

/** Their limit is a leeway around what the message names: what went in, what the tap gives, the bake, the boiling point. */
const SAYS_IT_OTHERWISE: ReadonlySet<string> = new Set(['yields-odd', 'water-needs-ice', 'preheat-cooler', 'core-never-reached']);

const said = (text: string) => findingsIn(text, options).map(({ code, text: at, message }) => `${code} at "${at}": ${message}`);

test('codes are few words, and no two checks share one', () => {
  for (const { code } of checks) {
    expect(code).toMatch(/^[a-z]+(-[a-z]+)*$/);
  }
  expect(new Set(checks.map(({ code }) => code)).size).toBe(checks.length);
});

test('a check is a file with its name, and every file is in the list', () => {
  const files = readdirSync(path.join(import.meta.dirname, '../../../server/core/checks/rules')).map((file) => path.parse(file).name);
  // What the parser cannot read has one file: its words are the parser's, and only the pages are here.
  const pages = checks.map(({ code }) => (unreadable.some((page) => page.code === code) ? 'unreadable' : code));
  expect([...new Set(pages)].sort()).toEqual(files.sort());
});

describe.each(checks)('$code', (check) => {
  test('its example trips it at the marked place, and nothing else', () => {
    const { text, start, end } = marked(check.trips);
    const found = findingsIn(text, options).filter(({ code }) => check.tripsBeside?.includes(code) !== true);
    expect(findingsIn(text, options).length - found.length).toBe(check.tripsBeside?.length ?? 0);
    expect(found.map(({ code }) => code), said(text).join('\n')).toEqual(Array<string>(check.tripsTimes ?? 1).fill(check.code));
    expect(found[0]!.text).toBe(text.slice(start, end));
    expect(found[0]!.start).toBe(start);
    expect(found[0]!.end).toBe(end);
    expect(found[0]!.finding.severity).toBe(check.severity);
  });

  test('its other example passes every check', () => {
    expect(said(check.passes)).toEqual([]);
  });

  test('Windows line ends change nothing', () => {
    const { text } = marked(check.trips);
    expect(said(text.replaceAll('\n', '\r\n'))).toEqual(said(text));
    expect(said(check.passes.replaceAll('\n', '\r\n'))).toEqual([]);
  });

  test('its first fix gives the text it promises, and that is clean', () => {
    const { text } = marked(check.trips);
    const [found] = findingsIn(text, options);
    const [fix] = found!.finding.fixes;
    // Having a fix and documenting what it gives go together.
    expect(fix === undefined, fix?.title).toBe(check.fixed === undefined);
    if (fix === undefined || check.fixed === undefined) {
      return;
    }
    expect(found!.after(fix)).toBe(check.fixed);
    expect(said(check.fixed)).toEqual([]);
    const [windows] = findingsIn(text.replaceAll('\n', '\r\n'), options);
    expect(windows!.after(windows!.finding.fixes[0]!)).toBe(check.fixed.replaceAll('\n', '\r\n'));
  });

  test('each of its fixes takes the finding away and brings no error', () => {
    const { text } = marked(check.trips);
    const found = findingsIn(text, options)[0]!;
    for (const fix of found.finding.fixes) {
      const after = findingsIn(found.after(fix), options);
      expect(after.filter(({ code, finding }) => code === check.code || finding.severity === 'error').map(({ message }) => message), fix.title).toEqual([]);
    }
  });

  test('its message is a sentence or a few, without the names that programs use', () => {
    const { text } = marked(check.trips);
    const { message } = findingsIn(text, options)[0]!;
    expect(message).toMatch(/^[\p{L}\d“`(].{10,300}[.?!]$/su);
    expect(message).not.toMatch(/undefined|null|NaN|Infinity|\[object|\d,\d|\d\.\d{3}/);
  });

  test('its message names a limit that it goes by', () => {
    if (check.limits === undefined || SAYS_IT_OTHERWISE.has(check.code)) return;
    const { message } = findingsIn(marked(check.trips).text, options)[0]!;
    const values = Object.values(check.limits).flatMap(({ value, byStyle = {} }) => [value, ...Object.values(byStyle)]);
    // As it stands in the table, as a share in per cent, or rounded for reading.
    expect(values.some((value) => [String(value), value.toFixed(1), String(Math.round(value * 100)), String(Math.round(value))].some((text) => message.includes(text))), message).toBe(true);
  });

  test('it names why a baker cares and where its numbers come from', () => {
    expect(check.title.length).toBeGreaterThan(5);
    expect(check.why).toMatch(/\.$/);
    expect(check.source.length).toBeGreaterThan(5);
    for (const name of Object.keys(check.limits ?? {})) {
      expect(name).toMatch(/^(most|least)/);
    }
  });
});
