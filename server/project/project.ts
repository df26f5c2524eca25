/**
 * Which files there are, what each parses and resolves to, and what must be computed again after an edit. The one place
 * with caches.
 *
 * Reading is the only thing that waits: `prepare` loads a file and all that it uses, and from then on every answer is
 * synchronous. The text in an editor wins over the one on disk.
 */
import type { Block } from '../../grammar';
import { analyse } from '../core/analyse';
import type { Analysis, Environment } from '../core/analyse';
import type { Place, Section } from '../core/formula/model';
import { namesakesAmong } from '../core/namesakes';
import type { Brought, Namesakes } from '../core/namesakes';
import { builtInCatalogue, extend } from '../core/ingredients/catalogue';
import type { Catalogue } from '../core/ingredients/model';
import { NO_SETTINGS } from '../core/settings/read';
import type { Settings } from '../core/settings/settings';
import type { MeasureSystem } from '../core/units/volume';
import { analyseTracked, formulasIn, sameList, stillHolds } from './environment';
import type { Remembered } from './environment';
import type { ChosenTime, PlacedSection, ProjectFile, SectionInFile, UseLink } from './file';
import { isMarkdownName } from './markdown';
import type { LineIndex } from './lines';
import { parsed, parsing } from './parsed';
import type { Parsed } from './parsed';
import { isSettings, SettingsFiles } from './settings';
import type { OnSettings, SettingsInFile } from './settings';
import { turn, TURN_MS } from './turns';
import { baseName, besideAndAbove, canonicalUri, homeOf, resolveUse } from './uris';

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

export type OnFault = (code: string, fault: unknown) => void;

/** How many files one file may reach by `use`; the rest are taken as not there. */
const MOST_FILES = 500;

interface FileState {
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

interface Surroundings {
  readonly own: Parsed;
  readonly visible: readonly Parsed[];
  readonly uses: readonly UseLink[];
  readonly environment: Environment;
}

export class Project {
  readonly #reader: Reader;
  readonly #onFault: OnFault | undefined;
  readonly #files = new Map<string, FileState>();
  /** Canonical URIs of files that are kept though nothing that is open uses them. */
  #retained: ReadonlySet<string> = new Set();
  #settingsFiles: SettingsFiles;
  #settings: ProjectSettings;
  /** By canonical URI. */
  #chosenTimes: ReadonlyMap<string, readonly ChosenTime[]> = new Map();
  /** The same without the folders. */
  #base: Settings;
  /** Grows with every change anywhere: what was built in this generation needs no second look. */
  #generation = 0;
  /** Grows with what comes from outside: edits, closings, changes on disk, settings. Reading and parsing leave it alone. */
  #edits = 0;
  /** Catalogues by the ingredient blocks layered over the built-in one, latest last. */
  #catalogues: { readonly measures: MeasureSystem; readonly blocks: readonly Block[]; readonly catalogue: Catalogue }[] = [];

  constructor({ reader, onFault, onSettings, ...settings }: ProjectOptions) {
    this.#reader = reader;
    this.#onFault = onFault;
    this.#settings = settings;
    this.#base = baseOf(settings);
    this.#settingsFiles = new SettingsFiles(reader, (uri, file) => {
      this.#generation++;
      onSettings?.(uri, file);
    });
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
    const next = new Map<string, ChosenTime[]>();
    for (const { uri, formula, zone, anchor } of times) {
      const key = canonicalUri(uri);
      next.set(key, [...next.get(key) ?? [], { formula, zone, anchor }]);
    }
    // A file whose times are the same keeps the same list, and so stays as it is.
    const merged = new Map([...next].map(([uri, list]) => {
      const last = this.#chosenTimes.get(uri);
      return [uri, last !== undefined && JSON.stringify(last) === JSON.stringify(list) ? last : list];
    }));
    if (merged.size === this.#chosenTimes.size && [...merged].every(([uri, list]) => this.#chosenTimes.get(uri) === list)) return false;
    this.#chosenTimes = merged;
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
    const state = this.#state(uri);
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
    const state = this.#files.get(canonicalUri(uri));
    if (state === undefined) return;
    state.open = false;
    this.#stale(state);
    this.#forget();
  }

