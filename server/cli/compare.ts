/** `proofsheet compare`: two versions by what they mean. */
import path from 'node:path';
import type { Readable } from 'node:stream';
import { compareFiles, type SectionChanges } from '../core/compare';
import { compareJson } from '../output/compare-json';
import { compareMarkdown } from '../output/compare-markdown';
import { otherLines, summaryLines } from '../output/compare-summary';
import { compareText } from '../output/compare-text';
import { atLeast } from '../output/findings';
import { printable } from '../output/width';
import { isMarkdownName } from '../project/markdown';
import { committed, conflictSides, given, givenText, loaded, NOTHING, type Given, type Side } from './compare-sides';
import { entryOf } from './documents';
import { readSource } from './files';
import { foldersOf, repositoryAt } from './git';
import { oneOf, type Options } from './options';
import { Refusal, type ExitStatus } from './refusal';
import type { Terminal } from './terminal';
import type { Verb } from './verb';

export const compare: Verb = {
  name: 'compare',
  summary: 'tells what changed between two versions, by what they mean',
  takes: 'BEFORE AFTER',
  about: [
    'Tells what changed in each formula: allergens gained and lost first of all, totals before and after, ingredients, amounts, steps, '
      + 'and findings that appeared or are gone. A formula that was only scaled, laid out anew or written another way is told as that.',
    'A version is a file, a folder, REVISION:PATH of the git repository, or "-" for standard input. With one file or folder alone, its '
      + 'committed version is compared with it; of a file in which a merge left conflicts, the two sides are compared with each other. Of a '
      + 'revision, the files that a formula uses are those of that revision.',
    'As a diff driver of git it takes the seven or nine arguments that git gives; with --summary FILE it prints plain lines that say what a '
      + 'file means, for git to compare line by line (textconv).',
    'The exit status is 0 whether they differ or not, 1 when a finding appeared at or above --fail-on, and 2 when a version cannot be read.',
  ],
  examples: [
    'proofsheet compare rye.bake', 'proofsheet compare HEAD~3:rye.bake rye.bake', 'proofsheet compare old/ new/ --format markdown', 'proofsheet compare main: . --fail-on warning',
    'git config diff.proofsheet.command "proofsheet compare --"',
  ],
  options: {
    json: { what: 'the same as --format json' },
    format: { value: 'text|markdown|json', what: 'markdown is for a comment on a change; text if left out' },
    'fail-on': { value: 'error|warning|info', what: 'the least severity of a new finding that fails; if left out, none does' },
    summary: { what: 'takes one file and prints what it says in plain lines' },
  },
  async run(options, { terminal, stdin }) {
    if (options.has('summary')) return await summary(options, terminal, stdin);
    const { files } = options;
    if (isFromGit(files)) return await fromGit(files, terminal, stdin);
    const [first, second, ...more] = files;
    if (first === undefined || more.length > 0) {
      throw new Refusal('Name two versions, the earlier one first: proofsheet compare BEFORE AFTER. One file alone is compared with its committed version.');
    }
    if (first === '-' && second === '-') throw new Refusal('Standard input can be one of the two versions, not both.');
    const [before, after] = await bothOf(first, second, terminal, stdin);
    return await tell(before, after, options, terminal);
  },
};

async function bothOf(first: string, second: string | undefined, terminal: Terminal, stdin: Readable): Promise<readonly [Given, Given]> {
  const a = await given(first, stdin);
  const b = second === undefined ? undefined : await given(second, stdin);
  for (const side of b === undefined ? [a] : [b, a]) {
    const sides = conflictSides(side);
    if (sides === undefined) continue;
    terminal.say(printable(`${side.shown} has the conflicts of a merge in it. Its own two sides are compared: ${nameOr(sides[0], side, 'the first')} with ${nameOr(sides[1], side, 'the second')}.`));
    return sides;
  }
  for (const { texts } of b === undefined ? [a] : [a, b]) {
    for (const { key, isOneOfTwo } of texts) {
      if (isOneOfTwo) terminal.say(printable(`${key} has the conflicts of a merge in it: the first of its two sides is taken here. Name that file alone to have the two compared.`));
    }
  }
  if (b !== undefined) {
    // A file and a folder are two of a kind only where each is one file.
    if (a.isFile !== b.isFile && a !== NOTHING && b !== NOTHING) throw new Refusal('One is a file and the other a folder: name two files, or two folders.');
    return [a, b];
  }
  if (a.isOnDisk !== true) throw new Refusal('Name the other version too: proofsheet compare BEFORE AFTER.');
  return [await committed(first), a];
}

function nameOr(side: Given, whole: Given, otherwise: string): string {
  return side.shown === whole.shown ? otherwise : side.shown;
}

async function tell(before: Given, after: Given, options: Options, terminal: Terminal): Promise<ExitStatus> {
  const format = oneOf(options, 'format', ['text', 'markdown', 'json'] as const, options.has('json') ? 'json' : 'text');
  if (options.has('json') && format !== 'json') throw new Refusal(`--json and --format ${format} contradict each other: leave one out.`);
  const least = options.has('fail-on') ? oneOf(options, 'fail-on', ['error', 'warning', 'info'] as const, 'error') : undefined;
  const [was, is] = [await loaded(before), await loaded(after)];
  const changes = compareFiles(was.files, is.files);
  const allergens = allergensIn(is, was);
  switch (format) {
    case 'json':
      terminal.out(compareJson(changes));
      break;
    case 'markdown':
      terminal.out(compareMarkdown(changes, { allergens }));
      break;
    case 'text':
      terminal.out(compareText(changes, { width: terminal.width, paint: terminal.paint, allergens }));
  }
  return least !== undefined && appeared(changes).some((severity) => atLeast(severity, least)) ? 1 : 0;
}

