/**
 * Which files there are, what each parses and resolves to, and what must be computed again after an edit. The one place
 * with caches.
 *
 * Reading is the only thing that waits: `prepare` loads a file and all that it uses, and from then on every answer is
 * synchronous. The text in an editor wins over the one on disk.
 */
import { NO_SETTINGS } from '../core/settings/read';
import { SETTINGS_FILE } from '../core/settings/settings';
import type { Settings } from '../core/settings/settings';
import { SectionWithAnalysis } from './analyses';
import type { OnFault } from './analyses';
import { chosenTimesOf, NO_TIMES } from './chosen-times';
import type { ChosenTimes } from './chosen-times';
import type { ChosenTime, ProjectFile, UseLink } from './file';
import { Files } from './files';
import type { FileState } from './files';
import type { LineIndex } from './lines';
import { Loading } from './loading';
import { isMarkdownName } from './markdown';
import type { Parsed } from './parsed';
import { isSettings, SettingsFiles } from './settings';
import type { OnSettings, SettingsInFile } from './settings';
import { Catalogues, surroundingsOf } from './surroundings';
import { besideAndAbove, canonicalUri, homeOf, resolveUse } from './uris';

/** Where files come from: the disk, or the editor on a machine that has none. */
export interface Reader {
  /** The text of a file, or undefined when there is none or it cannot be read. */
  read(uri: string): Promise<string | undefined>;
}

/** What holds where no `proofsheet.json` says otherwise: the settings of an editor. */
export interface ProjectSettings extends Partial<Settings> {
  /** URIs of the workspace folders. */
  readonly roots: readonly string[];
  /** Time zone of the computer, by its IANA name, where no setting names one; UTC if it is left out. */
  readonly computerZone?: string;
  /** Settings of workspace folders that have their own, by URI. They stand in the place of the others, and are not laid over them. */
  readonly folders?: ReadonlyMap<string, Settings>;
}

export interface ProjectOptions extends ProjectSettings {
  readonly reader: Reader;
  /** Told of a check, by its code, or of a whole analysis (`analysis`) that threw. What threw is silent; the rest goes on. */
  readonly onFault?: OnFault;
  /** Told of each settings file that was read, changed or went away. */
  readonly onSettings?: OnSettings;
}

export class Project {
  readonly #reader: Reader;
  readonly #onFault: OnFault | undefined;
  readonly #files: Files;
  readonly #loading: Loading;
  /** Canonical URIs of files that are kept though nothing that is open uses them. */
  #retained: ReadonlySet<string> = new Set();
  readonly #settingsFiles: SettingsFiles;
  #settings: ProjectSettings;
  #chosenTimes: ChosenTimes;
  /** The same without the folders. */
  #base: Settings;
  /** Grows with every change anywhere: what was built in this generation needs no second look. */
  #generation = 0;
  /** Grows with what comes from outside: edits, closings, changes on disk, settings. Reading and parsing leave it alone. */
  #edits = 0;
  readonly #catalogues = new Catalogues();

