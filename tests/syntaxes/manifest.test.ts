/** What the manifest promises is there, and says the same as the code. */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from '../../grammar';
import { editorSettings } from '../../server/core/settings/schema';
import { findingsText } from '../../server/output/findings-text';
import { written } from '../output/written';

const root = path.join(import.meta.dirname, '..', '..');
const read = (file: string): string => readFileSync(path.join(root, file), 'utf8');
const manifest = JSON.parse(read('package.json'));
const client = readdirSync(path.join(root, 'client'), { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts')).map((file) => read(path.join('client', file))).join('\n');

test('every file that the manifest names is there', () => {
  const files = [...JSON.stringify(manifest.contributes).matchAll(/"\.\/(syntaxes\/[^"]+)"/g)].map(([, file]) => file!);
  expect(files.length).toBeGreaterThan(6);
  for (const file of [...files, manifest.icon]) expect(existsSync(path.join(root, file)), file).toBe(true);
});

test('every command is registered, and nothing else is', () => {
  // By its name, or by a constant that has it because the server is told it, too.
  const named = new Map([...client.matchAll(/const (\w+_COMMAND) = '([\w.]+)'/g)].map(([, constant, name]) => [constant, name]));
  const registered = [...client.matchAll(/registerCommand\((?:'([\w.]+)'|(\w+))/g)].map(([, name, constant]) => name ?? named.get(constant)).sort();
  expect(manifest.contributes.commands.map(({ command }: { command: string }) => command).sort()).toEqual(registered);
});

test('the oldest editor it says it runs in is not newer than the types it is compiled with', () => {
  const types = JSON.parse(read('node_modules/@types/vscode/package.json')).version;
  expect(manifest.engines.vscode).toBe(`^${types.split('.').slice(0, 2).join('.')}.0`);
});

test('the settings that are made from the checks know their codes and limits', () => {
  const { properties } = manifest.contributes.configuration;
  if (process.env['UPDATE'] === '1') {
    Object.assign(properties, editorSettings());
    writeFileSync(path.join(root, 'package.json'), `${JSON.stringify(manifest, undefined, 2)}\n`);
  }
  const made = Object.keys(editorSettings()).map((name) => [name, properties[name]]);
  expect(Object.fromEntries(made), 'Out of date: run this test with UPDATE=1').toEqual(editorSettings());
});

const snippets = Object.entries<{ prefix: string; body: string[] }>(JSON.parse(read('syntaxes/snippets.json')));

test.each(snippets)('the snippet %s is read without a problem', (_name, { body }) => {
  const filled = body.join('\n')
    .replaceAll('$CURRENT_YEAR-$CURRENT_MONTH-$CURRENT_DATE', '2026-03-14')
    .replace(/\$\{\d+\|([^,|]+)[^}]*\}/g, '$1')
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
    .replace(/\$\d+/g, '');
  expect(filled).not.toContain('$');
  expect(parse(filled).blocks.flatMap(({ block }) => block.problems.map(({ message }) => message))).toEqual([]);
});

const configuration = JSON.parse(read('syntaxes/language-configuration.json'));

test('a word, to double click, is a name of any script, with its hyphens and apostrophes, or a whole number', () => {
  const word = new RegExp(configuration.wordPattern.pattern, `g${configuration.wordPattern.flags}`);
  expect("stone-ground d'água 2.5 g лён, 1½ 00".match(word)).toEqual(['stone-ground', "d'água", '2.5', 'g', 'лён', '1½', '00']);
  expect(''.match(word)).toBeNull();
});

test('a new line after the head of a block is indented, after any other it is not', () => {
  const indents = new RegExp(configuration.onEnterRules[0].beforeText);
  for (const head of ['formula "A"', 'total formula', 'old dough', 'dough at 25 C', 'steps', 'steps  # in order', 'record 2026-03-14']) expect(head).toMatch(indents);
  for (const line of ['use "pantry.bake"', '  60 g water', 'doughnut', '# dough', '']) expect(line).not.toMatch(indents);
});

describe('the walkthrough', () => {
  const [{ steps }]: [{ steps: { id: string; description: string; media: { svg: string; altText: string }; completionEvents: string[] }[] }] = manifest.contributes.walkthroughs;
  const commands: string[] = manifest.contributes.commands.map(({ command }: { command: string }) => command);

  test.each(steps)('$id leads to a command that there is, and is done when that was run or seen', ({ description, completionEvents }) => {
    const links = [...description.matchAll(/\]\(command:([\w.]+)\)/g)].map(([, command]) => command!);
    expect(links).toHaveLength(1);
    for (const link of links) expect([...commands, 'workbench.actions.view.problems']).toContain(link);
    for (const event of completionEvents) {
      const [kind, what] = event.split(':') as [string, string];
      if (kind === 'onCommand') expect(links).toContain(what);
      else expect(client, event).toContain(`'${what}'`);
    }
  });

  test.each(steps)('$id has a picture in the colours of the theme, and words for who does not see it', ({ media: { svg, altText } }) => {
    expect(altText.length).toBeGreaterThan(20);
    const picture = read(svg);
    const colours = [...picture.matchAll(/(?:fill|stroke)="([^"]+)"/g)].map(([, colour]) => colour!);
    expect(colours.length).toBeGreaterThan(5);
    // Each colour is the theme's, with one to fall back on.
    for (const colour of colours) expect(colour).toMatch(/^none$|^var\(--vscode-[\w-]+, #[0-9a-f]{6}\)$/);
    expect(picture).not.toMatch(/href|<script|<image|<style/);
  });
});

test('settings have an order and say what they hold for: a folder, or the window', () => {
  const settings = Object.values<{ order: number; scope: string }>(manifest.contributes.configuration.properties);
  expect(settings.map(({ order }) => order).sort((a, b) => a - b)).toEqual(settings.map((_, at) => at + 1));
  for (const { scope } of settings) expect(['resource', 'window']).toContain(scope);
});

test('a task that runs `proofsheet check` has its findings read, whatever stands in them', () => {
  const [{ pattern }] = manifest.contributes.problemMatchers;
  const matcher = new RegExp(pattern.regexp);
  const messages = ['Salt is 4 %: too much (of 2.5 %).', 'A line: with: colons, and (brackets) in it'];
  const found = messages.map((message, at) => ({
    code: 'salt-high', severity: at === 0 ? 'warning' : 'info', message, line: 3 + at, column: 5, endLine: 3 + at, endColumn: 9, related: [], fixes: [{ title: 'Do: this (now)', certain: true, edits: [] }], lineText: '  4 %  salt', formula: '',
  } as const));
  const text = written(findingsText(), [{ path: 'a dir/C:country.bake', uri: 'file:///a%20dir/C%3Acountry.bake', findings: found, accepted: [] }]);
  const matched = text.split('\n').flatMap((line) => {
    const match = matcher.exec(line);
    return match === null ? [] : [['file', 'line', 'column', 'severity', 'message', 'code'].map((part) => match[pattern[part]])];
  });
  expect(matched).toEqual([
    ['a dir/C:country.bake', '3', '5', 'warning', messages[0], 'salt-high'],
    ['a dir/C:country.bake', '4', '5', 'info', messages[1], 'salt-high'],
  ]);
});
