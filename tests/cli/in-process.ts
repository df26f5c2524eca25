/** The command line without a process around it, with the clock of the test's choosing. */
import { Readable } from 'node:stream';
import { run } from '../../server/cli/run';
import type { Terminal } from '../../server/cli/terminal';
import { plain } from '../../server/output/paint';
import type { Ran } from './program';

/** Long before the times that tests ask for, so that none of them has passed. */
export const EARLY = Date.UTC(2020, 0, 1);

export interface Around {
  readonly input?: string;
  readonly nowMs?: number;
  readonly systemZone?: string;
}

export async function ran(args: readonly string[], { input = '', nowMs = EARLY, systemZone = 'Europe/Lisbon' }: Around = {}): Promise<Ran> {
  let [out, err] = ['', ''];
  const terminal: Terminal = {
    out: (text) => (out += text), say: (sentence) => (err += `${sentence}\n`), progress: () => undefined, paint: plain, width: 100,
  };
  const status = await run(args, { terminal, stdin: Readable.from([Buffer.from(input)]), systemZone, nowMs }, true);
  return { status, out, err };
}
