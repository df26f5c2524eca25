/** `proofsheet.json`: which one counts for a file, when it is read again, and what has to be looked at again after that. */
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { analyse } from '../../server/core/analyse';
import type { ProjectFile } from '../../server/project/file';
import { Project } from '../../server/project/project';
import type { ProjectOptions } from '../../server/project/project';

vi.mock(import('../../server/core/analyse'), async original => {
  const module = await original();
  return { ...module, analyse: vi.fn(module.analyse) };
});

const root = 'file:///stall';
const at = (name: string) => `${root}/${name}`;

function projectOver(files: Record<string, string>, options: Partial<ProjectOptions> = {}) {
  const read = vi.fn((uri: string) => Promise.resolve(files[decodeURIComponent(uri.slice(root.length + 1))]));
  const told: string[] = [];
  const onFault = (code: string, fault: unknown): never => {
    throw new Error(code, { cause: fault });
  };
  const project = new Project({
    reader: { read }, roots: [root], onFault,
    onSettings: (uri, file) => told.push(`${uri.slice(root.length + 1)}: ${file === undefined ? 'gone' : String(file.problems.length)}`),
    ...options,
  });
  const reads = () => read.mock.calls.map(([uri]) => uri.slice(root.length + 1)).filter(name => name.endsWith('.json'));
  return { project, files, told, reads };
}

const found = (file: ProjectFile | undefined) => (
  file?.sections.flatMap(s => s.analysis.findings.map(f => `${f.severity} ${f.code}`))
);
const settings = (value: object) => JSON.stringify(value);

/** 2.4 % salt and a pinch: nothing but the pinch is found without settings. */
const loaf = `formula "Loaf"
  makes 1 loaf of 850 g

dough
  500 g bread flour
  340 g water
  12 g salt
  pinch nutmeg
`;

beforeEach(() => void vi.mocked(analyse).mockClear());

describe('what is set', () => {
  it('says how cold the tap is, and what needs ice is looked at again', async () => {
    const summer = 'formula "Loaf"\n  room 30 C\n  friction 14 C\n\ndough at 25 C\n  500 g bread flour\n  340 g water\n  10 g salt\n';
    const { project, files } = projectOver({ 'proofsheet.json': settings({ tapCelsius: 20 }), 'loaf.bake': summer });
    expect(found(await project.prepare(at('loaf.bake')))).toContain('info water-needs-ice');
    files['proofsheet.json'] = settings({ tapCelsius: 0 });
    project.invalidate(at('proofsheet.json'));
    expect(found(await project.prepare(at('loaf.bake')))).not.toContain('info water-needs-ice');
  });

  it('moves limits and severities, and says how large a cup is', async () => {
    const { project } = projectOver({
      'a.bake': loaf, 'cups.bake': loaf.replace('340 g water', '1 cup water'),
      'proofsheet.json': settings({ measures: 'metric', limits: { 'salt-high': { mostPct: 2 } }, checks: { 'salt-high': 'error', 'vague-amount': 'off' } }),
    });
    expect(found(await project.prepare(at('a.bake')))).toEqual(['error salt-high']);
    const cups = (await project.prepare(at('cups.bake')))?.sections[0]?.analysis.totals?.hydration_pct;
    expect(cups).toBeCloseTo(50, 0); // 250 ml to 500 g, to the density of water
  });

  it('is laid over what the editor sets, and wins', async () => {
    const { project, files } = projectOver({ 'a.bake': loaf }, {
      measures: 'imperial', zone: 'Europe/Paris', limits: { 'salt-high': { mostPct: 2.3 }, 'salt-low': { leastPct: 1 } }, checks: { 'vague-amount': 'off' },
    });
    const file = await project.prepare(at('a.bake'));
    expect(file?.settings).toMatchObject({ measures: 'imperial', zone: 'Europe/Paris' });
    expect(found(file)).toEqual(['warning salt-high']);
    files['proofsheet.json'] = settings({ zone: 'Europe/Lisbon', limits: { 'salt-high': { mostPct: 2.4 } }, checks: { 'vague-amount': 'warning' } });
    expect(project.invalidate(at('proofsheet.json'))).toBe(true);
    const after = await project.prepare(at('a.bake'));
    expect(after?.settings).toEqual({
      measures: 'imperial', zone: 'Europe/Lisbon',
      limits: { 'salt-high': { mostPct: 2.4 }, 'salt-low': { leastPct: 1 } }, checks: { 'vague-amount': 'warning' },
    });
    expect(found(after)).toEqual(['warning vague-amount']);
  });

  it('holds an accept comment for a check that is off to be of use', async () => {
    const { project } = projectOver({
      'a.bake': loaf.replace('pinch nutmeg', 'pinch nutmeg # accept vague-amount: to taste'),
      'proofsheet.json': settings({ checks: { 'vague-amount': 'off' } }),
    });
    expect(found(await project.prepare(at('a.bake')))).toEqual([]);
  });
});

