/** When a formula is begun and ready, wherever the editor says so: a lens, the answer while a time is typed, hovers, findings and ways out. */
import { describe, expect, it } from 'vitest';
import type { MarkupContent } from 'vscode-languageserver';
import { codeActionsOf } from '../../server/features/code-actions';
import { codeLensesOf } from '../../server/features/codelens';
import { diagnosticsOf } from '../../server/features/diagnostics';
import { hoverAt } from '../../server/features/hover';
import { scheduleOfAsked } from '../../server/features/schedule';
import type { ProjectFile } from '../../server/project/file';
import { edited, marked, RYE, textIn, uriOf } from './marked';

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
    const [lens] = lensesOf((await marked(RYE)).file);
    expect(lens).toEqual({ title: 'Schedule: ready by…', command: 'proofsheet.scheduleFormula', arguments: [uriOf('main.bake'), NAME] });
  });

  it('is not there where nobody can choose one, nor where there are no steps', async () => {
    expect(lensesOf((await marked(RYE)).file, '').map(({ title }) => title).join()).not.toContain('Schedule');
    expect(lensesOf((await marked('formula "A"\n\ndough\n  500 g bread flour\n')).file).map(({ title }) => title).join()).not.toContain('Schedule');
  });

  it('says when it is begun and ready by the time that is chosen', async () => {
    const { file } = await chosen();
    const [lens] = lensesOf(file);
    expect(lens?.title).toMatch(/^Begin Thu \d\d:\d\d, ready Sat 08:00$|^Begin Fri \d\d:\d\d, ready Sat 08:00$/);
    expect(lens?.command).toBe('proofsheet.scheduleFormula');
  });

  it('goes by the clock of the settings file', async () => {
    const { file } = await chosen(RYE, { settings: { zone: 'Europe/Paris' } });
    expect(lensesOf(file)[0]?.title).toMatch(/ready Sat 08:00$/);
  });

  it('says what cannot be', async () => {
    const { file } = await chosen(RYE, { settings: { away: '00:00 to 24:00' } });
    expect(lensesOf(file)[0]?.title).toBe('Cannot be ready Sat 08:00');
  });
});

