/** What a verb of the command line is. One file a verb. */
import type { Readable } from 'node:stream';
import type { StartThread } from './checking/threads';
import type { Options, OptionSpecs } from './options';
import type { ExitStatus } from './refusal';
import type { Terminal } from './terminal';

export interface Surroundings {
  readonly terminal: Terminal;
  readonly stdin: Readable;
  /** IANA name of the zone that the machine is set to. */
  readonly systemZone: string;
  /** What time it is. */
  readonly nowMs: number;
  /** Left out where there are no threads to be had. */
  readonly startThread?: StartThread;
}

export interface Verb {
  readonly name: string;
  /** A few words, for the list of verbs. */
  readonly summary: string;
  /** What comes after the verb: `[FILES or FOLDERS]`. */
  readonly takes: string;
  /** Paragraphs of help, and examples. */
  readonly about: readonly string[];
  readonly examples: readonly string[];
  readonly options: OptionSpecs;
  /** @throws Refusal */
  readonly run: (options: Options, surroundings: Surroundings) => Promise<ExitStatus>;
}
