import { beforeEach, describe, expect, it, vi } from 'vitest';
import { analyse } from '../../server/core/analyse';
import * as grammar from '../../grammar';
import type { LoadedFile, ProjectFile } from '../../server/project/file';
import { LARGEST_TEXT, offsetsOfSection, placesOfRelated, rangeOfPlace, sectionAt } from '../../server/project/file';
import { Project } from '../../server/project/project';
import type { ProjectOptions } from '../../server/project/project';

// Counted, not replaced: everything here runs for real.
vi.mock(import('../../server/core/analyse'), async original => {
  const module = await original();
  return { ...module, analyse: vi.fn(module.analyse) };
});
vi.mock(import('../../grammar'), async original => {
  const module = await original();
  return { ...module, parseBlock: vi.fn(module.parseBlock) };
});

const root = 'file:///stall';
const at = (name: string) => `${root}/${name}`;

/** A project over files in memory. Faults are thrown. */
function projectOver(files: Record<string, string>, { reader: source, ...options }: Partial<ProjectOptions> = {}) {
  const read = vi.fn((uri: string) => Promise.resolve(files[decodeURIComponent(uri.slice(root.length + 1))]));
  const onFault = (code: string, fault: unknown): never => {
    throw new Error(code, { cause: fault });
  };
  // Looking for settings is a matter of its own (settings.test.ts): `read` counts what formulas are read from.
  const reader = { read: (uri: string) => (uri.endsWith('/proofsheet.json') ? Promise.resolve(undefined) : (source?.read ?? read)(uri)) };
  return { project: new Project({ reader, roots: [root], onFault, ...options }), read, files };
}

const codes = (file: ProjectFile | undefined) => file?.sections.flatMap(s => s.analysis.findings.map(f => f.code));
/** Reads every analysis, and says which sections had to be analysed for that. */
function analysed(file: ProjectFile | undefined): readonly string[] {
  vi.mocked(analyse).mockClear();
  for (const section of file?.sections ?? []) void section.analysis;
  return vi.mocked(analyse).mock.calls.map(([section]) => section.name);
}

const loaf = (name: string, water = 650) => `formula "${name}"
  makes 2 loaves of 830 g

dough
  1000 g bread flour
  ${water} g water
  20 g salt
`;

beforeEach(() => {
  vi.mocked(analyse).mockClear();
  vi.mocked(grammar.parseBlock).mockClear();
});

describe('many files', () => {
  it('are read at once, each a single time, and what comes in meanwhile counts', async () => {
    const names = Array.from({ length: 100 }, (_, i) => `loaf-${i}.bake`);
    let waiting = 0;
    let most = 0;
    const reader = {
      read: async () => {
        most = Math.max(most, ++waiting);
        await new Promise(resolve => setImmediate(resolve));
        waiting--;
        return loaf('On disk');
      },
    };
    const read = vi.spyOn(reader, 'read');
    const { project } = projectOver({}, { reader });
    const all = project.read(names.map(at));
    project.update(at('loaf-99.bake'), loaf('Typed'));
    await all;
    for (const name of names) await project.prepare(at(name));
    expect(most).toBeGreaterThan(10);
    expect(read.mock.calls).toHaveLength(99);
    expect(project.get(at('loaf-99.bake'))?.sections[0]?.section.name).toBe('Typed');
  });
});

