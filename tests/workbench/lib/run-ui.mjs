// Runs the tests that look and type like a baker, one file after the other.
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { run } from 'node:test';
import { spec } from 'node:test/reporters';

const folder = path.join(import.meta.dirname, '..', 'ui');

/** Says how many tests passed, failed and were skipped, and how each ended. */
export async function runUi() {
  const counts = { passed: 0, failed: 0, skipped: 0 };
  const tests = [];
  const files = readdirSync(folder).filter((name) => name.endsWith('.test.mjs')).map((name) => path.join(folder, name));
  const events = run({ files, concurrency: false });
  let story = '';
  events.on('test:start', ({ name, nesting }) => {
    if (nesting === 0) story = name;
  });
  const ended = (result) => ({ name, nesting, details }) => {
    // A story ends like its tests do. Its name says on which host it is told.
    const [before, host, after] = story.split(/ (?:of|on) the (server|web) host/);
    if (nesting > 0 && details.type !== 'suite') tests.push({ what: `${before}${after} ${name}`, host, result });
  };
  events.on('test:pass', (event) => ended(event.skip === undefined ? 'passed' : 'skipped')(event));
  events.on('test:fail', ended('failed'));
  events.on('test:diagnostic', ({ message }) => {
    const [, what, count] = /^(pass|fail|cancelled|skipped) (\d+)$/.exec(message) ?? [];
    if (what === 'pass') counts.passed += Number(count);
    if (what === 'fail' || what === 'cancelled') counts.failed += Number(count);
    if (what === 'skipped') counts.skipped += Number(count);
  });
  const printed = events.compose(spec);
  printed.pipe(process.stdout, { end: false });
  await new Promise((resolve) => printed.on('end', resolve));
  if (counts.passed + counts.failed === 0) counts.failed = 1; // no test is no success
  return { ...counts, tests };
}
