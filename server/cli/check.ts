/** `proofsheet check`: what is wrong or doubtful in the files. */
import { availableParallelism } from 'node:os';
import { pathToFileURL } from 'node:url';
import { version } from '../../package.json';
import { hasAtLeast, NOTHING_YET, plus, type CheckedFile, type FindingsForm } from '../output/findings';
import { findingsGithub } from '../output/findings-github';
import { findingsJson } from '../output/findings-json';
import { findingsSarif } from '../output/findings-sarif';
import { findingsText } from '../output/findings-text';
import { counted } from '../output/numbers';
import { allRules } from '../output/rule';
import { printable } from '../output/width';
import { canonicalUri } from '../project/uris';
import { BaselineFilter, BaselineWriter, readBaseline } from './checking/baseline';
import { changedSince } from './checking/changed';
import { examiner, type Examined, type Task } from './checking/examine';
import { examinedByThreads } from './checking/threads';
import { Documents, Progress, rootOfRepository, rootsOf } from './documents';
import { slashes, sourcesOf, type Source } from './files';
import { oneOf, type Options } from './options';
import { Refusal } from './refusal';
import type { Surroundings, Verb } from './verb';

const FORMATS = ['text', 'json', 'sarif', 'github'] as const;

/** Threads pay from so many files on: each has to start and to warm up first. Measured by `tests/bench/many-files.mjs`. */
const LEAST_FOR_THREADS = 400;
/** More share one memory bus and one disk, and each takes some 100 MB. */
const MOST_THREADS = 4;

export const check: Verb = {
  name: 'check',
  summary: 'tells what is wrong or doubtful',
  takes: '[FILES or FOLDERS]',
  about: [
    'Reads .bake files and lists what was found, each with its line, its severity and its code. Folders are walked; without '
      + 'any, the current one is. "-" reads standard input. Of a Markdown page that is named, the ```bake fences are read.',
    'Limits and severities are those of the nearest proofsheet.json, in the folder of a file or above it; what is wrong with it is '
      + 'listed too.',
    'For a check of every change: sarif is the form that code scanning services read, with accepted findings and their reasons; github '
      + 'puts each finding at its line of a change, of which GitHub shows the first ten errors, warnings and notices of a step.',
    'A baseline lists findings that are known, by their line and formula and wherever they move: --write-baseline once, commit the '
      + 'file, and with --baseline only what is new is told.',
    'The exit status is 1 when there is a finding at or above --fail-on, and 2 when a file cannot be read.',
  ],
  examples: [
    'proofsheet check', 'proofsheet check formulas/ --fail-on warning', 'proofsheet check rye.bake --json',
    'proofsheet check --changed-since origin/main --format github', 'proofsheet check --baseline known.json',
  ],
  options: {
    json: { what: 'the same as --format json' },
    format: { value: FORMATS.join('|'), what: 'how findings are written; text if left out' },
    'fail-on': { value: 'error|warning|info', what: 'the least severity that fails; error if left out' },
    'changed-since': { value: 'REVISION', what: 'only files that differ from it, by git, and those that use them' },
    baseline: { value: 'FILE', what: 'leaves out what the file lists' },
    'write-baseline': { value: 'FILE', what: 'lists what is found in the file, and tells nothing' },
    threads: { value: 'NUMBER', what: 'how many cores to use; left out, all up to 4 for many files' },
    'help-page': { value: 'URL', what: 'where you keep the page of checks, for the links of sarif' },
  },
  async run(options, surroundings) {
    const { terminal } = surroundings;
    const least = oneOf(options, 'fail-on', ['error', 'warning', 'info'] as const, 'error');
    const form = formOf(options, surroundings);
    const threads = threadsAskedFor(options);
    const baseline = await baselineOf(options);
    const revision = options.get('changed-since');
    const changed = revision === undefined ? undefined : await changedSince(revision);

    const { sources, problems: missing } = await sourcesOf(options.files.length === 0 ? ['.'] : options.files);
    const problems = [...missing];
    for (const problem of missing) terminal.say(printable(problem));
    const task: Task = { roots: await rootsOf(sources), named: options.files, changed };

    const told = new Set<string>();
    let tally = NOTHING_YET;
    const tell = (file: CheckedFile | undefined): void => {
      if (file === undefined) return;
      const rest = baseline.rest(file);
      if (form !== undefined) terminal.out(form.file(rest, tally));
      tally = plus(tally, rest);
    };
    if (form !== undefined) terminal.out(form.begin);
    const progress = new Progress(terminal, sources.length);
    let done = 0;
    for await (const { unreadable, remark, settings, file } of examined(sources, task, surroundings, threads)) {
      progress.at(done++);
      // Each thread tells of settings that it comes upon; once is enough.
      if (settings !== undefined && !told.has(settings.uri)) {
        told.add(settings.uri);
        tell(settings);
      }
      tell(file);
      if (unreadable !== undefined) problems.push(unreadable);
      for (const sentence of [unreadable, remark]) if (sentence !== undefined) terminal.say(printable(sentence));
    }
    progress.end();
    if (form !== undefined) terminal.out(form.end(tally, problems));
    if (revision !== undefined && tally.files === 0 && problems.length === 0) terminal.say(printable(`None of the files, nor anything that they use, has changed since ${revision}, so nothing was checked.`));
    for (const sentence of await baseline.end(problems.length)) terminal.say(printable(sentence));
    if (problems.length > 0) return 2;
    return baseline.failsNothing !== true && hasAtLeast(tally, least) ? 1 : 0;
  },
};

