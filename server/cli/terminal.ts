/** The two streams that a program writes to, and what may be written there: colours, and how wide. */
import type { WriteStream } from 'node:tty';
import type { Paint } from '../output/paint';
import { plain } from '../output/paint';

export interface Terminal {
  /** What was asked for. */
  out(text: string): void;
  /** What went wrong, and what else the reader should know. One sentence or more; a line end is added. */
  say(sentence: string): void;
  /** Shows a passing line where somebody is looking; the next call, or an empty text, takes it away. */
  progress(text: string): void;
  readonly paint: Paint;
  readonly width: number;
}

type Environment = Readonly<Record<string, string | undefined>>;

/** Colours where somebody is looking, unless NO_COLOR says no; FORCE_COLOR has the last word either way. */
export function wantsColour(isTerminal: boolean, environment: Environment): boolean {
  const { FORCE_COLOR: force, NO_COLOR: no, TERM: term } = environment;
  if (force !== undefined && force !== '') return force !== '0' && force !== 'false';
  if (no !== undefined && no !== '') return false;
  return isTerminal && term !== 'dumb';
}

const WIDEST = 100;
const NARROWEST = 60;

const CODES = { strong: [1, 22], quiet: [2, 22], error: [31, 39], warning: [33, 39], info: [36, 39] } as const;

const coloured: Paint = {
  strong: (text) => inCodes('strong', text),
  quiet: (text) => inCodes('quiet', text),
  severity: (severity, text) => inCodes(severity, text),
};

function inCodes(name: keyof typeof CODES, text: string): string {
  const [on, off] = CODES[name];
  return `\u001b[${String(on)}m${text}\u001b[${String(off)}m`;
}

export function terminalOf(out: WriteStream, err: WriteStream, environment: Environment): Terminal {
  let passing = false;
  const clear = (): void => {
    if (passing) err.write('\r\u001b[K');
    passing = false;
  };
  // `isTTY` and `columns` are not there when the stream is a file or a pipe, whatever the types say.
  const isTerminal = (stream: WriteStream): boolean => (stream.isTTY as boolean | undefined) === true;
  return {
    out(text) {
      clear();
      out.write(text);
    },
    say(sentence) {
      clear();
      err.write(`${sentence}\n`);
    },
    progress(text) {
      clear();
      if (text === '' || !isTerminal(err)) return;
      err.write(text);
      passing = true;
    },
    paint: wantsColour(isTerminal(out), environment) ? coloured : plain,
    width: isTerminal(out) ? Math.min(WIDEST, Math.max(NARROWEST, out.columns)) : WIDEST,
  };
}