describe('which file counts', () => {
  const strict = settings({ limits: { 'salt-high': { mostPct: 2 } } });
  const lenient = settings({ limits: { 'salt-high': { mostPct: 3 } } });

  it('is the nearest one above, alone', async () => {
    const { project } = projectOver({
      'a.bake': loaf, 'sub/b.bake': loaf, 'sub/deep/c.bake': loaf,
      'proofsheet.json': settings({ limits: { 'salt-high': { mostPct: 2 } }, checks: { 'vague-amount': 'off' } }), 'sub/proofsheet.json': lenient,
    });
    const of = async (name: string) => {
      const file = await project.prepare(at(name));
      return [file?.settingsFile?.uri, found(file)];
    };
    expect(await of('a.bake')).toEqual([at('proofsheet.json'), ['warning salt-high']]);
    expect(await of('sub/b.bake')).toEqual([at('sub/proofsheet.json'), ['info vague-amount']]);
    expect(await of('sub/deep/c.bake')).toEqual([at('sub/proofsheet.json'), ['info vague-amount']]);
  });

  it('is never one outside the workspace folders', async () => {
    const { project, reads } = projectOver({ 'sub/b.bake': loaf, 'proofsheet.json': strict }, { roots: [at('sub')] });
    expect((await project.prepare(at('sub/b.bake')))?.settingsFile).toBeUndefined();
    expect(reads()).toEqual(['sub/proofsheet.json']);
  });

  it('lies beside a file that is in no workspace folder', async () => {
    const { project, reads } = projectOver({ 'sub/b.bake': loaf, 'sub/proofsheet.json': strict, 'proofsheet.json': lenient }, { roots: [] });
    expect(found(await project.prepare(at('sub/b.bake')))).toContain('warning salt-high');
    expect(reads()).toEqual(['sub/proofsheet.json']);
  });

  it('is none for a page that has not been saved, or an old version of a file', async () => {
    for (const uri of ['untitled:Untitled-1', 'git:/stall/a.bake?%7B%22ref%22%3A%22~%22%7D']) {
      const { project, reads } = projectOver({ 'proofsheet.json': strict });
      project.update(uri, loaf);
      expect((await project.prepare(uri))?.settingsFile).toBeUndefined();
      expect(reads()).toEqual([]);
    }
  });
});

