/** `proofsheet check`: what is wrong or doubtful in the files. */
import { atLeast, type CheckedFile } from '../output/findings';
import { findingsJson } from '../output/findings-json';
import { findingsText } from '../output/findings-text';
import { eachDocument, findingsOf, settingsFindingsOf } from './documents';
import { printable } from '../output/width';
import { lineIndexOf, type LineIndex } from '../project/lines';
import { oneOf } from './options';
import { Refusal } from './refusal';
import type { Verb } from './verb';

const LATER_FORMATS = ['sarif', 'github'];

export const check: Verb = {
  name: 'check',
  summary: 'tells what is wrong or doubtful',
  takes: '[FILES or FOLDERS]',
  about: [
    'Reads .bake files and lists what was found, each with its line, its severity and its code. Folders are walked; without '
      + 'any, the current one is. "-" reads standard input. Of a Markdown page that is named, the ```bake fences are read.',
    'Limits and severities are those of the nearest proofsheet.json, in the folder of a file or above it; what is wrong with it is '
      + 'listed too.',
    'The exit status is 1 when there is a finding at or above --fail-on, and 2 when a file cannot be read.',
  ],
  examples: ['proofsheet check', 'proofsheet check formulas/ --fail-on warning', 'proofsheet check rye.bake --json'],
  options: {
    json: { what: 'the same as --format json' },
    format: { value: 'text|json', what: 'how findings are written; text if left out' },
    'fail-on': { value: 'error|warning|info', what: 'the least severity that fails; error if left out' },
  },
  async run(options, { terminal, stdin }) {
    const wanted = options.get('format');
    if (wanted !== undefined && LATER_FORMATS.includes(wanted)) throw new Refusal(`--format ${wanted} is not in this version yet.`);
    const format = oneOf(options, 'format', ['text', 'json'] as const, options.has('json') ? 'json' : 'text');
    if (options.has('json') && format !== 'json') throw new Refusal('--json and --format text contradict each other: leave one out.');
    const least = oneOf(options, 'fail-on', ['error', 'warning', 'info'] as const, 'error');

    const files: CheckedFile[] = [];
    const lineTextOf = (text: string, lineIndex: LineIndex) => (line: number): string => {
      const { start, end } = lineIndex.lineAt(line - 1);
      return text.slice(start, end);
    };
    const { unreadable } = await eachDocument(options, terminal, stdin, ({ shown, file }) => {
      const { page, text, lineIndex } = file;
      const lineText = page === undefined ? lineTextOf(text, lineIndex) : lineTextOf(page.source, lineIndexOf(page.source));
      files.push({ path: shown, findings: findingsOf(file), lineText });
      if (page?.fences.length === 0) terminal.say(printable(`${shown} has no \`\`\`bake fence, so nothing in it was checked.`));
    }, ({ shown, file }) => {
      // Nobody asked about settings that are in order.
      if (file.problems.length > 0 || options.files.includes(shown)) files.push({ path: shown, findings: settingsFindingsOf(file), lineText: lineTextOf(file.text, file.lineIndex) });
    });
    if (format === 'json') terminal.out(findingsJson(files));
    else if (files.length > 0) terminal.out(findingsText(files, { width: terminal.width, paint: terminal.paint }));
    if (unreadable > 0) return 2;
    return files.some(({ findings }) => findings.some(({ severity }) => atLeast(severity, least))) ? 1 : 0;
  },
};
