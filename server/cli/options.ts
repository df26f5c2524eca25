/** Reads a command line against what a verb takes, and says in plain sentences what it does not take. */
import { parseArgs } from 'node:util';
import { didYouMean } from './nearest';
import { Refusal } from './refusal';

export interface OptionSpec {
  /** What stands for its value in the help: `NAME`; undefined for an option that takes none. */
  readonly value?: string;
  /** One line of help. */
  readonly what: string;
}

export type OptionSpecs = Readonly<Record<string, OptionSpec>>;

export interface Options {
  readonly files: readonly string[];
  has(name: string): boolean;
  /** The value of an option; the last one when it is given twice. */
  get(name: string): string | undefined;
  /** Every value of an option that may be given several times, in order. */
  all(name: string): readonly string[];
}

/** @throws Refusal for an option that is unknown, lacks its value or has one too many. */
export function readOptions(verb: string, args: readonly string[], specs: OptionSpecs): Options {
  const { tokens } = parseArgs({
    args: [...args],
    strict: false,
    allowPositionals: true,
    tokens: true,
    options: Object.fromEntries(Object.entries(specs).map(([name, { value }]) => [name, { type: value === undefined ? 'boolean' : 'string' }])),
  });
  const seeHelp = `Run "proofsheet ${verb} --help" for what it takes.`;
  const files: string[] = [];
  const given = new Map<string, string[]>();
  for (const token of tokens) {
    if (token.kind === 'positional') files.push(token.value);
    if (token.kind !== 'option') continue;
    const { name, rawName, value } = token;
    const spec = Object.hasOwn(specs, name) ? specs[name] : undefined;
    if (spec === undefined) {
      throw new Refusal(`There is no option ${rawName} for ${verb}.${didYouMean(name, Object.keys(specs), (each) => `--${each}`)} ${seeHelp}`);
    }
    if (spec.value === undefined && value !== undefined) throw new Refusal(`${rawName} takes no value. ${seeHelp}`);
    if (spec.value !== undefined && (value === undefined || value === '')) {
      throw new Refusal(`${rawName} needs a value: ${rawName} ${spec.value}. ${seeHelp}`);
    }
    given.set(name, [...(given.get(name) ?? []), value ?? '']);
  }
  return { files, has: (name) => given.has(name), get: (name) => given.get(name)?.at(-1), all: (name) => given.get(name) ?? [] };
}

/** The value of an option that takes one of a few words. */
export function oneOf<T extends string>(options: Options, name: string, allowed: readonly T[], otherwise: T): T {
  const value = options.get(name);
  if (value === undefined) return otherwise;
  const found = allowed.find((each) => each === value);
  if (found === undefined) throw new Refusal(`--${name} takes ${words(allowed)}, not "${value}".${didYouMean(value, allowed)}`);
  return found;
}

/** `a, b or c` */
export function words(list: readonly string[]): string {
  return list.length < 2 ? (list[0] ?? '') : `${list.slice(0, -1).join(', ')} or ${list.at(-1) ?? ''}`;
}
