/** From the words of a command line to an exit status. Everything that goes wrong ends here, as a sentence. */
import { version } from '../../package.json';
import { printable } from '../output/width';
import { didYouMean } from './nearest';
import { readOptions } from './options';
import { Refusal, type ExitStatus } from './refusal';
import type { Surroundings, Verb } from './verb';

/** In the order of the help. Each is read when it is asked for: a check does not wait for the rest. */
const VERBS: ReadonlyMap<string, () => Promise<Verb>> = new Map([
  ['check', async () => (await import('./check')).check],
  ['sheet', async () => (await import('./sheet')).sheet],
  ['schedule', async () => (await import('./schedule')).schedule],
  ['scale', async () => (await import('./scale')).scale],
  ['format', async () => (await import('./format')).format],
  ['compare', async () => (await import('./compare')).compare],
  ['export', async () => (await import('./export')).exportVerb],
  ['convert', async () => (await import('./convert')).convertVerb],
  ['record', async () => (await import('./record')).record],
]);

/** Runs one command line. Never throws: a refusal or a fault is said on the terminal. */
export async function run(args: readonly string[], surroundings: Surroundings, debug: boolean): Promise<ExitStatus> {
  const { terminal } = surroundings;
  try {
    return await dispatch(args, surroundings);
  } catch (error) {
    terminal.progress('');
    if (error instanceof Refusal) terminal.say(printable(error.message));
    else terminal.say(faultSentence(error, debug));
    return 2;
  }
}

/** What is said about a fault of the program itself. */
export function faultSentence(error: unknown, debug: boolean): string {
  const message = error instanceof Error ? error.message : String(error);
  if (debug && error instanceof Error && error.stack !== undefined) return error.stack;
  return printable(`Proofsheet came upon a fault of its own and stopped: ${message} (PROOFSHEET_DEBUG=1 tells where.)`);
}

async function dispatch(args: readonly string[], surroundings: Surroundings): Promise<ExitStatus> {
  const { terminal } = surroundings;
  const [word, ...rest] = args;
  if (word === undefined) {
    terminal.say((await helpOnAll()).trimEnd());
    return 2;
  }
  if (word === '--version' || word === '-V') {
    terminal.out(`${version}\n`);
    return 0;
  }
  if (word === '--help' || word === '-h' || word === 'help') {
    const about = await VERBS.get(rest[0] ?? '')?.();
    terminal.out(about === undefined ? await helpOnAll() : await helpOn(about));
    return 0;
  }
  const verb = await VERBS.get(word)?.();
  if (verb === undefined) throw new Refusal(notAVerb(word));
  // Asked for help, whatever else stands there; a file of that name comes after `--`.
  const asks = rest.slice(0, rest.includes('--') ? rest.indexOf('--') : undefined);
  if (asks.includes('--help') || asks.includes('-h')) {
    terminal.out(await helpOn(verb));
    return 0;
  }
  return verb.run(readOptions(verb.name, rest, verb.options), surroundings);
}

async function helpOnAll(): Promise<string> {
  const { generalHelp } = await import('./help');
  return generalHelp(await Promise.all([...VERBS.values()].map(read => read())));
}

async function helpOn(verb: Verb): Promise<string> {
  return (await import('./help')).verbHelp(verb);
}

function notAVerb(word: string): string {
  const names = [...VERBS.keys()];
  if (word.startsWith('-')) return `The verb comes first: proofsheet VERB [FILES or FOLDERS] [options]. Verbs are ${names.join(', ')}.`;
  const nearest = didYouMean(word, names);
  return `There is no verb "${word}".${nearest === '' ? ` Verbs are ${names.join(', ')}.` : nearest} Run "proofsheet --help" for what there is.`;
}
