/** What the editor gets to save: the formula at the cursor or all of a file, by the time that a plan or the baker says. */
import { expect, test } from 'vitest';
import { exportAt } from '../../server/features/export';
import { marked, uriOf } from './marked';

const BOOK = `formula "Rye"
  makes     2 loaves of 600 g

dough
  700 g     bread flour
  485 g     water
  15 g      salt

steps
  mix       10 min
  bulk      3 h at 24 C
  bake      40 min at 240 C

formula "Oat loaf"
  makes     1 loaf of 850 g

dough
  500 g     bread flour
  ┆340 g     water
  10 g      salt
`;
const PLAN = `
plan "Market"
  ready     2027-03-13 08:00 Europe/Lisbon
  oven      holds 4 loaves
  bake      2 loaves of "Rye"
`;
const NOW = Date.UTC(2027, 0, 1);

test('without a form it says what there is: the formula at the cursor, how many the file has, and its time', async () => {
  const { file, offset } = await marked(BOOK + PLAN);
  expect(exportAt(file, offset, {}, NOW)).toEqual({ kind: 'choices', title: 'Oat loaf', count: 2, time: undefined });
  expect(exportAt(file, 5, {}, NOW)).toEqual({ kind: 'choices', title: 'Rye', count: 2, time: 'Begin Sat 04:10, ready Sat 08:00' });
});

test('with a form its text, and a name to save it by', async () => {
  const { file, offset } = await marked(BOOK);
  const answer = exportAt(file, offset, { form: 'markdown' }, NOW);
  expect(answer).toMatchObject({ kind: 'text', title: 'Oat loaf', fileName: 'oat-loaf.md' });
  expect(answer).toHaveProperty('text', expect.stringMatching(/^# Oat loaf\n/));
});

test('all of a file go into one text, named after the file', async () => {
  const { file, offset } = await marked(BOOK);
  const answer = exportAt(file, offset, { form: 'html', all: true }, NOW);
  expect(answer).toMatchObject({ kind: 'text', title: '2 formulas', fileName: 'main.html' });
  expect([...(answer as { text: string }).text.matchAll(/<article/g)]).toHaveLength(2);
});

test('by the time of a plan, and by one that the baker chose', async () => {
  const planned = await marked(BOOK + PLAN);
  expect(exportAt(planned.file, 5, { form: 'markdown' }, NOW)).toHaveProperty('text', expect.stringContaining('Begun Sat 13 March 2027 04:10, ready Sat 13 March 2027 08:00'));
  expect(exportAt(planned.file, 5, { form: 'ics' }, NOW)).toMatchObject({ kind: 'text', fileName: 'rye.ics', text: expect.stringContaining('DTSTART:20270313T041000Z') });

  const { file, project } = await marked(BOOK);
  expect(exportAt(file, 5, { form: 'ics' }, NOW)).toEqual({ kind: 'cannot', message: 'A calendar needs a time that can be kept: choose one with "Schedule for a Ready Time…" first.' });
  project.chooseTimes([{ uri: uriOf('main.bake'), formula: 'Rye', zone: 'Europe/Lisbon', anchor: { kind: 'ready', epochMs: Date.UTC(2027, 2, 14, 9) } }]);
  expect(exportAt((await project.prepare(uriOf('main.bake')))!, 5, { form: 'ics' }, NOW)).toMatchObject({ text: expect.stringContaining('DTSTART:20270314T051000Z') });
});

test('with the cursor in no formula the one above is meant, and a file without any has nothing', async () => {
  const { file } = await marked(BOOK + PLAN);
  expect(exportAt(file, BOOK.length + 20, {}, NOW)).toMatchObject({ title: 'Oat loaf' });
  const { file: none } = await marked('use "pantry.bake"\n');
  expect(exportAt(none, 0, {}, NOW)).toBeNull();
});

test('a form that there is not is refused with those that there are', async () => {
  const { file } = await marked(BOOK);
  expect(exportAt(file, 0, { form: 'pdf' }, NOW)).toEqual({ kind: 'cannot', message: 'There is no form "pdf". Forms are html, markdown, csv, ics, jsonld, json.' });
});
