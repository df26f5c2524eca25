/**
 * The settings files of a workspace: which of them counts for a file, read when first asked for and again after a change.
 * The text in an editor wins over the one on disk.
 */
import { NO_SETTINGS, readSettings, type SettingsProblem } from '../core/settings/read';
import { layered, SETTINGS_FILE, type Settings } from '../core/settings/settings';
import { lineIndexOf } from './lines';
import type { LineIndex } from './lines';
import type { Reader } from './project';
import { rememberedByText } from './remembered';
import { baseName, besideAndAbove, canonicalUri } from './uris';

/** A settings file that is there. As long as its text is the same, so is the object. */
export interface SettingsInFile {
  readonly uri: string;
  readonly text: string;
  readonly lineIndex: LineIndex;
  readonly settings: Settings;
  readonly problems: readonly SettingsProblem[];
}

interface State {
  readonly uri: string;
  open: boolean;
  fresh: boolean;
  /** Counts changes, so that a text read before one is not taken for the text after it. */
  changes: number;
  reading: Promise<void> | undefined;
  /** Undefined: not read yet, or not there. */
  file: SettingsInFile | undefined;
}

/** Whether a file is one of settings, by its name. */
export function isSettings(uri: string): boolean {
  return baseName(uri) === SETTINGS_FILE;
}

/** Told of a settings file that was read, changed or went away. */
export type OnSettings = (uri: string, file: SettingsInFile | undefined) => void;

/** As many combinations of settings as a workspace is likely to have at once. */
const MOST_REMEMBERED = 32;

export class SettingsFiles {
  readonly #reader: Reader;
  readonly #onChange: OnSettings;
  readonly #states = new Map<string, State>();
  /** Where a file's settings may be, from these folders. */
  #places: { readonly roots: readonly string[]; readonly of: (uri: string) => readonly string[] } | undefined;
  #combined: { readonly base: Settings; readonly over: Settings; readonly settings: Settings }[] = [];

  constructor(reader: Reader, onChange: OnSettings) {
    this.#reader = reader;
    this.#onChange = onChange;
  }

  /** Canonical URIs of the places where a settings file was looked for. */
  known(): readonly string[] {
    return [...this.#states.keys()];
  }

  /** Reads as far as it takes to know which settings count for a file. */
  async load(uri: string, roots: readonly string[]): Promise<void> {
    for (const candidate of this.#placesFor(uri, roots)) {
      if (await this.read(candidate) !== undefined) return;
    }
  }

  /** The settings file that counts for a file, as far as is known without waiting. */
  nearest(uri: string, roots: readonly string[]): SettingsInFile | undefined {
    for (const candidate of this.#placesFor(uri, roots)) {
      const file = this.#states.get(candidate)?.file;
      if (file !== undefined) return file;
    }
    return undefined;
  }

  /** The settings file at that place, read if it has changed; undefined when there is none. */
  async read(uri: string): Promise<SettingsInFile | undefined> {
    const state = this.#state(uri);
    if (state.fresh) return state.file;
    state.reading ??= (async () => {
      try {
        while (!state.fresh) {
          const { changes } = state;
          const text = await this.#reader.read(state.uri);
          if (changes !== state.changes) continue;
          state.fresh = true;
          this.#take(state, text);
        }
      } finally {
        state.reading = undefined;
      }
    })();
    await state.reading;
    return state.file;
  }

  /** The editor holds this text, saved or not. */
  update(uri: string, text: string): void {
    const state = this.#state(uri);
    Object.assign(state, { open: true, fresh: true });
    state.changes++;
    this.#take(state, text);
  }

  /** What counts is on disk again. */
  close(uri: string): void {
    const state = this.#states.get(canonicalUri(uri));
    if (state === undefined) return;
    state.open = false;
    this.#stale(state);
  }

  /** The file was changed, created or deleted on disk. False when that is nothing to anybody. */
  invalidate(uri: string): boolean {
    const state = this.#states.get(canonicalUri(uri));
    if (state === undefined || state.open) return false;
    this.#stale(state);
    return true;
  }

  /**
   * The file's settings laid over the base ones. The same two give the same object, and limits or severities that say the
   * same as before are the same objects, so that a change of time zone is no reason to look at every formula again.
   */
  over(base: Settings, file: SettingsInFile | undefined): Settings {
    const over = file?.settings ?? NO_SETTINGS;
    const known = this.#combined.find(one => one.base === base && one.over === over);
    if (known !== undefined) return known.settings;
    const { limits, checks, ...rest } = layered(base, over);
    const settings: Settings = { ...rest, limits: this.#asBefore('limits', limits), checks: this.#asBefore('checks', checks) };
    this.#combined = [...this.#combined.slice(1 - MOST_REMEMBERED), { base, over, settings }];
    return settings;
  }

  /** Every keystroke asks for them. */
  #placesFor(uri: string, roots: readonly string[]): readonly string[] {
    if (this.#places?.roots !== roots) this.#places = { roots, of: rememberedByText(file => besideAndAbove(file, SETTINGS_FILE, roots)) };
    return this.#places.of(uri);
  }

  #asBefore<K extends 'limits' | 'checks'>(key: K, value: Settings[K]): Settings[K] {
    const text = JSON.stringify(value);
    return this.#combined.map(one => one.settings[key]).find(other => JSON.stringify(other) === text) ?? value;
  }

  #state(uri: string): State {
    const key = canonicalUri(uri);
    let state = this.#states.get(key);
    if (state === undefined) {
      state = { uri: key, open: false, fresh: false, changes: 0, reading: undefined, file: undefined };
      this.#states.set(key, state);
    }
    return state;
  }

  #stale(state: State): void {
    state.fresh = false;
    state.changes++;
  }

  #take(state: State, text: string | undefined): void {
    if (state.file?.text === text) return;
    state.file = text === undefined ? undefined : { uri: state.uri, text, lineIndex: lineIndexOf(text), ...readSettings(text) };
    this.#onChange(state.uri, state.file);
  }
}
