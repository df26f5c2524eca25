/** Reads files and parses them, the only things that wait. Others are heard meanwhile. */
import { MOST_FILES } from './files';
import type { Files, FileState } from './files';
import { parsing } from './parsed';
import type { Reader } from './project';
import { Turns } from './turns';

/** Files that are asked for at once: a disk answers many as soon as one, and between two answers everybody else has a turn. */
const MOST_AT_ONCE = 32;

export class Loading {
  readonly #reader: Reader;
  readonly #files: Files;
  readonly #onChange: () => void;

  /** @param onChange told of each text that was read */
  constructor(reader: Reader, files: Files, onChange: () => void) {
    this.#reader = reader;
    this.#files = files;
    this.#onChange = onChange;
  }

  /** Reads and parses a file and all that it uses. */
  async reach(start: FileState): Promise<void> {
    const reached = new Set<FileState>([start]);
    for (const state of reached) {
      if (!state.fresh) await this.#read(state);
      if (state.parsed?.source !== state.text) await this.#parse(state);
      for (const target of this.#files.targets(state)) if (reached.size < MOST_FILES) reached.add(this.#files.of(target));
    }
  }

  /** Reads files that were not read or have changed since. Nothing is parsed. */
  async read(states: readonly FileState[]): Promise<void> {
    const waiting = states.filter(state => !state.fresh).values();
    const one = async (): Promise<void> => {
      for (const state of waiting) await this.#read(state);
    };
    await Promise.all(Array.from({ length: MOST_AT_ONCE }, one));
  }

  async #read(state: FileState): Promise<void> {
    state.reading ??= (async () => {
      try {
        while (!state.fresh) {
          const { changes } = state;
          const text = await this.#reader.read(state.uri);
          if (changes !== state.changes) continue;
          if (text === undefined) state.parsed = undefined;
          state.text = text;
          state.lineIndex = undefined;
          state.fresh = true;
          this.#onChange();
        }
      } finally {
        state.reading = undefined;
      }
    })();
    await state.reading;
  }

  /** Parses in turns: an edit that arrives in between starts it afresh, with the blocks done so far. */
  async #parse(state: FileState): Promise<void> {
    const turns = new Turns();
    while (state.text !== undefined && state.parsed?.source !== state.text) {
      const { text } = state;
      const work = parsing(state.uri, text, state.isMarkdown, state.parsed, state.lineIndex);
      for (let step = work.next(); ; step = work.next()) {
        if (step.done === true) {
          state.parsed = step.value;
          break;
        }
        if (!turns.isOver()) continue;
        await turns.next();
        if (state.text !== text || state.parsed?.source === text) break;
      }
    }
  }
}
