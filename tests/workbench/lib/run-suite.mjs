// Runs the bundled suite inside one host: server, web or desktop.
import { appendFileSync, cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import config from '../e2e.config.mjs';

/** What the suite said last: '{"passed":...}'. Exit code 0 alone would also be that of a suite without tests. */
let summary;
/** How each test ended, by its name. */
let results;
let logFile;
let verbose = false;

/**
 * Runs the suite in one host and says how many tests passed, failed and were skipped, and how each ended; `ran` is false
 * where there is no such host. Whatever goes wrong around the tests counts as a failure.
 */
export async function runSuite(name, options = {}) {
  const started = Date.now();
  const tests = () => [...results].map(([what, result]) => ({ what, host: name, result }));
  const seconds = () => `${((Date.now() - started) / 1000).toFixed(1)} s`;
  verbose = options.verbose ?? false;
  summary = undefined;
  results = new Map();
  logFile = path.join(config.results, `suite-${name}.log`);
  mkdirSync(config.results, { recursive: true });
  writeFileSync(logFile, '');
  try {
    const ran = await (name === 'desktop' ? runOnDesktop() : runInBrowser(name));
    const counts = { passed: 0, failed: 0, skipped: 0, ...JSON.parse(summary ?? '{}') };
    if (ran && counts.passed === 0) throw new Error('the suite ended without having run a test');
    if (ran) console.log(`suite on ${name}: passed in ${seconds()}`);
    return { ran, ...counts, tests: tests() };
  } catch (error) {
    console.error(`suite on ${name}: FAILED in ${seconds()}: ${error.message}\nsee ${path.relative('.', logFile)}`);
    const counts = { passed: 0, failed: 0, skipped: 0, ...JSON.parse(summary ?? '{}') };
    return { ran: true, ...counts, failed: Math.max(1, counts.failed), tests: tests() };
  }
}

/** Shows the suite's own lines, keeps everything in the log file. */
function record(text, { show = true } = {}) {
  appendFileSync(logFile, `${text}\n`);
  for (const [, line] of text.matchAll(/\[suite\] (.*)/g)) {
    summary = /^done (.*)/.exec(line)?.[1] ?? summary;
    const [, result, what] = /^(ok|FAIL|skip) +(.*?)(?: \(\d+ ms\))?$/.exec(line) ?? [];
    if (what !== undefined) results.set(what, { ok: 'passed', FAIL: 'failed', skip: 'skipped' }[result]);
    if (show) {
      console.log(line);
    }
  }
}

/** VS Code for the web reports by calling two global functions, if the page has them. */
async function runInBrowser(name) {
  const { launchBrowser } = await import('./workbench.mjs');
  const { startHost } = await import('./hosts.mjs');
  const host = await startHost(name, { suite: true });
  const browser = await launchBrowser();
  const errors = [];
  try {
    const page = await browser.newPage();
    const code = await new Promise((resolve, reject) => {
      setTimeout(() => reject(new Error(`no result after ${config.timeout} ms`)), config.timeout).unref();
      page.on('crash', () => reject(new Error('the page crashed')));
      page.on('console', (message) => {
        if (/No extension host found that can launch the test runner/.test(message.text())) {
          reject(new Error(message.text())); // the workbench would only show it, and wait for ever
        }
      });
      (async () => {
        // Called once run() has settled: 0 if it resolved, 1 if it rejected or could not be loaded.
        await page.exposeFunction('codeAutomationExit', resolve);
        // Called for everything the workbench logs; in a test run that includes the extension host's console.
        await page.exposeFunction('codeAutomationLog', (level, args) => {
          const text = args.map((arg) => (typeof arg === 'string' ? arg : JSON.stringify(arg))).join(' ');
          record(`${level}: ${text}`);
          if (verbose && !text.includes('[suite]')) {
            console.log(`    ${level}: ${text}`);
          }
          if (level === 'error') {
            errors.push(text);
          }
        });
        await page.goto(host.url);
      })().catch(reject);
    });
    if (code !== 0) {
      throw new Error(summary ? `${JSON.parse(summary).failed} test(s) failed` : `the suite did not run (exit code ${code})`);
    }
    return true;
  } catch (error) {
    if (!summary) {
      console.error(errors.slice(0, 20).join('\n')); // the reason is among them
    }
    throw error;
  } finally {
    await browser.close();
    await host.stop();
    record(`--- the host's own log ---\n${host.log()}`);
  }
}

/** The same suite in a desktop VS Code, if there is one. */
async function runOnDesktop() {
  const { VSCODE_EXECUTABLE: vscodeExecutablePath, VSCODE_DOWNLOAD: version } = process.env;
  if (!vscodeExecutablePath && !version) {
    console.log('suite on desktop: left out (set VSCODE_EXECUTABLE to the VS Code program, or VSCODE_DOWNLOAD to "stable" or a version)');
    return false;
  }
  const { runTests } = await import('@vscode/test-electron');
  const temp = mkdtempSync(path.join(tmpdir(), 'e2e-')); // short: a socket's path has a limit, and one lies in here
  cpSync(config.workspace, path.join(temp, 'workspace'), { recursive: true });
  mkdirSync(path.join(temp, 'user', 'User'), { recursive: true });
  writeFileSync(path.join(temp, 'user', 'User', 'settings.json'), JSON.stringify(config.settings));

  const write = process.stdout.write; // runTests passes VS Code's output on to stdout: listen in
  process.stdout.write = function (chunk, ...rest) {
    record(String(chunk).trimEnd(), { show: false });
    return write.call(this, chunk, ...rest);
  };
  try {
    await runTests({ // adds --no-sandbox, --skip-welcome, --disable-workspace-trust and the like
      vscodeExecutablePath,
      version,
      extensionDevelopmentPath: config.extension,
      extensionTestsPath: config.suite,
      launchArgs: [
        path.join(temp, 'workspace'), '--disable-extensions', '--disable-telemetry', '--disable-gpu',
        `--user-data-dir=${path.join(temp, 'user')}`, `--extensions-dir=${path.join(temp, 'extensions')}`,
      ],
    });
    return true;
  } finally {
    process.stdout.write = write;
    rmSync(temp, { recursive: true, force: true, maxRetries: 5 });
  }
}
