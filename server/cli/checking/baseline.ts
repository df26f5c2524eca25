/** A baseline: findings that are known and left out, so that an old repository can begin with none and hear of what is new. */
import { access, readFile, stat } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { CheckedFile, PlacedFinding } from '../../output/findings';
import { lineKey } from '../../output/fingerprint';
import { json } from '../../output/json';
import { cannotRead, slashes } from '../files';
import { Refusal } from '../refusal';
import { writeTarget } from '../write-file';

const VERSION = 1;

/** So many findings of one check in one line of one formula. Where the line stands makes no difference. */
interface Known {
  readonly code: string;
  readonly formula: string;
  /** Its text, whatever the spaces. */
  readonly line: string;
  readonly count: number;
}

interface KnownInFile {
  /** From the folder of the baseline, `/` between folders. */
  readonly path: string;
  readonly findings: readonly Known[];
}

/** What a baseline says, by path and by what a finding is known by. */
export type Baseline = ReadonlyMap<string, ReadonlyMap<string, Known>>;

const keyOf = ({ code, formula, line }: Omit<Known, 'count'>): string => JSON.stringify([code, formula, line]);
const knownBy = ({ code, formula, lineText }: PlacedFinding): Omit<Known, 'count'> => ({ code, formula, line: lineKey(lineText) });

/** @throws Refusal for a file that is not there or is no baseline */
export async function readBaseline(shown: string): Promise<Baseline> {
  const file = path.resolve(shown);
  const broken = (why: string): Refusal => new Refusal(
    `${shown} is no baseline that can be read: ${why}. Nothing was checked, and the file is left as it is. Take it back from git, or delete it and write it anew: proofsheet check --write-baseline ${shown}`,
  );
  let text: string;
  try {
    if ((await stat(file)).isDirectory()) throw new Refusal(`${shown} is a folder, and a baseline is a file.`);
    text = (await readFile(file, 'utf8')).replace(/^\uFEFF/, '');
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal(cannotRead(slashes(shown), error));
  }
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw broken(error instanceof Error ? `it is no JSON (${error.message})` : 'it is no JSON');
  }
  if (!isObject(value) || !('version' in value)) throw broken('it has no "version"');
  if (value.version !== VERSION) throw broken(`its version is ${JSON.stringify(value.version)}, and this program knows ${String(VERSION)}`);
  if (!Array.isArray(value.files) || !value.files.every(isKnownInFile)) throw broken('its "files" are not a list of paths with their findings, each with code, formula, line and count');
  return new Map(value.files.map((each) => [each.path, new Map(each.findings.map((known) => [keyOf(known), known]))]));
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}

function isKnownInFile(value: unknown): value is KnownInFile {
  return isObject(value) && typeof value.path === 'string' && Array.isArray(value.findings) && value.findings.every((known) => (
    isObject(known) && ['code', 'formula', 'line'].every((key) => typeof known[key] === 'string') && Number.isSafeInteger(known.count) && Number(known.count) > 0
  ));
}

/** The path of a file in a baseline; undefined for standard input, which has none. */
function pathIn(folder: string, { uri }: CheckedFile): string | undefined {
  return uri === '' ? undefined : slashes(path.relative(folder, fileURLToPath(uri)));
}

/** Takes out of files what a baseline lists: of one line as many findings as it counts, so that a second same slip is told. */
export class BaselineFilter {
  readonly #folder: string;
  readonly #baseline: Baseline;
  readonly #looked = new Set<string>();
  #leftOut = 0;
  /** Of the files that were looked at, entries that no finding answers to. */
  #idle = 0;

  constructor(shown: string, baseline: Baseline) {
    this.#folder = path.dirname(path.resolve(shown));
    this.#baseline = baseline;
  }

  /** The file without what is known of it. */
  rest(file: CheckedFile): CheckedFile {
    const at = pathIn(this.#folder, file);
    const known = at === undefined ? undefined : this.#baseline.get(at);
    if (at === undefined || known === undefined) return file;
    this.#looked.add(at);
    const left = new Map([...known].map(([key, { count }]) => [key, count]));
    const findings = file.findings.filter((finding) => {
      const key = keyOf(knownBy(finding));
      const count = left.get(key) ?? 0;
      if (count === 0) return true;
      left.set(key, count - 1);
      this.#leftOut += 1;
      return false;
    });
    for (const count of left.values()) this.#idle += count;
    return { ...file, findings };
  }

  /** Findings that were left out, and entries that no longer fit: those of files that are gone too, but not of files that were not looked at. */
  async counts(): Promise<{ readonly leftOut: number; readonly idle: number }> {
    let idle = this.#idle;
    for (const [at, known] of this.#baseline) {
      if (this.#looked.has(at) || await isThere(path.join(this.#folder, at))) continue;
      for (const { count } of known.values()) idle += count;
    }
    return { leftOut: this.#leftOut, idle };
  }
}

function isThere(file: string): Promise<boolean> {
  return access(file).then(() => true, () => false);
}

/** Gathers a baseline of everything that is found. */
export class BaselineWriter {
  readonly #shown: string;
  readonly #folder: string;
  readonly #files = new Map<string, ReadonlyMap<string, Known>>();

  constructor(shown: string) {
    this.#shown = shown;
    this.#folder = path.dirname(path.resolve(shown));
  }

  add(file: CheckedFile): void {
    const at = pathIn(this.#folder, file);
    if (at === undefined) return;
    const found = new Map<string, Known>();
    for (const finding of file.findings) {
      const known = knownBy(finding);
      const key = keyOf(known);
      found.set(key, { ...known, count: (found.get(key)?.count ?? 0) + 1 });
    }
    // A copy holds on to nothing of the text that its strings are cut from.
    this.#files.set(at, structuredClone(found));
  }

  /**
   * Writes the file, whole or not at all. What it said before of files that are there and were not looked at, stays.
   * @throws Refusal where it cannot be written, or the one that is there cannot be read
   */
  async write(): Promise<{ readonly findings: number; readonly files: number }> {
    const file = path.resolve(this.#shown);
    const before = await isThere(file) ? await readBaseline(this.#shown) : new Map<string, ReadonlyMap<string, Known>>();
    for (const [at, known] of before) if (!this.#files.has(at) && await isThere(path.join(this.#folder, at))) this.#files.set(at, known);
    const files = [...this.#files]
      .map(([at, known]): KnownInFile => ({ path: at, findings: [...known].sort(byKey).map(([, each]) => each) }))
      .filter(({ findings }) => findings.length > 0)
      .sort((a, b) => (a.path < b.path ? -1 : 1));
    const written = await writeTarget({ file, shown: slashes(this.#shown) }, json({ version: VERSION, files }), { force: true, sources: [] });
    if (written.kind === 'not-written') throw new Refusal(written.sentence);
    return { findings: files.flatMap(({ findings }) => findings).reduce((sum, { count }) => sum + count, 0), files: files.length };
  }
}

function byKey([a]: readonly [string, Known], [b]: readonly [string, Known]): number {
  return a < b ? -1 : 1;
}
