/** `proofsheet format`: the canonical layout of the files, to be read, checked or written back. */
import { format as formatBake } from '../../grammar';
import { counted } from '../output/numbers';
import { printable } from '../output/width';
import { edited, isMarkdownName, markdownPageOf } from '../project/markdown';
import { cannotRead, readSource, replaceFile, sourcesOf } from './files';
import { Refusal, worst, type ExitStatus } from './refusal';
import type { Verb } from './verb';

export const format: Verb = {
  name: 'format',
  summary: 'lays the text out anew',
  takes: '[FILES or FOLDERS]',
  about: [
    'Lines the text of .bake files up in the canonical layout. No number, name or comment changes. Without an option one file '
      + 'is printed as it would be; "-" reads standard input. Of a Markdown page only the ```bake fences are laid out.',
    'With --check the exit status is 1 when a file is not laid out so; its name is printed.',
  ],
  examples: ['proofsheet format rye.bake', 'proofsheet format --write formulas/', 'proofsheet format --check'],
  options: {
    write: { what: 'rewrites the files that change' },
    check: { what: 'names the files that would change, and changes nothing' },
  },
  async run(options, { terminal, stdin }) {
    const [write, checkOnly] = [options.has('write'), options.has('check')];
    if (write && checkOnly) throw new Refusal('--write and --check cannot both be given: one changes files, the other must not.');
    if (options.files.length === 0 && !write && !checkOnly) {
      throw new Refusal('Name a file to lay out, or "-" for standard input; --write and --check take the current folder when none is named.');
    }
    const { sources, problems } = await sourcesOf(options.files.length === 0 ? ['.'] : options.files);
    if (sources.length > 1 && !write && !checkOnly) {
      throw new Refusal(`Those are ${String(sources.length)} files, and only one can be printed. Add --write to rewrite them, or --check to see which would change.`);
    }
    for (const problem of problems) terminal.say(printable(problem));
    let status: ExitStatus = problems.length > 0 ? 2 : 0;
    let changed = 0;
    for (const source of sources) {
      if (write && source.file === undefined) throw new Refusal('Standard input cannot be rewritten: leave --write out.');
      const read = await readSource(source, stdin);
      if (read.kind === 'unreadable') {
        terminal.say(printable(read.sentence));
        status = 2;
        continue;
      }
      const text = isMarkdownName(source.shown) ? formatMarkdown(read.text) : formatBake(read.text);
      const front = read.bom ? '\uFEFF' : '';
      if (!write && !checkOnly) {
        terminal.out(front + text);
        continue;
      }
      if (text === read.text) continue;
      changed += 1;
      if (checkOnly) {
        terminal.out(`${printable(source.shown)}\n`);
        status = worst(status, 1);
      } else if (source.file !== undefined) {
        try {
          await replaceFile(source.file, front + text);
        } catch (error) {
          changed -= 1;
          terminal.say(printable(cannotRead(source.shown, error)));
          status = 2;
        }
      }
    }
    const total = counted(sources.length, 'file');
    if (write) terminal.say(`${changed === 0 ? 'Nothing to change' : `${String(changed)} rewritten`}, of ${total}.`);
    if (checkOnly && changed > 0) terminal.say(`${String(changed)} of ${total} would change. To rewrite: proofsheet format --write`);
    return status;
  },
};

/** A Markdown page with each of its fences laid out by itself. */
function formatMarkdown(source: string): string {
  const page = markdownPageOf(source);
  return edited(source, page.fences.flatMap(({ start, end }) => {
    const before = page.text.slice(start, end);
    const after = formatBake(before);
    return before === after ? [] : [page.edit(start, end, after)];
  }));
}
