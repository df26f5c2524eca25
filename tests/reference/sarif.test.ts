/**
 * SARIF against the published schema of its version, kept here as `sarif-2.1.0.json`: "Static Analysis Results Format (SARIF) Version
 * 2.1.0-rtm.5 JSON Schema", as the schema store and the package @microsoft/jest-sarif (MIT) have it, by a validator of others.
 */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { Ajv } from 'ajv';
import { describe, expect } from 'vitest';
import { findingsSarif } from '../../server/output/findings-sarif';
import { allRules } from '../../server/output/rule';
import { findingsOfText } from '../cli/findings-of-text';
import { written } from '../output/written';
import { eachCheck, outside } from './outside';

const LOAF = `formula "Pão de é, 漢 👩‍🍳"
  makes     2 loaves of 900 g

dough
  1000 g    bread flour
  700,5 g   água
  40 g      salt  # accept salt-high: "for the brine"
  60 ml     walnut butter
`;

const rules = allRules();
const page = 'https://bakery.example/checks/README.md';

/** Draft 4 calls `$id` `id`; nothing else of it is used here that later drafts read otherwise. */
const { id: _id, $schema: _draft, ...body } = JSON.parse(readFileSync(path.join(import.meta.dirname, 'sarif-2.1.0.json'), 'utf8')) as Readonly<Record<string, unknown>>;
const ajv = new Ajv({ strict: false, allErrors: true, unicodeRegExp: false });
ajv.addFormat('uri', (text) => URL.canParse(text));
ajv.addFormat('uri-reference', /^(?:[\w.~!$&'()*+,;=:@/?#[\]-]|%[\dA-Fa-f]{2})*$/);
ajv.addFormat('date-time', /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?Z$/);
const validate = ajv.compile(body);

interface Log {
  readonly version: string;
  readonly runs: readonly {
    readonly tool: { readonly driver: { readonly name: string; readonly rules: readonly { readonly id: string; readonly helpUri?: string }[] } };
    readonly columnKind: string;
    readonly results: readonly { readonly level: string; readonly message: { readonly text: string }; readonly ruleId: string; readonly ruleIndex: number }[];
  }[];
}

async function logOf(texts: readonly string[], options: { readonly page?: string; readonly problems?: readonly string[] } = {}): Promise<Log> {
  const files = await Promise.all(texts.map((text, index) => findingsOfText(text, `file:///bakery/p%C3%A3o%20${index}.bake`)));
  const form = findingsSarif({ version: '1.2.3', rules, base: 'file:///bakery/', page: options.page });
  return JSON.parse(written(form, files, options.problems)) as Log;
}

describe('SARIF', () => {
  const it = outside('published standard', 'OASIS SARIF 2.1.0, its JSON schema (rtm.5)');

  it('is valid against the schema: with findings, accepted ones and fixes, without any, and with files that cannot be read', async () => {
    for (const log of [await logOf([LOAF, LOAF]), await logOf([]), await logOf(['']), await logOf([LOAF], { page, problems: ['There is no file or folder a.bake.'] })]) {
      validate(log);
      expect(validate.errors ?? []).toEqual([]);
    }
  });

  it('of every finding of every check’s example is valid, and names a rule by its place in the list', async () => {
    const { checks } = await import('../../server/core/checks');
    const log = await logOf(checks.map(({ trips }) => trips.replace(/[«»]/g, '')));
    validate(log);
    expect(validate.errors ?? []).toEqual([]);
    const [run] = log.runs;
    expect(run!.results.length).toBeGreaterThan(checks.length);
    expect(run!.results.filter(({ ruleId, ruleIndex }) => run!.tool.driver.rules[ruleIndex]?.id !== ruleId)).toEqual([]);
  });

  it('is found invalid by the same validator when something is missing', async () => {
    const { version: _version, ...log } = await logOf([LOAF]);
    expect(validate(log)).toBe(false);
  });
});

interface Required {
  readonly log: readonly string[];
  readonly run: readonly string[];
  readonly tool: readonly string[];
  readonly toolComponent: readonly string[];
  readonly result: readonly string[];
  readonly message_any_of: readonly (readonly string[])[];
  readonly reportingDescriptor: readonly string[];
  readonly levels: readonly string[];
  readonly default_level: string;
  readonly columnKind: readonly string[];
}

const log = await logOf([LOAF], { page });

describe('what SARIF requires', () => {
  eachCheck<{ readonly version: string }, Required>('export.sarif_required', ({ version }, expected) => {
    expect(log.version).toBe(version);
    const [run] = log.runs;
    const { results, tool, columnKind } = run!;
    expect(Object.keys(log)).toEqual(expect.arrayContaining([...expected.log]));
    expect(Object.keys(run!)).toEqual(expect.arrayContaining([...expected.run]));
    expect(Object.keys(tool)).toEqual(expect.arrayContaining([...expected.tool]));
    expect(Object.keys(tool.driver)).toEqual(expect.arrayContaining([...expected.toolComponent]));
    for (const rule of tool.driver.rules) expect(Object.keys(rule)).toEqual(expect.arrayContaining([...expected.reportingDescriptor]));
    expect(results.length).toBeGreaterThan(2);
    for (const result of results) {
      expect(Object.keys(result)).toEqual(expect.arrayContaining([...expected.result]));
      expect(expected.message_any_of.some((names) => names.every((name) => name in result.message))).toBe(true);
      expect(expected.levels).toContain(result.level);
    }
    // A level is said even where it is the one that counts without a word.
    expect(results.some(({ level }) => level === expected.default_level)).toBe(true);
    expect(expected.columnKind).toContain(columnKind);
  });
});
