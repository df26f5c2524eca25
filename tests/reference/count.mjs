// The checks against the outside world, counted by kind from the report of a run (vitest's JSON).
// `node tests/reference/count.mjs REPORT` prints the line.
import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';

/** `outside checks: 12 (dataset 9, published rule 3); besides, not from outside: 2 (from memory 2)`: those that passed. */
export function outsideLine(report) {
  const checks = report.testResults
    .flatMap(({ assertionResults }) => assertionResults)
    .filter(({ status, meta }) => status === 'passed' && meta?.outside !== undefined)
    .map(({ meta }) => meta.outside);
  const [published, besides] = [true, false].map((wanted) => counted(checks.filter((check) => check.published === wanted)));
  return `outside checks: ${published}; besides, not from outside: ${besides}`;
}

function counted(checks) {
  const counts = new Map();
  for (const { kind } of checks) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  const kinds = [...counts].sort(([a, n], [b, m]) => m - n || a.localeCompare(b)).map(([kind, count]) => `${kind} ${count}`);
  return kinds.length === 0 ? '0' : `${checks.length} (${kinds.join(', ')})`;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) console.log(outsideLine(JSON.parse(readFileSync(process.argv[2], 'utf8'))));