describe('a file', () => {
  it('is read once, and is the same as long as nothing changes', async () => {
    const { project, read } = projectOver({ 'a.bake': loaf('A') });
    const file = await project.prepare(at('a.bake'));
    expect(file?.sections.map(s => s.section.name)).toEqual(['A']);
    expect(file?.sections[0]?.analysis.totals?.hydration_pct).toBeCloseTo(65, 9);
    expect(await project.prepare(at('a.bake'))).toBe(file);
    expect(project.get(at('a.bake'))).toBe(file);
    expect(read).toHaveBeenCalledTimes(1);
  });

  it('is undefined when it is not there or was never asked for', async () => {
    const { project } = projectOver({});
    expect(project.get(at('a.bake'))).toBeUndefined();
    expect(await project.prepare(at('a.bake'))).toBeUndefined();
  });

  it('is what the editor holds, not what the disk holds, until it is closed', async () => {
    const { project } = projectOver({ 'a.bake': loaf('On disk') });
    project.update(at('a.bake'), loaf('In the editor'));
    const name = async () => (await project.prepare(at('a.bake')))?.sections[0]?.section.name;
    expect(await name()).toBe('In the editor');
    expect(project.invalidate(at('a.bake'))).toBe(false);
    expect(await name()).toBe('In the editor');
    project.close(at('a.bake'));
    expect(await name()).toBe('On disk');
  });

  it('is found under any spelling of its URI, and keeps the one of the editor', async () => {
    const { project } = projectOver({});
    project.update('file:///stall/a%62.bake', loaf('A'));
    expect(project.get('file:///stall/ab.bake')?.uri).toBe('file:///stall/a%62.bake');
  });

  it('is read again after a change on disk, not before', async () => {
    const { project, files, read } = projectOver({ 'a.bake': loaf('Old') });
    await project.prepare(at('a.bake'));
    files['a.bake'] = loaf('New');
    expect((await project.prepare(at('a.bake')))?.sections[0]?.section.name).toBe('Old');
    expect(project.invalidate(at('a.bake'))).toBe(true);
    expect(project.invalidate(at('nobody-asked.bake'))).toBe(false);
    expect(project.get(at('a.bake'))?.sections[0]?.section.name).toBe('Old');
    expect((await project.prepare(at('a.bake')))?.sections[0]?.section.name).toBe('New');
    delete files['a.bake'];
    project.invalidate(at('a.bake'));
    expect(await project.prepare(at('a.bake'))).toBeUndefined();
    expect(read).toHaveBeenCalledTimes(3);
  });

  it('takes a change that comes while it is being read', async () => {
    let answer: (text: string) => void = () => undefined;
    const reader = { read: vi.fn(() => new Promise<string>(resolve => (answer = resolve))) };
    const { project } = projectOver({}, { reader });
    const prepared = project.prepare(at('a.bake'));
    project.update(at('a.bake'), loaf('Edited'));
    answer(loaf('On disk'));
    expect((await prepared)?.sections[0]?.section.name).toBe('Edited');
    // and a change on disk during a read means that the read counts for nothing
    const other = project.prepare(at('b.bake'));
    project.invalidate(at('b.bake'));
    answer(loaf('Stale'));
    await vi.waitFor(() => expect(reader.read).toHaveBeenCalledTimes(3));
    answer(loaf('Fresh'));
    expect((await other)?.sections[0]?.section.name).toBe('Fresh');
  });

  it('is parsed in turns: others are heard while it is, and an edit in between counts', async () => {
    const { project } = projectOver({ 'a.bake': Array.from({ length: 3000 }, (_, i) => loaf(`Loaf ${i}`)).join('\n') });
    const prepared = project.prepare(at('a.bake'));
    let turns = 0;
    let done = false;
    void prepared.finally(() => (done = true));
    while (!done) {
      await new Promise(resolve => setTimeout(resolve, 0));
      if (!done && ++turns === 3) project.update(at('a.bake'), loaf('Edited'));
    }
    expect(turns).toBeGreaterThanOrEqual(3);
    expect((await prepared)?.sections.map(s => s.section.name)).toEqual(['Edited']);
  });

  it('is let go of once nobody has it open', async () => {
    const { project } = projectOver({ 'b.bake': 'use "c.bake"\n', 'c.bake': loaf('C') });
    project.update(at('a.bake'), 'use "b.bake"\n');
    project.update(at('d.bake'), 'use "c.bake"\n');
    await project.prepare(at('a.bake'));
    await project.prepare(at('d.bake'));
    project.close(at('a.bake'));
    expect(project.loaded().toSorted()).toEqual([at('c.bake'), at('d.bake')]);
    project.close(at('d.bake'));
    expect(project.loaded()).toEqual([]);
  });

  it('of more than ten million characters is left alone', async () => {
    const { project } = projectOver({ 'a.bake': `formula "A"\n${'#'.repeat(LARGEST_TEXT)}` });
    const file = await project.prepare(at('a.bake'));
    expect(file?.tooLarge).toBe(true);
    expect(file?.tree.blocks).toEqual([]);
    expect(grammar.parseBlock).not.toHaveBeenCalled();
  });

  it('knows the section under an offset, and where each stands', async () => {
    const { project } = projectOver({ 'a.bake': `# note\n\n${loaf('A')}\n# more\n${loaf('B')}\n\n` });
    const file = (await project.prepare(at('a.bake')))!;
    const nameAt = (text: string) => sectionAt(file, file.text.indexOf(text))?.section.name;
    expect([nameAt('# note'), nameAt('"A"'), nameAt('# more'), nameAt('"B"')]).toEqual(['A', 'A', 'B', 'B']);
    expect(sectionAt(file, file.text.length)?.section.name).toBe('B');
    const [a, b] = file.sections.map(s => offsetsOfSection(file, s));
    expect(file.text.slice(a!.start, a!.end)).toBe(loaf('A').trimEnd());
    expect(file.text.slice(b!.start, b!.end)).toBe(loaf('B').trimEnd());
  });
});