  /** The file was changed, created or deleted on disk. False when that is nothing to anybody: it is open, or nobody asked for it. */
  invalidate(uri: string): boolean {
    if (isSettings(uri)) {
      const matters = this.#settingsFiles.invalidate(uri);
      if (matters) this.#edited();
      return matters;
    }
    const state = this.#files.get(canonicalUri(uri));
    if (state === undefined || state.open) return false;
    this.#stale(state);
    return true;
  }

  /** Loads a file and everything that it uses. Undefined when there is no such file. */
  async prepare(uri: string): Promise<ProjectFile | undefined> {
    if (isSettings(uri)) return undefined; // no formulas
    const start = this.#state(uri);
    let edits: number;
    do {
      // A text may change while another is being read: go round until nothing came in between.
      edits = this.#edits;
      await Promise.all([this.#reach(start), this.#settingsFiles.load(uri, this.#settings.roots)]);
    } while (edits !== this.#edits);
    return this.get(uri);
  }

  /** Reads and parses a file and all that it uses. */
  async #reach(start: FileState): Promise<void> {
    const reached = new Set<FileState>([start]);
    for (const state of reached) {
      if (!state.fresh) await this.#read(state);
      if (state.parsed?.source !== state.text) await this.#parse(state);
      for (const link of state.parsed?.usePaths ?? []) {
        const target = resolveUse(state.uri, link.path.text, this.#settings.roots);
        if (target.kind === 'file' && reached.size < MOST_FILES) reached.add(this.#state(target.uri));
      }
    }
  }

  /**
   * The file as far as it is known without waiting: all of it after `prepare`, and after an `update` too unless a file
   * that it uses has not been read. Undefined when it was never read or is not there.
   */
  get(uri: string): ProjectFile | undefined {
    const state = this.#files.get(canonicalUri(uri));
    if (state === undefined) return undefined;
    if (state.built?.generation === this.#generation) return state.built.file;
    const own = this.#parsedNow(state);
    return own === undefined ? undefined : this.#build(state, own);
  }

  /**
   * Another project as this one would be with these texts in the place of those of loaded files, to look at what would become
   * of them. What has been read is there without waiting; this project is left as it is.
   */
  supposing(texts: ReadonlyMap<string, string>): Project {
    const other = new Project({ reader: this.#reader, ...(this.#onFault !== undefined && { onFault: this.#onFault }), ...this.#settings });
    other.#settingsFiles = this.#settingsFiles;
    other.#base = this.#base;
    other.#chosenTimes = this.#chosenTimes;
    for (const [key, state] of this.#files) other.#files.set(key, { ...state, reading: undefined, built: undefined, analyses: new WeakMap(), around: undefined });
    for (const [uri, text] of texts) other.update(uri, text, this.#files.get(canonicalUri(uri))?.isMarkdown);
    return other;
  }

  /** URIs of the loaded files that use the file, by whatever number of steps; of settings, those that they may count for. */
  dependents(uri: string): readonly string[] {
    if (isSettings(uri)) return this.loaded().filter(other => besideAndAbove(other, baseName(uri), this.#settings.roots).includes(canonicalUri(uri)));
    const goal = canonicalUri(uri);
    const found = new Set<string>([goal]);
    for (const key of found) {
      for (const [other, state] of this.#files) {
        if (!found.has(other) && this.#targets(state).includes(key)) found.add(other);
      }
    }
    found.delete(goal);
    return [...found].map(key => this.#files.get(key)?.uri ?? key);
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
    return [...this.#files.values()].filter(state => state.text !== undefined).map(state => state.uri);
  }

  #state(uri: string): FileState {
    const key = canonicalUri(uri);
    let state = this.#files.get(key);
    if (state === undefined) {
      state = {
        uri: key, open: false, isMarkdown: isMarkdownName(key), text: undefined, lineIndex: undefined, fresh: false, changes: 0, reading: undefined, parsed: undefined,
        built: undefined, analyses: new WeakMap(), around: undefined, targets: undefined,
      };
      this.#files.set(key, state);
    }
    return state;
  }

  #stale(state: FileState): void {
    state.fresh = false;
    state.changes++;
    this.#edited();
  }

  /** Lets go of every file that is neither open nor retained nor used, by whatever number of steps, by one that is. */
  #forget(): void {
    const kept = new Set<string>();
    for (const [key, state] of this.#files) if (state.open || this.#retained.has(key)) kept.add(key);
    for (const key of kept) {
      const state = this.#files.get(key);
      for (const target of state === undefined ? [] : this.#targets(state)) kept.add(target);
    }
    for (const key of this.#files.keys()) if (!kept.has(key)) this.#files.delete(key);
  }

  #edited(): void {
    this.#edits++;
    this.#generation++;
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
          this.#generation++;
        }
      } finally {
        state.reading = undefined;
      }
    })();
    await state.reading;
  }

  /** Parses without holding up others: an edit that arrives in between starts it afresh, with the blocks done so far. */
  async #parse(state: FileState): Promise<void> {
    while (state.text !== undefined && state.parsed?.source !== state.text) {
      const { text } = state;
      const work = parsing(state.uri, text, state.isMarkdown, state.parsed, state.lineIndex);
      let began = Date.now();
      for (let step = work.next(); ; step = work.next()) {
        if (step.done === true) {
          state.parsed = step.value;
          this.#generation++;
          break;
        }
        if (Date.now() - began < TURN_MS) continue;
        await turn();
        if (state.text !== text || state.parsed?.source === text) break;
        began = Date.now();
      }
    }
  }

  #parsedNow(state: FileState): Parsed | undefined {
    if (state.text === undefined) return undefined;
    if (state.parsed?.source !== state.text || state.parsed.uri !== state.uri) {
      state.parsed = parsed(state.uri, state.text, state.isMarkdown, state.parsed, state.lineIndex);
    }
    return state.parsed;
  }

  /** Canonical URIs that the file's `use` lines name. */
  #targets(state: FileState): readonly string[] {
    const { parsed: own, uri } = state;
    const { roots } = this.#settings;
    if (own === undefined) return [];
    if (state.targets?.usePaths === own.usePaths && state.targets.uri === uri && state.targets.roots === roots) return state.targets.uris;
    const uris = own.usePaths.flatMap(({ path }) => {
      const target = resolveUse(uri, path.text, roots);
      return target.kind === 'file' ? [target.uri] : [];
    });
    state.targets = { usePaths: own.usePaths, uri, roots, uris };
    return uris;
  }

  #build(state: FileState, own: Parsed): ProjectFile {
    const visible = this.#visibleFrom(state);
    const uses = own.usePaths.map(({ block, path }): UseLink => {
      const target = resolveUse(state.uri, path.text, this.#settings.roots);
      if (target.kind === 'problem') return { block, path, uri: undefined, problem: target.problem };
      const used = this.#files.get(target.uri);
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
    const environment = this.#environment(own, visible, uses, settings, state.around);
    state.around = { own, visible, uses, environment };
    const analyseIn = (section: Section): Analysis => analysisOf(section, environment, state.analyses, this.#onFault);
    const sections = own.sections.map(section => new SectionWithAnalysis(section, environment, analyseIn));
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

  /** Files reached by `use`, nearest first. */
  #visibleFrom(start: FileState): readonly Parsed[] {
    const reached = new Set<FileState>([start]);
    const visible: Parsed[] = [];
    for (const state of reached) {
      const own = this.#parsedNow(state);
      if (own === undefined) continue;
      if (state !== start) visible.push(own);
      for (const target of this.#targets(state)) {
        const used = this.#files.get(target);
        if (used !== undefined && reached.size < MOST_FILES) reached.add(used);
      }
    }
    return visible;
  }

  #environment(own: Parsed, visible: readonly Parsed[], uses: readonly UseLink[], settings: Settings, last: Surroundings | undefined): Environment {
    const problems = new Map(uses.map(use => [use.path.text, use.problem]));
    const { limits, checks: severities, measures = 'us', tapCelsius, zone } = settings;
    return {
      // The nearest file's word on an ingredient is laid on last.
      catalogue: this.#catalogue([own, ...visible].reverse().flatMap(file => file.ingredientBlocks), measures),
      formulas: formulasIn([own, ...visible], last?.environment.formulas),
      measures,
      tapCelsius,
      zone,
      useProblem: path => problems.get(path),
      namesakes: last?.environment.namesakes !== undefined && sameHeads(own, visible, uses, last) ? last.environment.namesakes : this.#namesakes(own, uses),
      limits,
      severities,
    };
  }

  /** Worked out when first asked for: most sections ask, but a file that nobody looks at does not. */
  #namesakes(own: Parsed, uses: readonly UseLink[]): Namesakes {
    return lazyNamesakes(sectionsIn(own), this.#brought(own, uses));
  }

  #brought(own: Parsed, uses: readonly UseLink[]): readonly Brought[] {
    return uses.flatMap(({ path, uri }) => {
      const used = uri === undefined ? undefined : this.#files.get(canonicalUri(uri));
      const first = used && this.#parsedNow(used);
      // A circle of `use` lines leads back here: what is this file's own is not brought in.
      const files = used === undefined || first === undefined ? [] : [first, ...this.#visibleFrom(used)].filter(file => file !== own);
      return files.length === 0 ? [] : [{ path: path.text, sections: files.flatMap(sectionsIn) }];
    });
  }

  #catalogue(blocks: readonly Block[], measures: MeasureSystem): Catalogue {
    if (blocks.length === 0) return builtInCatalogue;
    const known = this.#catalogues.find(one => (
      one.measures === measures && one.blocks.length === blocks.length && one.blocks.every((block, i) => block === blocks[i])
    ));
    const entry = known ?? { measures, blocks, catalogue: extend(builtInCatalogue, blocks, measures) };
    this.#catalogues = [...this.#catalogues.filter(one => one !== known).slice(-31), entry];
    return entry.catalogue;
  }
}

/**
 * Copies: what is remembered of a section lives as long as the section, and holds the formulas around it. Namesakes outlive
 * many edits, and with them would all that came in between.
 */
function sectionsIn(file: Parsed): readonly Section[] {
  return file.sections.map(({ section }) => ({ ...section }));
}

function lazyNamesakes(own: readonly Section[], brought: readonly Brought[]): Namesakes {
  let known: Namesakes | undefined;
  const all = (): Namesakes => (known ??= namesakesAmong(own, brought));
  return { of: block => all().of(block), ofUse: path => all().ofUse(path) };
}

/** Whether the blocks that a name can belong to are those of last time, in all files that are seen. */
function sameHeads(own: Parsed, visible: readonly Parsed[], uses: readonly UseLink[], last: Surroundings): boolean {
  return sameList(visible, last.visible)
    && sameList(own.ingredientBlocks, last.own.ingredientBlocks)
    && uses.length === last.uses.length && uses.every(({ path, uri }, i) => path.text === last.uses[i]?.path.text && uri === last.uses[i].uri)
    && own.sections.length === last.own.sections.length
    && own.sections.every(({ section }, i) => section.blocks[0] === last.own.sections[i]?.section.blocks[0]);
}

const NO_TIMES: readonly ChosenTime[] = [];

function baseOf({ roots: _roots, computerZone: _zone, folders: _folders, ...settings }: ProjectSettings): Settings {
  return { ...NO_SETTINGS, ...settings };
}

class SectionWithAnalysis implements PlacedSection {
  readonly section: Section;
  readonly firstBlock: number;
  readonly environment: Environment;
  readonly #placed: SectionInFile;
  readonly #analyse: (section: Section) => Analysis;
  #analysis: Analysis | undefined;

  constructor(placed: SectionInFile, environment: Environment, analyseIn: (section: Section) => Analysis) {
    this.section = placed.section;
    this.firstBlock = placed.firstBlock;
    this.#placed = placed;
    this.environment = environment;
    this.#analyse = analyseIn;
  }

  offsetsOf(place: Place): { readonly start: number; readonly end: number } {
    return this.#placed.offsetsOf(place);
  }

  get analysis(): Analysis {
    return (this.#analysis ??= this.#analyse(this.section));
  }
}

function analysisOf(
  section: Section, environment: Environment, remembered: WeakMap<Section, Remembered>, onFault: OnFault | undefined,
): Analysis {
  const last = remembered.get(section);
  if (last !== undefined && stillHolds(last, environment)) return last.analysis;
  try {
    const fresh = analyseTracked(section, environment, (own, tracked) => analyse(own, tracked, onFault));
    remembered.set(section, fresh);
    return fresh.analysis;
  } catch (fault) {
    if (onFault === undefined) throw fault;
    onFault('analysis', fault);
    return { section, formula: undefined, totals: undefined, sheet: undefined, day: undefined, findings: [] };
  }
}
