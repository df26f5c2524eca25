// `npm test`: everything that must hold, in the order that fails fastest. Each stage's own output is shown; the last
// lines add up what was tested: the checks against the outside world by kind, then everything.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { outsideLine } from '../tests/reference/count.mjs';

const root = path.join(import.meta.dirname, '..');
const bin = (name) => path.join(root, 'node_modules', '.bin', name);
const temp = mkdtempSync(path.join(tmpdir(), 'proofsheet-test-'));
const report = path.join(temp, 'vitest.json');
const workbenchReport = path.join(temp, 'workbench.json');

const stages = [
  { name: 'lint', run: [bin('eslint'), '-c', '.config/eslint.config.mjs', '--max-warnings', '0', '.'] },
  { name: 'layers', run: [bin('depcruise'), '--config', '.config/dependencies.cjs', 'grammar', 'server', 'client', 'tests'] },
  { name: 'types', run: [bin('tsc'), '-p', '.'] },
  { name: 'build', run: [process.execPath, '.config/build.mjs'] },
  { name: 'tests', run: [bin('vitest'), 'run', '-c', '.config/vitest.config.mts', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`] },
  { name: 'workbench', run: [process.execPath, 'tests/workbench/run.mjs', '--report', workbenchReport] },
];

const only = process.argv.slice(2);
let passed = 0;
let failed = 0;
let skipped = 0;
let outside = '';
let again = '';
for (const { name, run } of stages.filter((stage) => only.length === 0 || only.includes(stage.name))) {
  console.log(`\n== ${name}`);
  const started = Date.now();
  const [command, ...args] = run;
  const { status } = spawnSync(command, args, { cwd: root, stdio: ['ignore', 'inherit', 'inherit'] });
  console.log(`== ${name}: ${status === 0 ? 'ok' : 'FAILED'} (${((Date.now() - started) / 1000).toFixed(0)} s)`);
  const counted = name === 'tests' ? report : name === 'workbench' ? workbenchReport : undefined;
  const counts = counted && existsSync(counted) ? JSON.parse(readFileSync(counted, 'utf8')) : undefined;
  if (name === 'tests' && counts) console.log((outside = outsideLine(counts)));
  else if (outside !== '') again = `${outside}\n`;
  passed += counts ? (counts.numPassedTests ?? counts.passed) : status === 0 ? 1 : 0;
  failed += counts ? (counts.numFailedTests ?? counts.failed) : 0;
  skipped += counts ? (counts.numPendingTests ?? counts.skipped ?? 0) : 0;
  if (status !== 0) {
    failed += counts && (counts.numFailedTests ?? counts.failed) > 0 ? 0 : 1;
    break;
  }
}
rmSync(temp, { recursive: true, force: true });
console.log(`\n${again}${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`);
process.exitCode = failed === 0 ? 0 : 1;
