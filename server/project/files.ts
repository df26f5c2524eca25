/** The files that are known: their texts, what was parsed of them, and which uses which. */
import type { Section } from '../core/formula/model';
import type { Remembered } from './environment';
import type { ProjectFile } from './file';
import type { LineIndex } from './lines';
import { isMarkdownName } from './markdown';
import { parsed } from './parsed';
import type { Parsed } from './parsed';
import type { Surroundings } from './surroundings';
import { canonicalUri, resolveUse } from './uris';

/** How many files one file may reach by `use`; the rest are taken as not there. */
export const MOST_FILES = 500;

export interface FileState {
  /** As the editor spells it, or the canonical spelling. */
  uri: string;
  open: boolean;
  /** Only its fences are formulas. */
  isMarkdown: boolean;
  /** Undefined: not read yet, or not there. */
  text: string | undefined;
  /** Of `text`, where whoever brought it knows it. */
  lineIndex: LineIndex | undefined;
  /** `text` is what the disk held when it was last asked, or what the editor holds. */
  fresh: boolean;
  /** Counts changes, so that a text read before one is not taken for the text after it. */
  changes: number;
  reading: Promise<void> | undefined;
  /** The last text that was parsed; may lag behind `text`. */
  parsed: Parsed | undefined;
  built: { readonly generation: number; readonly parts: readonly unknown[]; readonly file: ProjectFile } | undefined;
  analyses: WeakMap<Section, Remembered>;
  /** What the sections of the file had around them when it was last built. */
  around: Surroundings | undefined;
  /** Where the `use` lines of a text lead from these folders. */
  targets: { readonly usePaths: Parsed['usePaths']; readonly uri: string; readonly roots: readonly string[]; readonly uris: readonly string[] } | undefined;
}

export class Files {
  readonly #states = new Map<string, FileState>();
  readonly #roots: () => readonly string[];

  /** @param roots URIs of the workspace folders as they are now */
  constructor(roots: () => readonly string[]) {
    this.#roots = roots;
  }

  /** The state of a file by any spelling of its URI, made when nobody asked for it before. */
  of(uri: string): FileState {
    const key = canonicalUri(uri);
    let state = this.#states.get(key);
    if (state === undefined) {
      state = {
        uri: key, open: false, isMarkdown: isMarkdownName(key), text: undefined, lineIndex: undefined, fresh: false, changes: 0, reading: undefined, parsed: undefined,
        built: undefined, analyses: new WeakMap(), around: undefined, targets: undefined,
      };
      this.#states.set(key, state);
    }
    return state;
  }

  /** The state of a file that was asked for before. */
  known(uri: string): FileState | undefined {
    return this.#states.get(canonicalUri(uri));
  }

  /** Canonical URIs of all that was asked for. */
  keys(): readonly string[] {
    return [...this.#states.keys()];
  }

  all(): readonly FileState[] {
    return [...this.#states.values()];
  }

  /** The same files with nothing worked out of them but their trees. */
  copy(roots: () => readonly string[]): Files {
    const other = new Files(roots);
    for (const [key, state] of this.#states) other.#states.set(key, { ...state, reading: undefined, built: undefined, analyses: new WeakMap(), around: undefined });
    return other;
  }

  /** What a file parses to, without waiting; undefined when it was not read or is not there. */
  parsedNow(state: FileState): Parsed | undefined {
    if (state.text === undefined) return undefined;
    if (state.parsed?.source !== state.text || state.parsed.uri !== state.uri) {
      state.parsed = parsed(state.uri, state.text, state.isMarkdown, state.parsed, state.lineIndex);
    }
    return state.parsed;
  }

  /** Canonical URIs that the file's `use` lines name. */
  targets(state: FileState): readonly string[] {
    const { parsed: own, uri } = state;
    const roots = this.#roots();
    if (own === undefined || own.usePaths.length === 0) return NONE;
    if (state.targets?.usePaths === own.usePaths && state.targets.uri === uri && state.targets.roots === roots) return state.targets.uris;
    const uris = own.usePaths.flatMap(({ path }) => {
      const target = resolveUse(uri, path.text, roots);
      return target.kind === 'file' ? [target.uri] : [];
    });
    state.targets = { usePaths: own.usePaths, uri, roots, uris };
    return uris;
  }

  /** Files reached by `use`, nearest first. */
  visibleFrom(start: FileState): readonly Parsed[] {
    const reached = new Set<FileState>([start]);
    const visible: Parsed[] = [];
    for (const state of reached) {
      const own = this.parsedNow(state);
      if (own === undefined) continue;
      if (state !== start) visible.push(own);
      for (const target of this.targets(state)) {
        const used = this.#states.get(target);
        if (used !== undefined && reached.size < MOST_FILES) reached.add(used);
      }
    }
    return visible;
  }

  /** URIs of the files that use any of these, by whatever number of steps, and are none of them. */
  usersOf(uris: readonly string[]): readonly string[] {
    const users = new Map<string, string[]>();
    for (const [key, state] of this.#states) {
      for (const target of this.targets(state)) {
        const known = users.get(target);
        if (known === undefined) users.set(target, [key]);
        else known.push(key);
      }
    }
    const goals = uris.map(canonicalUri);
    const found = new Set<string>(goals);
    for (const key of found) for (const user of users.get(key) ?? NONE) found.add(user);
    for (const goal of goals) found.delete(goal);
    return [...found].map(key => this.#states.get(key)?.uri ?? key);
  }

  /** Lets go of every file that is neither open nor of these, by their canonical URIs, nor used, by whatever number of steps, by one that is. */
  keepOnly(uris: ReadonlySet<string>): void {
    const kept = new Set<string>();
    for (const [key, state] of this.#states) if (state.open || uris.has(key)) kept.add(key);
    for (const key of kept) {
      const state = this.#states.get(key);
      for (const target of state === undefined ? NONE : this.targets(state)) kept.add(target);
    }
    for (const key of this.#states.keys()) if (!kept.has(key)) this.#states.delete(key);
  }
}

const NONE: readonly string[] = [];
