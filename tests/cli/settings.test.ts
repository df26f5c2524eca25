/** `proofsheet.json` on the command line: it counts as it does in the editor, and what is wrong with it is said. */
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { proofsheet, workspace } from './program';

/** 2.4 % salt; water by the cup. */
const LOAF = `formula "Plain loaf"
  makes     1 loaf of 850 g

dough
  500 g     bread flour
  1 cup     water
  100 g     water
  12 g      salt
  3 g       instant yeast

steps
  mix       10 min
  bulk      2 h at 24 C
  bake      40 min at 230 C
`;

interface Found { readonly code: string; readonly severity: string; readonly message: string; readonly line: number; readonly column: number }
interface Checked { readonly files: readonly { readonly path: string; readonly findings: readonly Found[] }[] }

async function checked(args: readonly string[], cwd: string, input?: string): Promise<{ readonly status: number | null; readonly lines: readonly string[]; readonly err: string }> {
  const { out, err, status } = await proofsheet(['check', '--json', ...args], { cwd, ...(input !== undefined && { input }) });
  const { files } = JSON.parse(out) as Checked;
  const told = files.flatMap((file) => file.findings.filter(({ code }) => code === 'settings' || code === 'salt-high')
    .map(({ code, severity, line, column }) => `${file.path}:${String(line)}:${String(column)} ${severity} ${code}`));
  return { status, err, lines: told };
}
const strict = JSON.stringify({ limits: { 'salt-high': { mostPct: 2 } }, checks: { 'salt-high': 'error' } });

describe('limits and severities', () => {
  test('count for the files beside and below, wherever it is run and however they are named', async () => {
    const top = workspace({ 'proofsheet.json': strict, 'loaves/a.bake': LOAF });
    const loaves = path.join(top, 'loaves');
    expect(await checked([], top)).toEqual({ status: 1, err: '', lines: ['loaves/a.bake:8:3 error salt-high'] });
    expect((await checked(['a.bake'], loaves)).lines).toEqual(['a.bake:8:3 error salt-high']);
    expect((await checked(['-'], loaves, LOAF)).lines).toEqual(['<stdin>:8:3 error salt-high']);
    expect((await checked([], workspace({ 'loaves/a.bake': LOAF }))).lines).toEqual([]);
  });

  test('come from the nearest file alone, and never from above the top of a repository', async () => {
    const top = workspace({ 'proofsheet.json': strict, 'repository/a.bake': LOAF, 'repository/site/package.json': '{}', 'repository/site/b.bake': LOAF });
    mkdirSync(path.join(top, 'repository', '.git'));
    expect((await checked([], top)).lines).toEqual([]);

    const inside = workspace({
      'proofsheet.json': strict, 'a.bake': LOAF, 'site/package.json': '{}', 'site/b.bake': LOAF, 'lenient/proofsheet.json': '{}', 'lenient/c.bake': LOAF,
    });
    const found = ['a.bake:8:3 error salt-high', 'site/b.bake:8:3 error salt-high'];
    expect((await checked([], inside)).lines).toEqual(found);
    expect((await checked(['site/b.bake'], inside)).lines).toEqual(found.slice(1));
    mkdirSync(path.join(inside, '.git'));
    expect((await checked([], inside)).lines).toEqual(found);
  });

  test('how much a cup holds is set there', async () => {
    const hydration = async (measures: string): Promise<number> => {
      const cwd = workspace({ 'a.bake': LOAF, 'proofsheet.json': JSON.stringify({ measures }) });
      const { out } = await proofsheet(['sheet', '--json', 'a.bake'], { cwd });
      return (JSON.parse(out) as { formulas: { totals: { hydration_pct: number } }[] }).formulas[0]!.totals.hydration_pct;
    };
    // A US cup is 236.6 ml, a metric one 250 ml.
    expect(await hydration('metric') / await hydration('us')).toBeCloseTo((250 + 100) / (236.6 + 100), 2);
  });
});

describe('what is wrong with the file', () => {
  const wrong = '{\n  "limts": {},\n  "measures": "cups"\n}\n';

  test('is listed once, before the files that it counts for', async () => {
    const cwd = workspace({ 'proofsheet.json': wrong, 'a.bake': LOAF, 'b.bake': LOAF });
    expect(await checked(['--fail-on', 'error'], cwd)).toEqual({ status: 1, err: '', lines: ['proofsheet.json:2:3 warning settings', 'proofsheet.json:3:15 error settings'] });
    const { out } = await proofsheet(['check'], { cwd });
    expect(out).toContain(`proofsheet.json:2:3: warning: There is no setting "limts". Did you mean "limits"? (settings)
  2 |   "limts": {},
    |   ^^^^^^^
`);
  });

  test('has the path to it from where one is', async () => {
    const cwd = workspace({ 'proofsheet.json': wrong, 'loaves/a.bake': LOAF });
    expect((await checked(['a.bake'], path.join(cwd, 'loaves'))).lines[0]).toBe('../proofsheet.json:2:3 warning settings');
  });

  test('is found when the file itself is named, and no formula is looked for in it', async () => {
    const cwd = workspace({ 'proofsheet.json': wrong, 'a.bake': LOAF, 'right/proofsheet.json': '{}' });
    expect((await checked(['proofsheet.json'], cwd)).lines).toHaveLength(2);
    expect((await checked(['a.bake', 'proofsheet.json'], cwd)).lines).toHaveLength(2);
    const { out, status } = await proofsheet(['check', '--json', 'right/proofsheet.json'], { cwd });
    expect([status, JSON.parse(out)]).toEqual([0, { files: [{ path: 'right/proofsheet.json', findings: [] }] }]);
  });

  test('is said in one line by verbs that list no findings', async () => {
    const cwd = workspace({ 'proofsheet.json': wrong, 'a.bake': LOAF });
    for (const args of [['sheet'], ['schedule', '--ready', '2026-03-14 08:00']]) {
      const { err } = await proofsheet([...args, 'a.bake'], { cwd });
      expect(err).toContain('proofsheet.json: 2 problems, so not all of it counts. See: proofsheet check proofsheet.json\n');
    }
  });

  test('is said even if it is not in UTF-8', async () => {
    const cwd = workspace({ 'proofsheet.json': Uint8Array.from([0x7b, 0x22, 0xe9, 0x22, 0x3a, 0x31, 0x7d]), 'a.bake': LOAF });
    expect((await checked([], cwd)).lines).toEqual(['proofsheet.json:1:2 warning settings']);
  });
});

describe('the time zone of a schedule', () => {
  const zoneOf = async (settings: string, ...args: readonly string[]): Promise<string> => {
    const cwd = workspace({ 'proofsheet.json': settings, 'a.bake': LOAF });
    const { out } = await proofsheet(['schedule', '--ready', '2026-03-14 08:00', '--json', ...args], { cwd });
    return (JSON.parse(out) as { formulas: { ready: string }[] }).formulas[0]!.ready;
  };

  test('is that of the workspace, unless another is given', async () => {
    expect(await zoneOf('{}')).toContain('T08:00:00+00:00'); // the tests run as in Lisbon
    expect(await zoneOf('{ "zone": "America/Sao_Paulo" }')).toContain('T08:00:00-03:00');
    expect(await zoneOf('{ "zone": "America/Sao_Paulo" }', '--zone', 'Asia/Tokyo')).toContain('T08:00:00+09:00');
  });
});
