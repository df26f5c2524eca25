import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { checks, topics } from '../../../server/core/checks';
import { STYLES } from '../../../server/core/checks/limits';
import { pages } from '../../../server/core/checks/pages';
import { documentChecks } from '../../../server/core/checks/document';
import { codeDescription, docsUrl } from '../../../server/core/checks/documentation';

const PAGE = path.join(import.meta.dirname, '../../../server/core/checks/README.md');

test('the page of checks is what the rules say', () => {
  const page = documentChecks(topics);
  if (process.env.UPDATE === '1') {
    writeFileSync(PAGE, page);
  }
  // Git may have given the file Windows line ends.
  expect(readFileSync(PAGE, 'utf8').replaceAll('\r\n', '\n'), 'Out of date: run these tests with UPDATE=1').toBe(page);
});

test('every code has a heading that its address points to', () => {
  const page = documentChecks(topics);
  for (const { code } of [...checks, ...pages]) {
    expect(page).toContain(`\n## ${code}\n`);
    expect(docsUrl(code, 'https://bakery.example/checks')).toBe(`https://bakery.example/checks#${code}`);
  }
  expect(codeDescription('no-size', undefined)).toBeUndefined();
  // A file is opened at the line of the heading.
  const lines = page.split('\n');
  for (const { code } of [...checks, ...pages]) {
    const line = Number(/#L(\d+)$/.exec(codeDescription(code, 'file:///checks.md')?.href ?? '')?.[1]);
    expect(lines[line - 1]).toBe(`## ${code}`);
  }
});

test('every link of the page leads to a heading of it', () => {
  const page = documentChecks(topics);
  const slugs = new Set([...page.matchAll(/^#+ (.+)$/gm)].map(([, title = '']) => title.toLowerCase().replace(/[^a-z0-9 -]/g, '').replaceAll(' ', '-')));
  const links = [...page.matchAll(/\]\(#([^)]+)\)/g)].map(([, anchor = '']) => anchor);
  expect(links.length).toBeGreaterThan(checks.length);
  expect(links.filter((anchor) => !slugs.has(anchor))).toEqual([]);
});

test('every check stands under one topic, and a style table has a column for each style', () => {
  expect(topics.flatMap((topic) => topic.checks)).toEqual(checks);
  for (const { title, checks: under } of topics) {
    expect(under.length, title).toBeGreaterThan(0);
    expect(documentChecks(topics)).toContain(`\n### ${title}\n`);
  }
  const header = documentChecks(topics).split('\n').find((line) => line.startsWith('| limit | default | hearth'));
  expect(header).toBe(`| limit | default | ${STYLES.join(' | ')} |`);
});