describe('a change', () => {
  it('of the file on disk is heard of once it is read again; what has not changed is read once', async () => {
    const { project, files, told, reads } = projectOver({ 'a.bake': loaf });
    await project.prepare(at('a.bake'));
    await project.prepare(at('a.bake'));
    expect(reads()).toEqual(['proofsheet.json']);
    expect(told).toEqual([]);

    files['proofsheet.json'] = settings({ limts: {}, measures: 'metric' });
    expect(project.invalidate(at('proofsheet.json'))).toBe(true);
    const file = await project.prepare(at('a.bake'));
    expect(file?.settings.measures).toBe('metric');
    expect(file?.settingsFile?.problems.map(({ message }) => message)).toEqual(['There is no setting "limts". Did you mean "limits"?']);

    // The same text again is no news.
    project.invalidate(at('proofsheet.json'));
    expect((await project.prepare(at('a.bake')))?.settingsFile).toBe(file?.settingsFile);

    delete files['proofsheet.json'];
    project.invalidate(at('proofsheet.json'));
    expect((await project.prepare(at('a.bake')))?.settings.measures).toBeUndefined();
    expect(told).toEqual(['proofsheet.json: 1', 'proofsheet.json: gone']);
  });

  it('in an editor counts at once, saved or not, until it is closed', async () => {
    const { project, told } = projectOver({ 'a.bake': loaf, 'proofsheet.json': settings({ measures: 'metric' }) });
    const measures = async () => (await project.prepare(at('a.bake')))?.settings.measures;
    expect(await measures()).toBe('metric');
    project.update(at('proofsheet.json'), '{ "measures": "imperial" ');
    expect(await measures()).toBe('imperial');
    expect(project.invalidate(at('proofsheet.json'))).toBe(false);
    project.close(at('proofsheet.json'));
    expect(await measures()).toBe('metric');
    expect(told).toEqual(['proofsheet.json: 0', 'proofsheet.json: 1', 'proofsheet.json: 0']);
  });

  it('is no file of formulas, whoever asks', async () => {
    const { project } = projectOver({ 'proofsheet.json': '{}' });
    project.update(at('proofsheet.json'), '{}');
    expect(await project.prepare(at('proofsheet.json'))).toBeUndefined();
    expect(project.loaded()).toEqual([]);
  });

  it('looks again at what it may have changed, and at nothing else', async () => {
    const { project, files } = projectOver({
      'a.bake': `${loaf}\n${loaf.replace('"Loaf"', '"Other"')}`, 'proofsheet.json': settings({ limits: { 'salt-high': { mostPct: 3 } } }),
    });
    const analysed = async (change: object) => {
      files['proofsheet.json'] = settings(change);
      project.invalidate(at('proofsheet.json'));
      vi.mocked(analyse).mockClear();
      found(await project.prepare(at('a.bake')));
      return vi.mocked(analyse).mock.calls.length;
    };
    expect(await analysed({ limits: { 'salt-high': { mostPct: 3 } } })).toBe(2); // for the first time
    expect(await analysed({ limits: { 'salt-high': { mostPct: 3 } }, zone: 'Europe/Lisbon' })).toBe(0);
    expect(await analysed({ limits: { 'salt-high': { mostPct: 2 } } })).toBe(2);
    expect(await analysed({ limits: { 'salt-high': { mostPct: 2 } }, checks: { 'salt-high': 'off' } })).toBe(2);
  });

  it('of the zone has plans looked at again, which have clock times', async () => {
    const plan = 'plan "P"\n  ready 2026-03-29 01:30\n  oven holds 4\n  bake 2 of "Loaf"\n';
    const { project, files } = projectOver({ 'a.bake': `${loaf}\n${plan}`, 'proofsheet.json': settings({ zone: 'UTC' }) });
    const codes = async () => found(await project.prepare(at('a.bake')));
    expect(await codes()).not.toContain('error plan-time-wrong');
    files['proofsheet.json'] = settings({ zone: 'Europe/Lisbon' });
    project.invalidate(at('proofsheet.json'));
    // On that night the clocks of Lisbon skip from one o'clock to two.
    expect(await codes()).toContain('error plan-time-wrong');
  });

  it('concerns the files beside and below it', async () => {
    const { project } = projectOver({ 'a.bake': loaf, 'sub/b.bake': loaf });
    await project.prepare(at('a.bake'));
    await project.prepare(at('sub/b.bake'));
    expect(project.dependents(at('proofsheet.json'))).toEqual([at('a.bake'), at('sub/b.bake')]);
    expect(project.dependents(at('sub/proofsheet.json'))).toEqual([at('sub/b.bake')]);
  });

  it('while it is being read is not lost', async () => {
    let answer: (text: string) => void = () => undefined;
    const asked = vi.fn();
    const project = new Project({
      roots: [root],
      reader: {
        read: uri => {
          if (!uri.endsWith('.json')) return Promise.resolve(loaf);
          asked();
          return new Promise(resolve => (answer = resolve));
        },
      },
    });
    const prepared = project.prepare(at('a.bake'));
    await vi.waitFor(() => expect(asked).toHaveBeenCalledTimes(1));
    project.invalidate(at('proofsheet.json'));
    answer('{ "measures": "metric" }');
    await vi.waitFor(() => expect(asked).toHaveBeenCalledTimes(2));
    answer('{ "measures": "imperial" }');
    expect((await prepared)?.settings.measures).toBe('imperial');
  });
});