describe('an edit costs what it touches', () => {
  it('parses the block that changed and analyses its section only', async () => {
    const text = loaf('A') + loaf('B') + loaf('C');
    const { project } = projectOver({});
    project.update(at('a.bake'), text);
    expect(analysed(await project.prepare(at('a.bake')))).toEqual(['A', 'B', 'C']);
    vi.mocked(grammar.parseBlock).mockClear();
    project.update(at('a.bake'), loaf('A') + loaf('B', 700) + loaf('C'));
    expect(analysed(project.get(at('a.bake')))).toEqual(['B']);
    expect(vi.mocked(grammar.parseBlock).mock.calls).toHaveLength(1);
  });

  it('keeps sections that only move', async () => {
    const { project } = projectOver({});
    project.update(at('a.bake'), loaf('A') + loaf('B'));
    const before = await project.prepare(at('a.bake'));
    analysed(before);
    project.update(at('a.bake'), `# a line above\n\n${loaf('B')}${loaf('A')}`);
    const after = project.get(at('a.bake'))!;
    expect(analysed(after)).toEqual(['B']); // the comment belongs to it now
    expect(after.sections[1]?.analysis).toBe(before?.sections[0]?.analysis);
    expect(after.text.slice(after.sections[1]?.offsetsOf({ block: 0, start: 0, end: 7 }).start)).toMatch(/^formula "A"/);
  });

  it('analyses nothing that is not asked for', async () => {
    const { project } = projectOver({ 'a.bake': loaf('A') });
    await project.prepare(at('a.bake'));
    expect(analyse).not.toHaveBeenCalled();
  });

  it('when the names of formulas change, analyses again what names one that is missing, and nothing else', async () => {
    const { project } = projectOver({});
    const plan = 'plan "Saturday"\n  bake 6 loaves of "C"\n';
    project.update(at('a.bake'), loaf('A') + loaf('B') + plan);
    analysed(await project.prepare(at('a.bake')));
    project.update(at('a.bake'), loaf('A') + loaf('B2') + plan);
    expect(analysed(project.get(at('a.bake')))).toEqual(['B2', 'Saturday']);
  });

  it('analyses what uses an ingredient of another file when that changes, and nothing when a formula there does', async () => {
    const pantry = (protein: number, water = 650) => `ingredient "stall flour"\n  like bread flour\n  protein ${protein} %\n\n${loaf('Other', water)}`;
    const { project } = projectOver({});
    project.update(at('pantry.bake'), pantry(12));
    project.update(at('a.bake'), `use "pantry.bake"\n\n${loaf('A').replace('bread flour', 'stall flour')}`);
    analysed(await project.prepare(at('a.bake')));
    project.update(at('pantry.bake'), pantry(12, 700));
    expect(analysed(project.get(at('a.bake')))).toEqual([]);
    project.update(at('pantry.bake'), pantry(14));
    expect(analysed(project.get(at('a.bake')))).toContain('A');
    expect(project.get(at('a.bake'))?.sections.find(s => s.section.name === 'A')?.analysis.totals?.flour_protein_pct).toBeCloseTo(14, 9);
  });

  it('works variants out again when their base changes, in other files and over other variants, and nothing else', async () => {
    const { project } = projectOver({ 'base.bake': loaf('Base') + loaf('Other') });
    project.update(at('v.bake'), 'use "base.bake"\n\nformula "V"\n  based on "Base"\n  drop salt\n');
    project.update(at('w.bake'), `use "v.bake"\n\nformula "W"\n  based on "V"\n\n${loaf('Apart')}`);
    const water = (name: string): number | undefined => project.get(at(name))?.sections.find(({ section }) => section.name === 'V' || section.name === 'W')?.analysis.totals?.hydration_pct ?? undefined;
    analysed(await project.prepare(at('v.bake')));
    analysed(await project.prepare(at('w.bake')));
    const before = water('w.bake');
    // The base is open in no editor: it changes on disk, or another file brings it in.
    project.update(at('base.bake'), loaf('Base', 700) + loaf('Other'));
    expect(analysed(project.get(at('w.bake')))).toEqual(['W']);
    expect(analysed(project.get(at('v.bake')))).toEqual(['V']);
    expect(water('w.bake')).toBeGreaterThan(before ?? Infinity);
    expect(water('v.bake')).toBe(water('w.bake'));
    project.update(at('base.bake'), loaf('Base', 700) + loaf('Other', 800));
    expect(analysed(project.get(at('w.bake')))).toEqual([]);
    expect(analysed(project.get(at('v.bake')))).toEqual([]);
  });
});

