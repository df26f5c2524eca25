/** The line that counts the checks against the outside: made from the report of a run, and of nothing else. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, it } from 'vitest';

function lineOf(tests: readonly { readonly status: string; readonly meta?: unknown }[]): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'proofsheet-count-'));
  try {
    const report = path.join(folder, 'report.json');
    writeFileSync(report, JSON.stringify({ testResults: [{ assertionResults: tests.slice(0, 1) }, { assertionResults: tests.slice(1) }] }));
    return execFileSync(process.execPath, [path.join(import.meta.dirname, 'count.mjs'), report], { encoding: 'utf8' }).trim();
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const check = (kind: string, published: boolean, status = 'passed') => ({ status, meta: { outside: { kind, source: 'a book', published } } });

it('counts by kind, the most first, what no one published apart', () => {
  expect(lineOf([check('dataset', true), check('published rule', true), check('dataset', true), check('from memory', false), { status: 'passed', meta: {} }, { status: 'passed' }])).toBe(
    'outside checks: 3 (dataset 2, published rule 1); besides, not from outside: 1 (from memory 1)',
  );
});

it('leaves out what failed or did not run', () => {
  expect(lineOf([check('dataset', true, 'failed'), check('dataset', true, 'skipped'), check('published rule', true)])).toBe('outside checks: 1 (published rule 1); besides, not from outside: 0');
});
