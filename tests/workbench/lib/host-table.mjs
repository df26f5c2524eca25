// Which tests pass on which host, as a table in the README beside this folder.
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

const page = path.join(import.meta.dirname, '..', 'README.md');
const hosts = ['server', 'web', 'desktop'];
const words = { passed: 'passes', failed: 'FAILS', skipped: 'skipped' };

/** Writes what one run has seen between the marks of the page. A test that a host did not run has a dash. */
export function writeHostTable(tests) {
  const rows = new Map();
  for (const { what, host, result } of tests) rows.set(what, { ...rows.get(what), [host]: result });
  const sum = (host) => {
    const [passed, ran] = [tests.filter((one) => one.host === host && one.result === 'passed'), tests.filter((one) => one.host === host)];
    return ran.length === 0 ? 'not run' : `${passed.length} of ${ran.length} pass`;
  };
  const table = [
    `| what is tried | ${hosts.join(' | ')} |`, '| --- | --- | --- | --- |',
    ...[...rows].map(([what, results]) => `| ${what.replaceAll('|', '\\|')} | ${hosts.map((host) => words[results[host]] ?? '–').join(' | ')} |`),
    `| in all | ${hosts.map(sum).join(' | ')} |`,
  ].join('\n');
  const text = readFileSync(page, 'utf8');
  const marks = /(<!-- hosts -->\n)[^]*(<!-- \/hosts -->)/;
  if (!marks.test(text)) throw new Error(`${page} has no place for the table of hosts`);
  writeFileSync(page, text.replace(marks, (_, begin, end) => `${begin}${table}\n${end}`));
}
