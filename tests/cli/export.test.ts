/** `proofsheet export` as a person runs it: where it goes, what is left alone, and what it says. */
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { ran } from './in-process';
import { proofsheet, workspace } from './program';

const BOOK = `formula "Rye & Pão"
  makes     2 loaves of 800 g
  loses     12 % in the oven

levain
  60 g      dark rye flour
  60 g      water
  12 g      starter
  ripen     8 h at 24 C

dough
  868 g     bread flour
  580 g     water
  all       levain
  20 g      salt

steps
  mix       10 min
  bulk      3 h at 24 C
  bake      40 min at 240 C

formula "Con"
  makes     1 loaf of 850 g

dough
  100 %     bread flour
  68 %      water
  2 %       salt
  0.6 %     instant yeast
`;

const CONFLICT = `formula "Too tight"
  makes     1 loaf of 800 g

dough
  500 g     bread flour
  300 g     water

steps
  mix       10 min
  rest      14 h, attended
  bake      40 min at 230 C
`;

const files = (folder: string): readonly string[] => readdirSync(folder).sort();

describe('where it goes', () => {
  test('without --out to standard output, every formula in one text', async () => {
    const { status, out, err } = await proofsheet(['export', '-', '--to', 'markdown'], { input: BOOK });
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(/^# Rye \\& Pão\n/);
    expect(out).toMatch(/\n---\n\n# Con\n/);
  });

  test('into a file, whose ending says the form', async () => {
    const folder = workspace({ 'book.bake': BOOK });
    const { status, err, out } = await proofsheet(['export', 'book.bake', '--formula', 'rye & pão', '--out', 'card.html'], { cwd: folder });
    expect({ status, err, out }).toEqual({ status: 0, err: 'Wrote card.html.\n', out: '' });
    expect(readFileSync(path.join(folder, 'card.html'), 'utf8')).toMatch(/^<!DOCTYPE html>[\s\S]*<h1 class="title" id="title-1">Rye &amp; Pão<\/h1>[\s\S]*<\/html>\n$/);
    expect(files(folder)).toEqual(['book.bake', 'card.html']);
  });

  test('into a folder, which is made, a file each by a name that every disk takes', async () => {
    const folder = workspace({ 'a.bake': BOOK, 'b.bake': BOOK.replaceAll('Con', 'Rye/Pao!') });
    const { status, err } = await proofsheet(['export', 'a.bake', 'b.bake', '--to', 'csv', '--out', 'cards/new/'], { cwd: folder });
    expect(status).toBe(0);
    const names = ['rye-pao.csv', 'con-formula.csv', 'rye-pao-2.csv', 'rye-pao-3.csv'];
    expect(err).toBe(names.map((name) => `Wrote cards/new/${name}.\n`).join(''));
    expect(files(path.join(folder, 'cards/new'))).toEqual([...names].sort());
  });

  test('into a folder that is there, without a slash', async () => {
    const folder = workspace({ 'a.bake': BOOK });
    mkdirSync(path.join(folder, 'cards'));
    expect((await proofsheet(['export', '--to', 'json', '--formula', 'Con', '--out', 'cards'], { cwd: folder })).err).toBe('Wrote cards/con-formula.json.\n');
  });
});

describe('what is there', () => {
  test('is left as it is, unless --force is given', async () => {
    const folder = workspace({ 'book.bake': BOOK, 'card.html': 'mine' });
    const run = (...more: readonly string[]) => proofsheet(['export', 'book.bake', '--out', 'card.html', ...more], { cwd: folder });
    const refused = await run();
    expect(refused).toMatchObject({ status: 2, err: 'card.html is there already, and is left as it is. Give another name, or --force to write over it.\n' });
    expect(readFileSync(path.join(folder, 'card.html'), 'utf8')).toBe('mine');
    expect(await run('--force')).toMatchObject({ status: 0, err: 'Wrote card.html.\n' });
    expect(readFileSync(path.join(folder, 'card.html'), 'utf8')).toContain('<!DOCTYPE html>');
    expect(files(folder)).toEqual(['book.bake', 'card.html']);
  });

  test('is never the file that is exported, not with --force either', async () => {
    const folder = workspace({ 'book.bake': BOOK });
    const { status, err } = await proofsheet(['export', 'book.bake', '--to', 'markdown', '--out', './book.bake', '--force'], { cwd: folder });
    expect({ status, err }).toEqual({ status: 2, err: './book.bake is the file that is exported, and is left as it is. Give another name to --out.\n' });
    expect(readFileSync(path.join(folder, 'book.bake'), 'utf8')).toBe(BOOK);
  });

  test('of a folder all is tried, and what could not be written is told', async () => {
    const folder = workspace({ 'book.bake': BOOK, 'cards/rye-pao.md': 'mine' });
    const { status, err } = await proofsheet(['export', 'book.bake', '--to', 'markdown', '--out', 'cards/'], { cwd: folder });
    expect(status).toBe(2);
    expect(err).toMatch(/^cards\/rye-pao\.md is there already.*\nWrote cards\/con-formula\.md\.\n$/);
  });

  test('a folder that is not there is said to be, and nothing is left behind', async () => {
    const folder = workspace({ 'book.bake': BOOK });
    const { status, err } = await proofsheet(['export', 'book.bake', '--out', 'no/such/card.html'], { cwd: folder });
    expect({ status, err }).toEqual({ status: 2, err: 'There is no folder no/such.\n' });
    expect(files(folder)).toEqual(['book.bake']);
  });

  test('the rights of a file that is written over stay', async () => {
    const folder = workspace({ 'book.bake': BOOK });
    writeFileSync(path.join(folder, 'card.md'), 'old', { mode: 0o640 });
    await proofsheet(['export', 'book.bake', '--out', 'card.md', '--force'], { cwd: folder });
    expect(existsSync(path.join(folder, 'card.md'))).toBe(true);
    if (process.platform !== 'win32') expect(statSync(path.join(folder, 'card.md')).mode & 0o777).toBe(0o640);
  });
});

describe('what is asked', () => {
  test.each<readonly [readonly string[], RegExp]>([
    [['export', '-'], /^Say the form: --to html, --to markdown, --to csv, --to ics, --to jsonld or --to json\.$/],
    [['export', '-', '--to', 'pdf'], /^--to takes html, markdown, csv, ics, jsonld or json, not "pdf"\./],
    [['export', '-', '--to', 'ics'], /^A calendar needs a time: --ready "2027-03-13 08:00" or --start "2027-03-12 17:00"\.$/],
    [['export', '-', '--to', 'csv', '--ready', '2027-03-13 08:00'], /^csv has no times in it: leave --ready out\.$/],
    [['export', '-', '--to', 'html', '--room', '19'], /^--room says how long the dough rises today, and so needs a time/],
    [['export', '-', '--to', 'html', '--ready', 'soon'], /^"soon" is not a date and a time\./],
    [['export', '-', '--to', 'html', '--formula', 'Ray'], /^There is no formula "Ray" in these files\./],
    [['export', '-', '--to', 'html', '--pieces', '2', '--factor', '3'], /^--pieces and --factor both ask for a size/],
  ])('%j is refused in a sentence', async (args, message) => {
    const { status, err, out } = await ran(args, { input: BOOK });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err.trim()).toMatch(message);
  });

  test('another size, the weights that steps add with it, and --dough is a weight as for sheet', async () => {
    const text = BOOK.replace('bulk      3 h at 24 C', 'bulk      3 h at 24 C\n    fold    at 30 min, add 40 g of salt').replace('20 g      salt', '40 g      salt\n  100 g     walnuts');
    const twice = await ran(['export', '-', '--to', 'markdown', '--formula', 'Rye & Pão', '--factor', '2'], { input: text });
    expect(twice.out).toContain('2 times the size written');
    expect(twice.out).toContain('| 200 g | walnuts |');
    expect(twice.out).toContain('add 80 g of the salt');
    const dough = await ran(['export', '-', '--to', 'csv', '--formula', 'Con', '--dough', '1706 g'], { input: BOOK });
    expect(dough.status).toBe(0);
    expect(dough.out).toContain('Con,Dough,bread flour,1000,100.0,');
  });

  test('what the scale reads to', async () => {
    const { out } = await ran(['export', '-', '--to', 'csv', '--formula', 'Con', '--step', '10g', '--small-step', '1g'], { input: BOOK });
    expect(out).toContain('Con,Dough,bread flour,500,100.0,');
    expect(out).toContain('Con,Dough,instant yeast,3,0.6,');
  });

  test('a time: clock times on the card, and a calendar', async () => {
    const card = await ran(['export', '-', '--to', 'markdown', '--formula', 'Rye & Pão', '--ready', '2027-03-13 20:00', '--zone', 'Europe/Lisbon'], { input: BOOK });
    expect(card.out).toContain('Begun Sat 13 March 2027 08:05, ready Sat 13 March 2027 20:00 (Europe/Lisbon).');
    expect(card.out).toContain('1. **Mix** 10 min (16:10)');
    const calendar = await ran(['export', '-', '--to', 'ics', '--formula', 'Rye & Pão', '--ready', '2027-03-13 20:00', '--zone', 'Europe/Lisbon'], { input: BOOK });
    expect(calendar.status).toBe(0);
    expect(calendar.out).toMatch(/^BEGIN:VCALENDAR\r\n/);
    expect(calendar.out).toContain('DTSTART:20270313T161000Z');
  });

  test('a time that cannot be kept is said, and the card has the times of day instead', async () => {
    const { status, out, err } = await ran(['export', '-', '--to', 'markdown', '--ready', '2027-03-13 08:00', '--asleep', '22:30 to 06:00'], { input: CONFLICT });
    expect(status).toBe(1);
    expect(err).toMatch(/^Too tight\n/);
    expect(out).toContain('- **Day 1**');
  });

  test('a calendar of nothing is not written', async () => {
    const folder = workspace({ 'tight.bake': CONFLICT, 'book.bake': BOOK });
    const tight = await proofsheet(['export', 'tight.bake', '--ready', '2027-03-13 08:00', '--asleep', '22:30 to 06:00', '--out', 'tight.ics'], { cwd: folder });
    expect(tight.status).toBe(1);
    expect(tight.err).toMatch(/^Too tight\n/);
    const none = await proofsheet(['export', 'book.bake', '--formula', 'Con', '--ready', '2027-03-13 08:00', '--out', 'con.ics'], { cwd: folder });
    expect(none).toMatchObject({ status: 1, err: 'Con\nNo steps to place: write a "steps" block.\n' });
    expect(files(folder)).toEqual(['book.bake', 'tight.bake']);
  });

  test('the same JSON as the sheet', async () => {
    const [one, other] = await Promise.all([ran(['export', '-', '--to', 'json'], { input: BOOK }), ran(['sheet', '-', '--json'], { input: BOOK })]);
    expect(one.out).toBe(other.out);
  });
});
