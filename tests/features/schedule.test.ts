/** When a formula is begun and ready, wherever the editor says so: a lens, the answer while a time is typed, hovers, findings and ways out. */
import { describe, expect, it } from 'vitest';
import { codeLensesOf } from '../../server/features/codelens';
import { scheduleOfAsked } from '../../server/features/schedule';
import type { ProjectFile } from '../../server/project/file';
import { marked, RYE, uriOf } from './marked';

const NAME = 'Fig and walnut rye';
const saturday = (local = '2026-03-14T08:00', kind: 'ready' | 'start' = 'ready') => (
  { formula: NAME, zone: 'Europe/Lisbon', anchor: { kind, local, epochMs: Date.parse(`${local}:00Z`) } } as const
);

/** A text with a time chosen for its formula. */
async function chosen(source = RYE, { settings = {}, time = saturday() }: { readonly settings?: object; readonly time?: ReturnType<typeof saturday> } = {}) {
  const { project, ...rest } = await marked(source, { 'proofsheet.json': JSON.stringify(settings) });
  project.chooseTimes([{ uri: uriOf('main.bake'), ...time }]);
  return { ...rest, project, file: project.get(uriOf('main.bake'))! };
}

const lensesOf = (file: ProjectFile, scheduleCommand = 'proofsheet.scheduleFormula') => (
  codeLensesOf(file, { previewCommand: '', scheduleCommand }).map(({ command }) => command!)
);

describe('the line above a formula', () => {
  it('leads to a ready time where none is chosen', async () => {
    const [, lens] = lensesOf((await marked(RYE)).file);
    expect(lens).toEqual({ title: 'Schedule: ready by…', command: 'proofsheet.scheduleFormula', arguments: [uriOf('main.bake'), NAME] });
  });

  it('is not there where nobody can choose one, nor where there are no steps', async () => {
    expect(lensesOf((await marked(RYE)).file, '').map(({ title }) => title).join()).not.toContain('Schedule');
    expect(lensesOf((await marked('formula "A"\n\ndough\n  500 g bread flour\n')).file).map(({ title }) => title).join()).not.toContain('Schedule');
  });

  it('says when it is begun and ready by the time that is chosen', async () => {
    const { file } = await chosen();
    const [, lens] = lensesOf(file);
    expect(lens?.title).toMatch(/^Begin Thu \d\d:\d\d, ready Sat 08:00$|^Begin Fri \d\d:\d\d, ready Sat 08:00$/);
    expect(lens?.command).toBe('proofsheet.scheduleFormula');
  });

  it('goes by the clock of the settings file', async () => {
    const { file } = await chosen(RYE, { settings: { zone: 'Europe/Paris' } });
    expect(lensesOf(file)[1]?.title).toMatch(/ready Sat 08:00$/);
  });

  it('says what cannot be', async () => {
    const { file } = await chosen(RYE, { settings: { away: '00:00 to 24:00' } });
    expect(lensesOf(file)[1]?.title).toBe('Cannot be ready Sat 08:00');
  });
});

describe('what is chosen', () => {
  it('is news once', async () => {
    const { project, file } = await chosen();
    expect(project.chooseTimes([{ uri: uriOf('main.bake'), ...saturday() }])).toBe(false);
    expect(project.get(uriOf('main.bake'))).toBe(file);
    expect(project.chooseTimes([])).toBe(true);
    expect(lensesOf(project.get(uriOf('main.bake'))!)[1]?.title).toBe('Schedule: ready by…');
  });

  it('leaves the analyses alone', async () => {
    const { project, file } = await marked(RYE);
    const before = file.sections[0]!.analysis;
    project.chooseTimes([{ uri: uriOf('main.bake'), ...saturday() }]);
    expect(project.get(uriOf('main.bake'))!.sections[0]!.analysis).toBe(before);
  });
});

describe('a time that is typed', () => {
  const typed = async (text: string, kind: 'ready' | 'start' = 'ready', settings: object = {}) => {
    const { file } = await marked(RYE, { 'proofsheet.json': JSON.stringify(settings) });
    return scheduleOfAsked(file, { formula: NAME, zone: 'Europe/Lisbon', wanted: { kind, text } });
  };

  it('is answered with what it would give', async () => {
    expect(await typed('2026-03-14 08:00')).toMatchObject({
      kind: 'time', fits: true, local: '2026-03-14T08:00', zone: 'Europe/Lisbon', epochMs: Date.UTC(2026, 2, 14, 8), words: expect.stringMatching(/^Begin (Thu|Fri) .* ready Sat 08:00/),
    });
    expect(await typed('2026-03-13 06:00', 'start')).toMatchObject({ kind: 'time', words: expect.stringMatching(/^Begin Fri 06:00, ready /) });
  });

  it('is on the clock of the settings file', async () => {
    expect(await typed('2026-03-14 08:00', 'ready', { zone: 'Europe/Paris' })).toMatchObject({ zone: 'Europe/Paris', epochMs: Date.UTC(2026, 2, 14, 7) });
  });

  it('that is none is answered with what to write', async () => {
    expect(await typed('2026-03-14')).toEqual({ kind: 'cannot', message: '2026-03-14 has no time of day. Write it after the date: 2026-03-14 08:00.' });
    expect(await typed('2026-03-29 01:30')).toMatchObject({ kind: 'cannot', message: expect.stringContaining('the clocks go forward past it') });
  });

  it('that cannot be is said with why', async () => {
    expect(await typed('2026-03-14 08:00', 'ready', { away: '00:00 to 24:00' })).toMatchObject({ kind: 'time', fits: false, words: expect.stringMatching(/^Cannot be ready Sat 08:00\. \S/) });
  });
});

it('what holds now is said with the formula at the cursor', async () => {
  const { file, offset } = await chosen(RYE.replace('levain\n', 'lev┆ain\n'));
  const position = file.lineIndex.positionAt(offset);
  expect(scheduleOfAsked(file, { position, zone: 'Europe/Lisbon' })).toEqual({
    kind: 'now', title: NAME, formulaName: NAME, zone: 'Europe/Lisbon', chosen: { kind: 'ready', text: '2026-03-14 08:00' }, plan: undefined,
  });
  expect(scheduleOfAsked(file, { formula: 'Another', zone: 'Europe/Lisbon' })).toBeUndefined();
});
