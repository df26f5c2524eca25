/** `check --format sarif` and `--format github`, from where hosted CI runs them. */
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { proofsheet, workspace } from './program';

const LOAF = `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  40 g      salt
`;

interface Log {
  readonly runs: readonly {
    readonly tool: { readonly driver: { readonly rules: readonly { readonly id: string; readonly helpUri?: string }[] } };
    readonly results: readonly { readonly ruleId: string; readonly locations: readonly { readonly physicalLocation: { readonly artifactLocation: object } }[] }[];
    readonly invocations: readonly { readonly executionSuccessful: boolean; readonly toolExecutionNotifications?: readonly { readonly message: { readonly text: string } }[] }[];
  }[];
}

async function sarif(cwd: string, ...args: readonly string[]): Promise<Log['runs'][number]> {
  return (JSON.parse((await proofsheet(['check', '--format', 'sarif', ...args], { cwd })).out) as Log).runs[0]!;
}

const placesOf = ({ results }: Log['runs'][number]): readonly object[] => results.filter(({ ruleId }) => ruleId === 'salt-high').map(({ locations }) => locations[0]!.physicalLocation.artifactLocation);

describe('files are told from the top of the repository', () => {
  test('wherever in it one stands', async () => {
    const cwd = workspace({ 'a b/rye.bake': LOAF, 'c/x': '' });
    mkdirSync(path.join(cwd, '.git'));
    for (const [from, name] of [['.', 'a b'], ['a b', '.'], ['c', '../a b/rye.bake']] as const) {
      expect(placesOf(await sarif(path.join(cwd, from), name))).toEqual([{ uri: 'a%20b/rye.bake', uriBaseId: '%SRCROOT%' }]);
      const { out, status } = await proofsheet(['check', '--format', 'github', name], { cwd: path.join(cwd, from) });
      expect(out).toMatch(/^::warning file=a b\/rye\.bake,line=6,endLine=6,col=3,endColumn=7,title=Much salt \(salt-high\)::Salt is 4 %25 /);
      expect(status).toBe(0);
    }
  });

  test('outside of one from where one stands, the root of the disk too', async () => {
    const cwd = workspace({ 'sub/rye.bake': LOAF });
    expect(placesOf(await sarif(cwd))).toEqual([{ uri: 'sub/rye.bake', uriBaseId: '%SRCROOT%' }]);
    const [place] = placesOf(await sarif('/', path.join(cwd, 'sub', 'rye.bake')));
    expect(place).toEqual({ uri: path.join(cwd, 'sub', 'rye.bake').slice(1), uriBaseId: '%SRCROOT%' });
  });
});

test('what could not be read is in the report, and ends it with 2', async () => {
  const cwd = workspace({ 'a.bake': LOAF });
  const { status, out } = await proofsheet(['check', '--format', 'sarif', 'a.bake', 'no.bake'], { cwd });
  const [run] = (JSON.parse(out) as Log).runs;
  expect(status).toBe(2);
  expect(run!.invocations).toEqual([{ executionSuccessful: false, toolExecutionNotifications: [{ level: 'error', message: { text: 'There is no file or folder no.bake.' } }] }]);
  expect((await sarif(cwd)).invocations).toEqual([{ executionSuccessful: true }]);
});

test('each check has a link where somebody keeps the page of checks', async () => {
  const cwd = workspace({ 'a.bake': LOAF });
  const links = async (...args: readonly string[]) => (await sarif(cwd, ...args)).tool.driver.rules.filter(({ id }) => id === 'salt-high').map(({ helpUri }) => helpUri);
  expect(await links('--help-page', 'https://bakery.example/checks')).toEqual(['https://bakery.example/checks#salt-high']);
  expect(await links()).toEqual([undefined]);
});