/** How findings are written; undefined where they go into a baseline. */
function formOf(options: Options, { terminal }: Surroundings): FindingsForm | undefined {
  const format = oneOf(options, 'format', FORMATS, options.has('json') ? 'json' : 'text');
  if (options.has('json') && format !== 'json') throw new Refusal(`--json and --format ${format} contradict each other: leave one out.`);
  const page = options.get('help-page');
  if (page !== undefined && format !== 'sarif') throw new Refusal('--help-page is for the links of --format sarif, and means nothing without it.');
  if (page !== undefined && !isWebAddress(page)) throw new Refusal(`--help-page takes an address that begins with https:// or http://, not "${page}".`);
  if (options.has('write-baseline')) {
    if (options.has('format') || options.has('json')) throw new Refusal('--write-baseline tells no findings, so a format has no meaning with it: leave one out.');
    return undefined;
  }
  const top = canonicalUri(pathToFileURL(rootOfRepository(process.cwd()) ?? process.cwd()).href);
  const base = top.endsWith('/') ? top : `${top}/`;
  switch (format) {
    case 'text':
      return findingsText({ width: terminal.width, paint: terminal.paint });
    case 'json':
      return findingsJson;
    case 'sarif':
      return findingsSarif({ version, rules: allRules(), base, page });
    case 'github':
      return findingsGithub({ rules: allRules(), base });
  }
}

function isWebAddress(text: string): boolean {
  return /^https?:\/\/[^\s/]+/.test(text) && URL.canParse(text);
}

/** What is done with what is known, by the options. */
interface BaselineWork {
  readonly rest: (file: CheckedFile) => CheckedFile;
  /** Sentences on what was done. @throws Refusal */
  readonly end: (unreadable: number) => Promise<readonly string[]>;
  /** What was found has been written down, and is no failure. */
  readonly failsNothing?: true;
}

/** @throws Refusal for options that contradict each other, or a file that is no baseline */
async function baselineOf(options: Options): Promise<BaselineWork> {
  const [from, to] = [options.get('baseline'), options.get('write-baseline')];
  if (to !== undefined) {
    if (from !== undefined) throw new Refusal('--baseline leaves out what is known, and --write-baseline writes down all that is found: give one of them.');
    if (options.has('changed-since')) throw new Refusal('--write-baseline writes down all that is found, so it cannot look at changed files only: leave --changed-since out.');
    const writer = new BaselineWriter(to);
    return {
      failsNothing: true,
      rest(file) {
        writer.add(file);
        return file;
      },
      async end(unreadable) {
        if (unreadable > 0) return [`${slashes(to)} was not written, for ${counted(unreadable, 'file')} could not be read, and what is in ${unreadable === 1 ? 'it' : 'them'} is not known.`];
        const { findings, files } = await writer.write();
        return [`${slashes(to)} lists ${counted(findings, 'finding')} in ${counted(files, 'file')}. Leave them out with: proofsheet check --baseline ${slashes(to)}`];
      },
    };
  }
  if (from === undefined) return { rest: (file) => file, end: () => Promise.resolve([]) };
  const filter = new BaselineFilter(from, await readBaseline(from));
  return {
    rest: (file) => filter.rest(file),
    async end() {
      const { leftOut, idle } = await filter.counts();
      return [
        ...(leftOut > 0 ? [`${counted(leftOut, 'finding')} that ${slashes(from)} lists ${leftOut === 1 ? 'is' : 'are'} left out.`] : []),
        ...(idle > 0 ? [`${slashes(from)} lists ${counted(idle, 'finding')} that ${idle === 1 ? 'is' : 'are'} no longer there. To make it shorter: proofsheet check --write-baseline ${slashes(from)}`] : []),
      ];
    },
  };
}

function threadsAskedFor(options: Options): number | undefined {
  const text = options.get('threads');
  if (text === undefined) return undefined;
  const threads = Number(text);
  if (!/^\d+$/.test(text) || threads < 1 || threads > 64) throw new Refusal(`--threads takes a number from 1 to 64, not "${text}".`);
  return threads;
}

/** What became of each file, in their order, by as many threads as pay. */
async function* examined(sources: readonly Source[], task: Task, { stdin, startThread }: Surroundings, asked: number | undefined): AsyncGenerator<Examined> {
  const threads = asked ?? (sources.length < LEAST_FOR_THREADS ? 1 : Math.min(MOST_THREADS, availableParallelism()));
  // Standard input is read here.
  if (threads > 1 && startThread !== undefined && sources.every(({ file }) => file !== undefined)) {
    yield* examinedByThreads(sources, task, threads, startThread);
    return;
  }
  const examine = examiner(new Documents(task.roots), task, stdin);
  for (const source of sources) yield await examine(source);
}