  /** @param before take over what that project has read, and the rest of what it knows */
  constructor({ reader, onFault, onSettings, ...settings }: ProjectOptions, before?: Project) {
    this.#reader = reader;
    this.#onFault = onFault;
    this.#settings = settings;
    this.#base = before === undefined ? baseOf(settings) : before.#base;
    this.#chosenTimes = before === undefined ? new Map() : before.#chosenTimes;
    this.#settingsFiles = before === undefined ? new SettingsFiles(reader, (uri, file) => {
      this.#generation++;
      onSettings?.(uri, file);
    }) : before.#settingsFiles;
    const roots = (): readonly string[] => this.#settings.roots;
    this.#files = before === undefined ? new Files(roots) : before.#files.copy(roots);
    this.#loading = new Loading(reader, this.#files, () => this.#generation++);
  }

  /** Takes over new folders and settings. */
  configure(settings: Partial<ProjectSettings>): void {
    this.#settings = { ...this.#settings, ...settings };
    this.#base = baseOf(this.#settings);
    this.#edited();
  }

  /** Takes over all settings of the editor, in the place of those that it had: what they leave unsaid is no longer set. */
  adopt(editor: Settings, folders: ReadonlyMap<string, Settings>): void {
    const { roots, computerZone } = this.#settings;
    this.#settings = { roots, ...(computerZone !== undefined && { computerZone }) };
    this.configure({ ...editor, folders });
  }

  /** Takes over the times that the baker chose, all there are. False when they are the ones that it has. */
  chooseTimes(times: readonly (ChosenTime & { readonly uri: string })[]): boolean {
    const chosen = chosenTimesOf(times, this.#chosenTimes);
    if (chosen === this.#chosenTimes) return false;
    this.#chosenTimes = chosen;
    this.#edited();
    return true;
  }

  /** The settings file at that place, read again if it has changed; undefined when there is none. */
  async settingsAt(uri: string): Promise<SettingsInFile | undefined> {
    return this.#settingsFiles.read(uri);
  }

  get roots(): readonly string[] {
    return this.#settings.roots;
  }

  /** The editor holds this text, saved or not. Of Markdown, only what stands in its fences counts. */
  update(uri: string, text: string, isMarkdown = isMarkdownName(uri), lineIndex?: LineIndex): void {
    if (isSettings(uri)) {
      this.#settingsFiles.update(uri, text);
      this.#edited();
      return;
    }
    const state = this.#files.of(uri);
    if (state.open && state.text === text) return;
    Object.assign(state, { uri, open: true, isMarkdown, text, lineIndex, fresh: true });
    state.changes++;
    this.#edited();
  }

  /** The editor no longer holds the file: what counts is on disk again. */
  close(uri: string): void {
    if (isSettings(uri)) {
      this.#settingsFiles.close(uri);
      this.#edited();
      return;
    }
    const state = this.#files.known(uri);
    if (state === undefined) return;
    state.open = false;
    this.#stale(state);
    this.#files.keepOnly(this.#retained);
  }

  /** The file was changed, created or deleted on disk. False when that is nothing to anybody: it is open, or nobody asked for it. */
  invalidate(uri: string): boolean {
    if (isSettings(uri)) {
      const matters = this.#settingsFiles.invalidate(uri);
      if (matters) this.#edited();
      return matters;
    }
    const state = this.#files.known(uri);
    if (state === undefined || state.open) return false;
    this.#stale(state);
    return true;
  }

  /** Reads files, many at a time, so that `prepare` finds their texts there. */
  async read(uris: readonly string[]): Promise<void> {
    await this.#loading.read(uris.map(uri => this.#files.of(uri)));
  }

  /** Loads a file and everything that it uses. Undefined when there is no such file. */
  async prepare(uri: string): Promise<ProjectFile | undefined> {
    if (isSettings(uri)) return undefined; // no formulas
    const start = this.#files.of(uri);
    let edits: number;
    do {
      // A text may change while another is being read: go round until nothing came in between. What is there is not read again.
      edits = this.#edits;
      await Promise.all([this.#loading.reach(start), this.#settingsFiles.load(uri, this.#settings.roots)]);
    } while (edits !== this.#edits);
    return this.get(uri);
  }

  /**
   * The file as far as it is known without waiting: all of it after `prepare`, and after an `update` too unless a file
   * that it uses has not been read. Undefined when it was never read or is not there.
   */
  get(uri: string): ProjectFile | undefined {
    const state = this.#files.known(uri);
    if (state === undefined) return undefined;
    if (state.built?.generation === this.#generation) return state.built.file;
    const own = this.#files.parsedNow(state);
    return own === undefined ? undefined : this.#build(state, own);
  }

  /**
   * Another project as this one would be with these texts in the place of those of loaded files, to look at what would become
   * of them. What has been read is there without waiting; this project is left as it is.
   */
  supposing(texts: ReadonlyMap<string, string>): Project {
    const other = new Project({ reader: this.#reader, ...(this.#onFault !== undefined && { onFault: this.#onFault }), ...this.#settings }, this);
    for (const [uri, text] of texts) other.update(uri, text, this.#files.known(uri)?.isMarkdown);
    return other;
  }

  /** URIs of the loaded files that use any of these, by whatever number of steps; of settings, those that they may count for. */
  dependents(...uris: readonly string[]): readonly string[] {
    const settings = uris.filter(isSettings).map(canonicalUri);
    const users = this.#files.usersOf(uris);
    if (settings.length === 0) return users;
    const under = this.loaded().filter(uri => besideAndAbove(uri, SETTINGS_FILE, this.#settings.roots).some(place => settings.includes(place)));
    return [...new Set([...users, ...under])];
  }

  /** Canonical URIs of everything in a folder that has been asked for, settings files among them. */
  under(folder: string): readonly string[] {
    const start = `${canonicalUri(folder)}/`;
    return [...this.#files.keys(), ...this.#settingsFiles.known()].filter(uri => uri.startsWith(start));
  }

  /** Keeps these files, by their canonical URIs, for as long as they are not given up here, used or not. */
  retain(uris: ReadonlySet<string>): void {
    this.#retained = uris;
  }

  /** URIs of all files that are loaded. */
  loaded(): readonly string[] {
    return this.#files.all().filter(state => state.text !== undefined).map(state => state.uri);
  }

  #stale(state: FileState): void {
    state.fresh = false;
    state.changes++;
    this.#edited();
  }

  #edited(): void {
    this.#edits++;
    this.#generation++;
  }

  #build(state: FileState, own: Parsed): ProjectFile {
    const visible = this.#files.visibleFrom(state);
    const uses = own.usePaths.map(({ block, path }): UseLink => {
      const target = resolveUse(state.uri, path.text, this.#settings.roots);
      if (target.kind === 'problem') return { block, path, uri: undefined, problem: target.problem };
      const used = this.#files.known(target.uri);
      const missing = used !== undefined && used.fresh && used.text === undefined;
      return { block, path, uri: used?.uri ?? target.uri, problem: missing ? 'not-found' : undefined };
    });
    // What the file is made of. If all of it is the same as last time, so is the file.
    const settingsFile = this.#settingsFiles.nearest(state.uri, this.#settings.roots);
    const settings = this.#settingsFiles.over(this.#baseOf(state.uri), settingsFile);
    const chosenTimes = this.#chosenTimes.get(canonicalUri(state.uri)) ?? NO_TIMES;
    const parts = [own, this.#settings, settings, settingsFile, chosenTimes, ...visible, ...uses.map(use => use.problem)];
    const last = state.built;
    if (last !== undefined && last.parts.length === parts.length && last.parts.every((part, i) => part === parts[i])) {
      state.built = { ...last, generation: this.#generation };
      return last.file;
    }
    state.around = surroundingsOf(this.#files, this.#catalogues, settings, { own, visible, uses }, state.around);
    const { environment } = state.around;
    const scene = { environment, remembered: state.analyses, onFault: this.#onFault };
    const sections = own.sections.map(section => new SectionWithAnalysis(section, scene));
    const file: ProjectFile = { ...own, sections, uses, visible, environment, settings, settingsFile, chosenTimes, zone: settings.zone ?? this.#settings.computerZone ?? 'UTC' };
    state.built = { generation: this.#generation, parts, file };
    return file;
  }

  /** The editor's settings for a file: those of the folder that holds it, where folders have their own. */
  #baseOf(uri: string): Settings {
    const { folders } = this.#settings;
    const home = folders && homeOf(uri, [...folders.keys()]);
    return (home === undefined ? undefined : folders?.get(home)) ?? this.#base;
  }
}

function baseOf({ roots: _roots, computerZone: _zone, folders: _folders, ...settings }: ProjectSettings): Settings {
  return { ...NO_SETTINGS, ...settings };
}