describe('use', () => {
  it('brings in ingredients and formulas, through any number of files', async () => {
    const { project, read } = projectOver({
      'a.bake': `use "b.bake"\n\n${loaf('A').replace('bread flour', 'far flour')}`,
      'b.bake': `use "shelf/c.bake"\n\n${loaf('B')}`,
      'shelf/c.bake': `use "../a.bake"\n\ningredient "far flour"\n  like bread flour\n`,
    });
    const file = await project.prepare(at('a.bake'));
    expect(file?.visible.map(v => v.uri)).toEqual([at('b.bake'), at('shelf/c.bake')]);
    expect([...(file?.environment.formulas.keys() ?? [])]).toEqual(['a', 'b']);
    expect(codes(file)).not.toContain('unknown-ingredient');
    expect(read).toHaveBeenCalledTimes(3);
    expect(project.dependents(at('shelf/c.bake')).toSorted()).toEqual([at('a.bake'), at('b.bake')]);
    expect(project.dependents(at('a.bake')).toSorted()).toEqual([at('b.bake'), at('shelf/c.bake')]);
  });

  it('takes the nearest word on an ingredient: this file, then the file it uses', async () => {
    const own = (protein: number) => `ingredient "stall flour"\n  like bread flour\n  protein ${protein} %\n`;
    const { project } = projectOver({
      'a.bake': `use "b.bake"\n${own(11)}`, 'b.bake': `use "c.bake"\n${own(13)}`, 'c.bake': own(15), 'd.bake': 'use "b.bake"\n',
    });
    const protein = async (name: string) => (await project.prepare(at(name)))?.environment.catalogue.find('stall flour')?.composition.protein;
    expect([await protein('a.bake'), await protein('d.bake'), await protein('c.bake')]).toEqual([11, 13, 15]);
  });

  it.each([
    ['missing.bake', 'not-found'], ['../x.bake', 'outside'], ['a.bake', 'itself'], ['notes.txt', 'not-bake'],
  ])('%s is a problem: %s', async (path, problem) => {
    const { project } = projectOver({ 'a.bake': `use "${path}"\n`, 'notes.txt': 'secret' });
    const file = await project.prepare(at('a.bake'));
    expect(file?.uses.map(use => use.problem)).toEqual([problem]);
    expect(codes(file)).toHaveLength(1);
  });

  it('is out of reach once the folders are others', async () => {
    const { project } = projectOver({ 'shelf/c.bake': 'use "../a.bake"\n', 'a.bake': loaf('A') });
    const seen = async () => {
      const file = await project.prepare(at('shelf/c.bake'));
      return [file?.visible.map(({ uri }) => uri), file?.uses.map(({ problem }) => problem), project.dependents(at('a.bake'))];
    };
    expect(await seen()).toEqual([[at('a.bake')], [undefined], [at('shelf/c.bake')]]);
    project.configure({ roots: [`${root}/shelf`] });
    expect(await seen()).toEqual([[], ['outside'], []]);
  });

  it('is found by any number of files at once', async () => {
    const { project } = projectOver({ 'a.bake': 'use "b.bake"\n', 'b.bake': 'use "c.bake"\n', 'c.bake': loaf('C'), 'd.bake': loaf('D'), 'e.bake': 'use "d.bake"\n' });
    for (const name of ['a', 'e']) await project.prepare(at(`${name}.bake`));
    expect(project.dependents(at('c.bake'), at('d.bake'))).toEqual([at('b.bake'), at('e.bake'), at('a.bake')]);
    expect(project.dependents(at('b.bake'), at('c.bake'))).toEqual([at('a.bake')]);
  });

  it('never reads what a path may not name', async () => {
    const { project, read } = projectOver({ 'a.bake': 'use "../x.bake"\nuse "/etc/x.bake"\nuse "c:/x.bake"\nuse "x.txt"\nuse "a.bake"\n' });
    await project.prepare(at('a.bake'));
    expect(read.mock.calls).toEqual([[at('a.bake')]]);
  });

  it('finds the file once it is there, and misses it once it is gone', async () => {
    const { project, files } = projectOver({ 'a.bake': 'use "b.bake"\n' });
    const problems = async () => (await project.prepare(at('a.bake')))?.uses.map(use => use.problem);
    expect(await problems()).toEqual(['not-found']);
    files['b.bake'] = loaf('B');
    project.invalidate(at('b.bake'));
    expect(project.dependents(at('b.bake'))).toEqual([at('a.bake')]);
    expect(await problems()).toEqual([undefined]);
    delete files['b.bake'];
    project.invalidate(at('b.bake'));
    expect(await problems()).toEqual(['not-found']);
  });

  it('does not call a file missing that has not been looked for', () => {
    const { project } = projectOver({});
    project.update(at('a.bake'), 'use "b.bake"\n');
    expect(project.get(at('a.bake'))?.uses.map(use => use.problem)).toEqual([undefined]);
  });

  it('goes back to the file on disk when a used file is closed', async () => {
    const { project } = projectOver({ 'a.bake': 'use "b.bake"\n', 'b.bake': loaf('On disk') });
    project.update(at('b.bake'), loaf('In the editor'));
    const names = async () => [...((await project.prepare(at('a.bake')))?.environment.formulas.keys() ?? [])];
    expect(await names()).toEqual(['in the editor']);
    project.close(at('b.bake'));
    expect(await names()).toEqual(['on disk']);
  });
});

