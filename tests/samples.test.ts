/** The samples: the page of mistakes shows exactly what it says at each line, and nothing is found anywhere else. */
import { readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
import { format, parse } from '../grammar';
import { readSettings } from '../server/core/settings/read';
import { markdownPageOf } from '../server/project/markdown';
import { Project } from '../server/project/project';

const folder = path.join(import.meta.dirname, '..', 'samples');
const files = readdirSync(folder).filter((name) => name.endsWith('.bake'));
const SETTINGS = 'proofsheet.json';
const read = (name: string) => readFileSync(path.join(folder, name), 'utf8');

/** `line code` of every finding of a sample, in order. */
async function findingsOf(name: string): Promise<string[]> {
  const root = pathToFileURL(folder).href;
  const project = new Project({
    roots: [root],
    reader: { read: (uri) => Promise.resolve([...files, 'notebook.md', SETTINGS].includes(path.basename(uri)) ? read(path.basename(uri)) : undefined) },
  });
  const file = await project.prepare(`${root}/${name}`);
  if (!file) throw new Error(`${name} cannot be read`);
  const lineOf = (offset: number) => file.text.slice(0, offset).split('\n').length;
  return file.sections
    .flatMap((section) => section.analysis.findings.map(({ code, place }) => ({ code, line: lineOf(section.offsetsOf(place).start) })))
    .sort((a, b) => a.line - b.line || a.code.localeCompare(b.code))
    .map(({ code, line }) => `${line} ${code}`);
}

/** What the page says: the codes in the comment at the end of a line. */
function announced(text: string): string[] {
  return text.split('\n').flatMap((line, i) => {
    const comment = /\S.*#(.*)$/.exec(line)?.[1] ?? '';
    const codes = comment.includes(';') ? comment.slice(comment.lastIndexOf(';') + 1) : comment;
    return codes.split(',').map((code) => code.trim()).filter(Boolean).sort().map((code) => `${i + 1} ${code}`);
  });
}

describe('samples', () => {
  it('hold settings with nothing wrong in them, and the pantry says why they are so', () => {
    const { settings, problems } = readSettings(read(SETTINGS));
    expect(problems).toEqual([]);
    expect(settings).toMatchObject({ zone: 'Europe/Lisbon', measures: 'us', limits: { 'salt-high': { mostPct: 2.3 } } });
    expect(read('pantry.bake')).toMatch(/proofsheet\.json.*Lisbon.*US cups.*2\.3 % salt/s);
  });

  it('exercise the language: at least six formulas, a pantry and a page of mistakes', () => {
    expect(files).toEqual(expect.arrayContaining(['pantry.bake', 'mistakes.bake']));
    const heads = files.filter((name) => name !== 'mistakes.bake').flatMap((name) => parse(read(name)).blocks.map(({ block }) => block.head.node.kind));
    expect(heads.filter((kind) => kind === 'formula' || kind === 'dish').length).toBeGreaterThanOrEqual(6);
  });

  it.each(files.filter((name) => name !== 'mistakes.bake'))('%s has nothing to find', async (name) => {
    expect(await findingsOf(name)).toEqual([]);
  });

  it('notebook.md, a Markdown page, has formulas in its fences with nothing to find, and is laid out', async () => {
    expect(await findingsOf('notebook.md')).toEqual([]);
    const { text, fences } = markdownPageOf(read('notebook.md'));
    expect(fences.length).toBeGreaterThan(2);
    for (const { start, end } of fences) expect(format(text.slice(start, end))).toBe(text.slice(start, end));
  });

  it('mistakes.bake shows what it says, line by line, and nothing else', async () => {
    const expected = announced(read('mistakes.bake'));
    expect(expected.length).toBeGreaterThan(20);
    expect(await findingsOf('mistakes.bake')).toEqual(expected);
  });

  it.each(files.filter((name) => name !== 'mistakes.bake'))('%s is laid out as the formatter would', (name) => {
    expect(format(read(name))).toBe(read(name));
  });
});
