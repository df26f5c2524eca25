/**
 * The suite's entry: the module that every host loads as `extensionTestsPath`. It uses mocha's browser build, which has
 * no Node dependencies, so one bundle runs in the Node extension host and in the web worker extension host.
 */
import type MochaConstructor from 'mocha';
import 'mocha/mocha.js';

/** Every line the runner should show starts with this mark; the rest of the console is the workbench's own log. */
const say = (line: string): void => console.log(line.replace(/^/gm, '[suite] '));

export async function run(): Promise<void> {
  const { Mocha } = globalThis as unknown as { Mocha: typeof MochaConstructor };
  const mocha = new Mocha({ ui: 'tdd', timeout: 20_000, reporter: SuiteReporter as unknown as Mocha.ReporterConstructor });
  mocha.suite.emit('pre-require', globalThis, null as never, mocha);

  await import('./language.test'); // after mocha's `suite` and `test` are there
  await import('./editing.test');
  await import('./scale.test');
  await import('./export.test');
  await import('./commands.test');
  await import('./schedule.test');
  await import('./crash.test'); // the last: the servers before it are those of the others

  return new Promise((resolve, reject) => {
    mocha.run((failures) => (failures > 0 ? reject(new Error(`${failures} test(s) failed`)) : resolve()));
  });
}

class SuiteReporter {
  constructor(runner: Mocha.Runner) {
    const count = { passed: 0, failed: 0, skipped: 0 };
    runner.on('pass', (test) => {
      count.passed += 1;
      say(`ok   ${test.fullTitle()} (${test.duration} ms)`);
    });
    runner.on('pending', (test) => {
      count.skipped += 1;
      say(`skip ${test.fullTitle()}`);
    });
    runner.on('fail', (test, error) => {
      count.failed += 1;
      say(`FAIL ${test.fullTitle()}\n${error?.stack ?? error}`);
    });
    runner.on('end', () => say(`done ${JSON.stringify(count)}`));
  }
}