describe('settings', () => {
  it('weigh a cup as they say', async () => {
    const { project } = projectOver({ 'a.bake': 'formula "A"\n\ndough\n  500 g bread flour\n  1 cup water\n' });
    const grams = async () => (await project.prepare(at('a.bake')))?.sections[0]?.analysis.totals?.dough_g;
    const us = await grams();
    project.configure({ measures: 'metric' });
    expect(await grams()).toBeGreaterThan(us!);
    project.configure({ measures: 'us' });
    expect(await grams()).toBe(us);
  });
});

describe('faults', () => {
  it('silence the section, are told, and leave the rest alone', async () => {
    const told: string[] = [];
    const { project } = projectOver({ 'a.bake': loaf('A') + loaf('B') }, { onFault: code => told.push(code) });
    vi.mocked(analyse).mockImplementationOnce(() => {
      throw new Error('a fault');
    });
    const file = await project.prepare(at('a.bake'));
    expect(file?.sections.map(s => s.analysis.formula?.name)).toEqual([undefined, 'B']);
    expect(told).toEqual(['analysis']);
  });
});

describe('names that stand twice', () => {
  /** What is said of names, as `file:line`, with the places it relates to. */
  const told = (file: ProjectFile | undefined) => (file === undefined ? [] : file.sections.flatMap(section => section.analysis.findings
    .filter(({ code }) => code === 'formula-twice' || code === 'ingredient-twice')
    .map(finding => {
      const place = (where: LoadedFile, line: number) => `${where.uri.slice(root.length + 1)}:${line + 1}`;
      const others = finding.related.flatMap(one => placesOfRelated(file, section, finding, one).map(({ file: where, range }) => place(where, range.start.line)));
      return `${place(file, rangeOfPlace(file, section, finding.place).start.line)} -> ${others.join(', ')}`;
    })));

  it('in one file are told at each of them, with the others', async () => {
    const { project } = projectOver({ 'a.bake': `${loaf('A')}\n${loaf('B')}\n${loaf('a  ', 700)}` });
    expect(told(await project.prepare(at('a.bake')))).toEqual(['a.bake:1 -> a.bake:17', 'a.bake:17 -> a.bake:1']);
  });

  it('and with the very same text', async () => {
    const { project } = projectOver({ 'a.bake': `${loaf('A')}\n${loaf('A')}\n${loaf('A')}` });
    expect(told(await project.prepare(at('a.bake')))).toEqual(['a.bake:1 -> a.bake:9, a.bake:17', 'a.bake:9 -> a.bake:1, a.bake:17', 'a.bake:17 -> a.bake:1, a.bake:9']);
  });

  it('with one of a file that is used, however far away, are told where both can be seen', async () => {
    const files = { 'a.bake': `use "b.bake"\n\n${loaf('A')}`, 'b.bake': `use "c.bake"\n\n${loaf('B')}`, 'c.bake': loaf('A', 700) };
    for (const first of ['a.bake', 'b.bake', 'c.bake']) {
      const { project } = projectOver(files);
      await project.prepare(at(first));
      expect(told(await project.prepare(at('a.bake')))).toEqual(['a.bake:3 -> c.bake:1']);
      expect(told(await project.prepare(at('b.bake')))).toEqual([]);
      expect(told(await project.prepare(at('c.bake')))).toEqual([]);
    }
  });

  it('in two files that are used, and not here, are told at both `use` lines', async () => {
    const files = { 'a.bake': `use "b.bake"\nuse "c.bake"\n\n${loaf('D')}`, 'b.bake': loaf('A'), 'c.bake': loaf('A', 700) };
    for (const order of [['b.bake', 'c.bake'], ['c.bake', 'b.bake']]) {
      const { project } = projectOver(files);
      for (const name of order) await project.prepare(at(name));
      expect(told(await project.prepare(at('a.bake')))).toEqual(['a.bake:1 -> b.bake:1, c.bake:1', 'a.bake:2 -> b.bake:1, c.bake:1']);
    }
  });

  it('are not told again where one file that is used sees both, nor of one file that two bring in', async () => {
    const { project } = projectOver({
      'a.bake': `use "b.bake"\nuse "c.bake"\n\n${loaf('D')}`, 'b.bake': `use "c.bake"\n\n${loaf('A')}`, 'c.bake': loaf('A', 700),
      'e.bake': 'use "f.bake"\nuse "g.bake"\n', 'f.bake': 'use "c.bake"\n', 'g.bake': 'use "c.bake"\n',
    });
    expect(told(await project.prepare(at('a.bake')))).toEqual([]);
    expect(told(await project.prepare(at('b.bake')))).toEqual(['b.bake:3 -> c.bake:1']);
    expect(told(await project.prepare(at('e.bake')))).toEqual([]);
  });

  it('in a circle of files are one formula', async () => {
    const { project } = projectOver({ 'a.bake': `use "b.bake"\n\n${loaf('A')}`, 'b.bake': `use "a.bake"\n\n${loaf('B')}` });
    expect(told(await project.prepare(at('a.bake')))).toEqual([]);
  });

  it('are told anew when the other one gets another name', async () => {
    const { project } = projectOver({ 'a.bake': `use "b.bake"\n\n${loaf('A')}`, 'b.bake': loaf('B') });
    expect(told(await project.prepare(at('a.bake')))).toEqual([]);
    project.update(at('b.bake'), loaf('A', 700));
    expect(told(await project.prepare(at('a.bake')))).toEqual(['a.bake:3 -> b.bake:1']);
    project.update(at('b.bake'), loaf('C', 700));
    expect(told(await project.prepare(at('a.bake')))).toEqual([]);
  });

  it('of ingredients are told within a file; another file may have its own', async () => {
    const rye = (water: number) => `ingredient "Stall rye"\n  like dark rye flour\n  water ${water} %\n`;
    const { project } = projectOver({ 'a.bake': `use "b.bake"\n\n${rye(12)}\n${loaf('A')}\n${rye(13)}`, 'b.bake': rye(14) });
    expect(told(await project.prepare(at('a.bake')))).toEqual(['a.bake:3 -> a.bake:15', 'a.bake:15 -> a.bake:3']);
    expect(told(await project.prepare(at('b.bake')))).toEqual([]);
  });
});