describe('what is chosen', () => {
  it('is news once', async () => {
    const { project, file } = await chosen();
    expect(project.chooseTimes([{ uri: uriOf('main.bake'), ...saturday() }])).toBe(false);
    expect(project.get(uriOf('main.bake'))).toBe(file);
    expect(project.chooseTimes([])).toBe(true);
    expect(lensesOf(project.get(uriOf('main.bake'))!)[0]?.title).toBe('Schedule: ready by…');
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

describe('a hover', () => {
  const hover = async (source: string, how: Parameters<typeof chosen>[1] = {}) => {
    const { file, offset } = await chosen(source, how);
    return (hoverAt(file, offset)?.contents as MarkupContent).value;
  };

  it('on a step says when it is, how far it may move, and who is needed', async () => {
    // 08:00 less 2 h of cooling, 20 min and 25 min of baking.
    expect(await hover(RYE.replace('  cool', '  co┆ol'))).toMatch(/^\*\*Sat 06:00 – 08:00\*\*/);
    expect(await hover(RYE.replace('  mix', '  m┆ix'))).toMatch(/^\*\*Fri [\d:]+ – [\d:]+\*\*\n\nCan begin from [\d:]+ to [\d:]+, the other steps moving within their ranges\\.\n\nHands needed all the while\./);
    expect(await hover(RYE.replace('  cool', '  co┆ol'))).not.toContain('Can begin');
    expect(await hover(RYE.replace('  retard', '  re┆tard'))).toContain('Into the fridge at ');
    expect(await hover(RYE.replace('10 to 16 h', '10 to┆ 16 h'))).toMatch(/^\*\*Fri /);
  });

  it('on a step that comes round says each time', async () => {
    const text = RYE.replace('    coil fold at 120 min\n', '    coil f┆old every 30 min, 3 times\n');
    expect(await hover(text)).toMatch(/^\*\*Fri \d\d:\d\d, Fri \d\d:\d\d, Fri \d\d:\d\d\*\*\n/);
  });

  it('on the head of the method sums it up, on a part says when it is put together', async () => {
    expect(await hover(RYE.replace('\nsteps', '\nst┆eps'))).toMatch(/\*\*Begin (Thu|Fri) [\d:]+, ready Sat 08:00\*\*\n\n\d+ h.* in all, hands at work for .* of it\./);
    expect(await hover(RYE.replace('\nlevain', '\nle┆vain'))).toMatch(/\*\*(Thu|Fri) [\d:]+ – [\d:]+\*\*: mix the levain/);
  });

  it('says why a length is not as written in the room of today', async () => {
    const text = await hover(RYE.replace('    at 24 C\n', '\n').replace('bulk        3 h 30 min at 24 C', 'bu┆lk        3 h 30 min'), { settings: { roomTodayCelsius: 28 } });
    expect(text).toMatch(/, not 3 h 30 min as written: /);
  });

  it('says why there is no time, where there is none', async () => {
    expect(await hover(RYE.replace('\nsteps', '\nst┆eps'), { settings: { asleep: '22:30 to 06:30' } })).toMatch(/\*\*Cannot be ready Sat 08:00\*\*\n\nTo be ready .*\n\nWhat would do:\n\n- /);
  });
});

const LATE = `formula "${NAME}"
  makes 2 loaves

dough
  500 g bread flour
  340 g water
  10 g salt
  1 g instant yeast

steps
  mix 10 min
  bulk 3 h
  retard 10 to 12 h at 4 C
  bake 40 min at 240 C
  cool 1 h
`;

const show = { relatedInformation: true, codeDescription: false } as const;

describe('a time that cannot be kept', () => {
  // In at 06:20, so in the fridge at 20:20 at the latest and mixed at 17:10: nobody is there before 18:00.
  const late = () => chosen(LATE, { settings: { away: '07:30 to 18:00', asleep: '22:30 to 05:30' }, time: saturday() });

  it('is found at the name of the formula, with the lines that have to do with it', async () => {
    const { file } = await late();
    const found = diagnosticsOf(file, show).filter(({ code }) => code === 'schedule-impossible');
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ severity: 2, message: expect.stringMatching(/^To be ready Sat /) });
    expect(textIn(LATE, found[0]!.range)).toContain(NAME);
    expect(found[0]!.relatedInformation!.length).toBeGreaterThan(0);
    for (const { message, location } of found[0]!.relatedInformation!) expect(textIn(LATE, location.range)).toContain(message.split(' ')[0]);
  });

  it('is no finding without a time, nor with one that can be kept', async () => {
    const codes = (file: ProjectFile) => diagnosticsOf(file, show).map(({ code }) => code);
    expect(codes((await marked(LATE, { 'proofsheet.json': '{ "away": "07:30 to 18:00", "asleep": "22:30 to 05:30" }' })).file)).not.toContain('schedule-impossible');
    expect(codes((await chosen(LATE)).file)).not.toContain('schedule-impossible');
  });

  it('has its ways out as fixes, each of which takes it away', async () => {
    const { file, project } = await late();
    const head = file.lineIndex.rangeOf(10, 10);
    const fixes = codeActionsOf(file, head, { diagnostics: [], version: 1, documentChanges: false, snippets: true }).filter(({ kind, edit }) => kind === 'quickfix' && edit);
    expect(fixes.map(({ title }) => title).join('; ')).toMatch(/instead of/);
    expect(fixes.map(({ title }) => title).join('; ')).not.toContain('Accept schedule-impossible');
    for (const { edit } of fixes.filter(({ title }) => title.includes('instead of'))) {
      project.update(uriOf('main.bake'), edited(LATE, edit!.changes![uriOf('main.bake')]!));
      expect(diagnosticsOf(project.get(uriOf('main.bake'))!, show).map(({ code }) => code)).not.toContain('schedule-impossible');
    }
  });
});

const PLAN = `${LATE}
plan "Market"
  ready     2026-03-14 08:00 Europe/Lisbon
  asleep    22:30 to 05:30
  oven      holds 4 loaves
  bake      6 loaves of "${NAME}"
`;

describe('a plan that bakes a formula', () => {
  it('says when it is begun and ready, and goes before what was chosen', async () => {
    const { file } = await chosen(PLAN, { time: saturday('2026-04-04T18:00') });
    expect(lensesOf(file)[0]?.title).toMatch(/^Begin Fri [\d:]+, ready Sat 08:00$/);
    expect(scheduleOfAsked(file, { formula: NAME, zone: 'UTC' })).toMatchObject({
      plan: { name: 'Market', uri: uriOf('main.bake'), line: PLAN.split('\n').findIndex(line => line.startsWith('  ready')) },
    });
  });

  it('by an order with a time of its own', async () => {
    const { file } = await marked(PLAN.replace(`loaves of "${NAME}"`, `loaves of "${NAME}", ready 07:30`));
    expect(lensesOf(file)[0]?.title).toMatch(/ready Sat 07:30$/);
  });

  it('without a zone is on the clock of the settings', async () => {
    const { file } = await marked(PLAN.replace(' Europe/Lisbon', ''), { 'proofsheet.json': '{ "zone": "Asia/Tokyo" }' });
    const answer = scheduleOfAsked(file, { formula: NAME, zone: 'UTC', wanted: { kind: 'ready', text: '2026-03-14 08:00' } });
    expect(answer).toMatchObject({ zone: 'Asia/Tokyo' });
    expect(lensesOf(file)[0]?.title).toMatch(/ready Sat 08:00$/);
  });

  it('whose hours leave no time is found at the order, with the lines of the plan and of the formula', async () => {
    const text = PLAN.replace('oven ', 'away      07:30 to 18:00\n  oven ');
    const { file } = await marked(text);
    const found = diagnosticsOf(file, show).filter(({ code }) => code === 'schedule-impossible');
    expect(found.map(({ range }) => textIn(text, range))).toEqual([`bake      6 loaves of "${NAME}"`]);
    const lines = found[0]!.relatedInformation!.map(({ location }) => textIn(text, location.range));
    expect(lines).toContain('away      07:30 to 18:00');
    expect(lines.some(line => line.startsWith('retard'))).toBe(true);
  });

  it('in a file of its own: its fixes are made in the file of the formula', async () => {
    const plan = `use "late.bake"\n${PLAN.slice(LATE.length).replace('oven ', 'away      07:30 to 18:00\n  oven ')}`;
    const { file } = await marked(plan, { 'late.bake': LATE });
    const [found] = diagnosticsOf(file, show).filter(({ code }) => code === 'schedule-impossible');
    const fixes = codeActionsOf(file, found!.range, { diagnostics: [found!], version: 1, documentChanges: true, snippets: true })
      .filter(({ title }) => title.includes('instead of'));
    expect(fixes.length).toBeGreaterThan(0);
    for (const { edit } of fixes) expect(edit?.documentChanges).toMatchObject([{ textDocument: { uri: uriOf('late.bake'), version: null } }]);
  });
});

it('an order of a plan that cannot be done at its time is done some hours before, as on a bake day', async () => {
  // Whatever comes out of the oven before 08:00 comes out by 04:00, and is cool an hour later.
  const { file } = await marked(PLAN.replace('asleep    22:30 to 05:30', 'away      04:00 to 08:00'));
  expect(diagnosticsOf(file, show).map(({ code }) => code)).not.toContain('schedule-impossible');
  expect(lensesOf(file)[0]?.title).toMatch(/^Begin Fri [\d:]+, ready Sat 0[3-5]:\d\d$/);
});

describe('a hover in a plan', () => {
  const hover = async (source: string) => {
    const { file, offset } = await marked(source);
    return (hoverAt(file, offset)?.contents as MarkupContent).value;
  };

  it('on an order says its doughs, its loads and its times', async () => {
    const words = await hover(PLAN.replace('  bake      6', '  bake      ┆6'));
    expect(words).toMatch(/^6 loaves · \d+ g in all · 3 times what is written\n\n2 oven loads of 3 and 3\n\n\*\*Begin Fri [\d:]+, ready Sat 08:00\*\*\n\nThis is one dough by itself/);
    expect(await hover(PLAN.replace('  bake      6', '  ba┆ke      6'))).toContain('2 oven loads');
  });

  it('on the ready time says when each order is begun', async () => {
    expect(await hover(PLAN.replace('  ready ', '  re┆ady '))).toMatch(/^- Fig and walnut rye: Begin Fri [\d:]+, ready Sat 08:00\n/);
  });

  it('on hours off says when they are on that day, or that they do not matter', async () => {
    expect(await hover(PLAN.replace('22:30 to', '22:┆30 to'))).toBe('No step that needs a hand is placed in these hours:\n\n- Fri 22:30 – 05:30 Sat');
    expect(await hover(PLAN.replace('asleep    22:30 to 05:30', 'away      09:00 t┆o 17:00 on Sun'))).toBe('No step of this plan comes near these hours.');
  });
});
