/** What the README tells a newcomer to type is right: its formulas have no findings, its commands exist. */
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { ran } from './cli/in-process';
import { findingsIn } from './core/bake';

const root = path.join(import.meta.dirname, '..');
const readme = readFileSync(path.join(root, 'README.md'), 'utf8').replaceAll('\r\n', '\n');
const fences = [...readme.matchAll(/^```bake\n([\s\S]*?)^```/gm)].map(([, text]) => text!);

it('has a first formula, and nothing is found in it', () => {
  expect(fences.length).toBeGreaterThan(0);
  // Those after the first go on from it.
  for (const [index, text] of fences.entries()) expect(findingsIn(index === 0 ? text : `${fences[0]!}\n${text}`)).toEqual([]);
});

it('finds what it says a reader will find when the salt or a name is mistyped', () => {
  const [first] = fences;
  const codes = (from: string, to: string) => {
    expect(first).toContain(from);
    return findingsIn(first!.replace(from, to)).map(({ code }) => code);
  };
  expect(codes('2 %       salt', '2,2 %     salt')).toEqual(['comma-decimal']);
  expect(codes('2 %       salt', '20 %      salt')).toContain('salt-high');
  expect(codes('150 g     whole wheat flour', '150 g     whole weat flour')).toEqual(['unknown-ingredient']);
});

it('names only scripts and files that are there', () => {
  const { scripts } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8')) as { scripts: Record<string, string> };
  const runs = [...readme.matchAll(/npm run ([\w-]+)/g)].map(([, name]) => name!);
  expect(runs.filter((name) => !(name in scripts))).toEqual([]);
  const links = [...readme.matchAll(/\]\(((?!https?:|#)[^)#]+)\)|(?:src|srcset)="([^"]+)"/g)].map(([, link, picture]) => link ?? picture!);
  expect(links.length).toBeGreaterThan(4);
  for (const link of links) expect(() => readFileSync(path.join(root, link)), link).not.toThrow();
});

it('shows what the schedule of its first formula really prints; UPDATE=1 writes it anew', async () => {
  const asked = ['schedule', '-', '--zone', 'Europe/Lisbon', '--asleep', '22:30 to 05:00', '--ready'];
  expect(readme).toContain('schedule country.bake --ready "2027-03-13 09:00" --zone Europe/Lisbon --asleep "22:30 to 05:00"');
  const printed = [];
  for (const ready of ['2027-03-13 09:00', '2027-03-13 08:00']) printed.push((await ran([...asked, ready], { input: fences[0]! })).out);
  if (process.env.UPDATE === '1') {
    const left = [...printed];
    writeFileSync(path.join(root, 'README.md'), readme.replace(/^```text\n[\s\S]*?^```/gm, (fence) => `\`\`\`text\n${left.shift() ?? fence}\`\`\``));
    return;
  }
  expect([...readme.matchAll(/^```text\n([\s\S]*?)^```/gm)].map(([, text]) => text)).toEqual(printed);
});