/** By the settings of the later version. */
function allergensIn(...sides: readonly Side[]): 'eu' | 'us' | 'both' {
  return sides.flatMap(({ loaded: files }) => files.map(({ settings }) => settings.allergens ?? 'both'))[0] ?? 'both';
}

function appeared(changes: readonly SectionChanges[]) {
  return changes.flatMap((section) => section.changes.flatMap(({ what, before, after }) => (what === 'finding' && before === undefined && after?.severity !== undefined ? [after.severity] : [])));
}

// --- git's diff driver ------------------------------------------------------------------------------------------------

/** `path old-file old-hex old-mode new-file new-hex new-mode [new-path details]`, as gitattributes and git's own manual have it. */
function isFromGit(files: readonly string[]): boolean {
  const [, , oldHex = '', oldMode = '', , newHex = '', newMode = ''] = files;
  const isHex = (text: string): boolean => /^(?:\.|[0-9a-f]{4,64})$/.test(text);
  const isMode = (text: string): boolean => /^(?:\.|[0-7]{1,6})$/.test(text);
  return (files.length === 7 || files.length === 9) && [oldHex, newHex].every(isHex) && [oldMode, newMode].every(isMode);
}

/**
 * Status 0 whatever there is to tell, and everything on standard output: git ends its whole run when a driver fails. What a formula uses is
 * read from the working folder for both sides, since git does not say which commit a text is of.
 */
async function fromGit(files: readonly string[], terminal: Terminal, stdin: Readable): Promise<ExitStatus> {
  const [name = '', oldFile = '', , , newFile = '', , , newName = name] = files;
  const heading = newName === name ? name : `${name} → ${newName}`;
  const what = oldFile === '/dev/null' ? ', a new file' : newFile === '/dev/null' ? ', deleted' : newName === name ? '' : ', renamed';
  terminal.out(`${terminal.paint.strong(printable(`${heading}${what}`))}\n`);
  try {
    if (!/\.bake$/i.test(newName) && !isMarkdownName(newName)) throw new Refusal(`${newName} is no .bake file, so there is nothing to tell of it.`);
    const side = async (file: string, standsAt: string): Promise<Given> => {
      if (file === '/dev/null') return NOTHING;
      const read = await readSource({ shown: standsAt, file: path.resolve(file) }, stdin);
      if (read.kind === 'unreadable') throw new Refusal(read.sentence);
      return await givenText(standsAt, path.resolve(standsAt), read.text);
    };
    const [before, after] = [await side(oldFile, name), await side(newFile, newName)];
    const conflict = conflictSides(after);
    if (conflict !== undefined) terminal.out('It has the conflicts of a merge in it; its two sides are compared.\n');
    const [was, is] = [await loaded(conflict?.[0] ?? before), await loaded(conflict?.[1] ?? after)];
    terminal.out(`${compareText(compareFiles(was.files, is.files), { width: terminal.width, paint: terminal.paint, allergens: allergensIn(is, was) })}\n`);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    terminal.out(`${printable(error.message)}\n\n`);
  }
  return 0;
}

// --- textconv ---------------------------------------------------------------------------------------------------------

async function summary(options: Options, terminal: Terminal, stdin: Readable): Promise<ExitStatus> {
  const [name, ...more] = options.files;
  if (name === undefined || more.length > 0) throw new Refusal('--summary takes one file: proofsheet compare --summary rye.bake.');
  const one = await given(name, stdin);
  if (!one.isFile) throw new Refusal('--summary takes one file, not a folder.');
  const home = await atHome(name, one);
  const sides = conflictSides(home);
  if (sides === undefined) terminal.out(await summaryOf(home));
  else for (const side of sides) terminal.out(`${printable(nameOr(side, home, 'another side'))}, of two versions that a merge left:\n${await summaryOf(side)}`);
  return 0;
}

async function summaryOf(one: Given): Promise<string> {
  const lines = (await loaded(one)).loaded.flatMap((file) => file.sections.flatMap((section) => {
    const entry = entryOf(file, section);
    return [...(entry === undefined ? otherLines(section.section) : summaryLines(entry)), ''];
  }));
  return `${lines.join('\n').trimEnd()}\n`;
}

/** git hands over a copy in a folder for passing things. Where one folder only has a file of that name, it is taken to stand there, so that its `use` lines lead somewhere. */
async function atHome(name: string, one: Given): Promise<Given> {
  const [text] = one.texts;
  if (text === undefined || !path.isAbsolute(name)) return one;
  try {
    const repository = await repositoryAt(process.cwd());
    if (!path.relative(repository.top, text.file).startsWith('..')) return one;
    // Older versions of git write the name behind letters of their own.
    const base = path.basename(text.file);
    for (const candidate of [base, base.replace(/^[A-Za-z0-9]{6}_/, '')]) {
      const folders = await foldersOf(repository, candidate);
      if (folders.length === 1) return await givenText(candidate, path.join(repository.top, folders[0] ?? '', candidate), text.text);
    }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error; // no repository here, so nobody knows of another home
  }
  return one;
}
