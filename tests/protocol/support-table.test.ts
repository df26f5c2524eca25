/** The README's table of what the server answers: each method is in it, and each row names a test that is there. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';

const root = path.join(import.meta.dirname, '..', '..');
const read = (...names: string[]): string => readFileSync(path.join(root, ...names), 'utf8');

const rows = read('README.md').split('### What the language server answers')[1]!.split('\n### ')[0]!.split('\n')
  .filter((line) => line.startsWith('| `'))
  .map((line) => line.split('|').slice(1, -1).map((cell) => cell.trim()))
  .map(([methods, , test]) => ({ methods: [...methods!.matchAll(/`([^`]+)`/g)].map(([, name]) => name!), test: test! }));

it('has every method that the server knows, and no other', () => {
  const known = ['server/connection.ts', ...readdirSync(path.join(root, 'server', 'lsp'), { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.ts')).map((name) => `server/lsp/${name}`)]
    .flatMap((file) => [...read(file).matchAll(/'((?:client|textDocument|workspace|window|completionItem|codeAction|codeLens|inlayHint)\/[a-zA-Z/]+|initialized?|shutdown|exit)'/g)])
    .map(([, method]) => method!);
  expect(rows.flatMap(({ methods }) => methods).sort()).toEqual([...new Set(known)].sort());
});

it.each(rows.map(({ methods, test }) => [methods.join(', '), test]))('%s is shown by a test', (_methods, test) => {
  const [, file, name] = /^([\w-]+): (.+)$/.exec(test)!;
  expect(read('tests', 'protocol', `${file}.test.ts`)).toContain(`it('${name}', async`);
});
