/**
 * What a section rests on, and whether that still holds. An analysis is run with an environment that takes note of what
 * was asked of it; as long as the same questions have the same answers, the analysis stands. So an edit in one formula
 * leaves every other alone, except those that really looked at it: variants of it, dishes that use it, plans that bake it.
 */
import type { Block } from '../../grammar';
import type { Analysis, Environment } from '../core/analyse';
import type { Section } from '../core/formula/model';
import type { Namesakes } from '../core/namesakes';

/** What was asked of an environment, and what the answers were. */
interface Reads {
  readonly formulas: Map<string, Section | undefined>;
  /** Names of all formulas, when they were looked through. */
  names: string | undefined;
  /** All formulas, when they were looked through with their texts. */
  all: ReadonlyMap<string, Section> | undefined;
  readonly uses: Map<string, string | undefined>;
  /** Blocks whose namesakes were asked for, and `use` lines. */
  readonly namesakes: Map<Block, readonly Block[]>;
  readonly namesakesOfUse: Map<string, ReturnType<Namesakes['ofUse']>>;
}

/** An analysis, and everything that it rests on. */
export interface Remembered {
  readonly analysis: Analysis;
  /** The latest in which it held. */
  environment: Environment;
  readonly reads: Reads;
}

/** Runs `analyse`, taking note of what it looks at. */
export function analyseTracked(
  section: Section, environment: Environment, analyse: (section: Section, environment: Environment) => Analysis,
): Remembered {
  const reads: Reads = { formulas: new Map(), names: undefined, all: undefined, uses: new Map(), namesakes: new Map(), namesakesOfUse: new Map() };
  const { useProblem, namesakes } = environment;
  const tracked: Environment = {
    ...environment,
    formulas: new TrackedFormulas(environment.formulas, reads),
    ...(useProblem && {
      useProblem: (path: string) => {
        const problem = useProblem(path);
        reads.uses.set(path, problem);
        return problem;
      },
    }),
    ...(namesakes && {
      namesakes: {
        of: (block: Block) => noted(reads.namesakes, block, namesakes.of(block)),
        ofUse: (path: string) => noted(reads.namesakesOfUse, path, namesakes.ofUse(path)),
      },
    }),
  };
  return { analysis: analyse(section, tracked), environment, reads };
}

/** Whether an analysis would come out the same in another environment. If so, it is taken for one of that. */
export function stillHolds(remembered: Remembered, now: Environment): boolean {
  if (remembered.environment === now) return true;
  if (!sameAnswers(remembered, now)) return false;
  // An old environment holds a whole file as it was, and must not live as long as what was once worked out in it.
  remembered.environment = now;
  return true;
}

function sameAnswers({ analysis, environment: then, reads }: Remembered, now: Environment): boolean {
  // Only plans have clock times.
  if (then.catalogue !== now.catalogue || then.measures !== now.measures || then.tapCelsius !== now.tapCelsius || (analysis.day !== undefined && then.zone !== now.zone) || then.limits !== now.limits || then.severities !== now.severities) return false;
  if ((then.useProblem === undefined) !== (now.useProblem === undefined)) return false;
  if (then.formulas !== now.formulas && !sameFormulas(reads, now)) return false;
  if (then.namesakes !== now.namesakes && !sameNamesakes(reads, now.namesakes)) return false;
  for (const [path, problem] of reads.uses) if (now.useProblem?.(path) !== problem) return false;
  return true;
}

function sameFormulas(reads: Reads, now: Environment): boolean {
  for (const [name, section] of reads.formulas) if (now.formulas.get(name) !== section) return false;
  if (reads.names !== undefined && reads.names !== namesOf(now.formulas)) return false;
  return reads.all === undefined || sameMap(reads.all, now.formulas);
}

function noted<K, V>(notes: Map<K, V>, key: K, value: V): V {
  notes.set(key, value);
  return value;
}

function sameNamesakes(reads: Reads, now: Namesakes | undefined): boolean {
  for (const [block, then] of reads.namesakes) if (!sameList(then, now?.of(block) ?? [])) return false;
  for (const [path, then] of reads.namesakesOfUse) {
    const found = now?.ofUse(path) ?? [];
    if (found.length !== then.length || found.some(({ name, blocks }, i) => name !== then[i]?.name || !sameList(blocks, then[i].blocks))) return false;
  }
  return true;
}

export function sameList<T>(a: readonly T[], b: readonly T[]): boolean {
  return a === b || (a.length === b.length && a.every((one, i) => one === b[i]));
}

/**
 * The formulas and dishes of files, by lower-case name; of two with one name the first. They are in the order of their names, so
 * that a formula that only moves is no news to any other. Where nothing has changed it is the same map as `last`.
 */
export function formulasIn(files: readonly { readonly sections: readonly { readonly section: Section }[] }[], last: ReadonlyMap<string, Section> | undefined): ReadonlyMap<string, Section> {
  const found = new Map<string, Section>();
  for (const { sections } of files) {
    for (const { section } of sections) {
      if (section.kind !== 'formula' && section.kind !== 'dish') continue;
      const name = section.name.toLowerCase();
      if (name !== '' && !found.has(name)) found.set(name, section);
    }
  }
  return inLastOrder(found, last) ?? new Map([...found].sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** Undefined when the names are not those of last time. */
function inLastOrder(found: ReadonlyMap<string, Section>, last: ReadonlyMap<string, Section> | undefined): ReadonlyMap<string, Section> | undefined {
  if (last?.size !== found.size) return undefined;
  let isSame = true;
  const ordered = new Map<string, Section>();
  for (const [name, was] of last) {
    const section = found.get(name);
    if (section === undefined) return undefined;
    ordered.set(name, section);
    isSame &&= section === was;
  }
  return isSame ? last : ordered;
}

/** Every section of a file asks this of the same map. */
const names = new WeakMap<ReadonlyMap<string, Section>, string>();

function namesOf(formulas: ReadonlyMap<string, Section>): string {
  let known = names.get(formulas);
  if (known === undefined) names.set(formulas, (known = [...formulas.keys()].join('\n')));
  return known;
}

function sameMap(a: ReadonlyMap<string, Section>, b: ReadonlyMap<string, Section>): boolean {
  if (a === b) return true;
  if (a.size !== b.size || namesOf(a) !== namesOf(b)) return false;
  for (const [name, section] of a) if (b.get(name) !== section) return false;
  return true;
}

class TrackedFormulas implements ReadonlyMap<string, Section> {
  readonly #formulas: ReadonlyMap<string, Section>;
  readonly #reads: Reads;

  constructor(formulas: ReadonlyMap<string, Section>, reads: Reads) {
    this.#formulas = formulas;
    this.#reads = reads;
  }

  get(name: string): Section | undefined {
    const section = this.#formulas.get(name);
    this.#reads.formulas.set(name, section);
    return section;
  }

  has(name: string): boolean {
    return this.get(name) !== undefined;
  }

  get size(): number {
    this.#readNames();
    return this.#formulas.size;
  }

  keys(): MapIterator<string> {
    this.#readNames();
    return this.#formulas.keys();
  }

  values(): MapIterator<Section> {
    this.#reads.all = this.#formulas;
    return this.#formulas.values();
  }

  entries(): MapIterator<[string, Section]> {
    this.#reads.all = this.#formulas;
    return this.#formulas.entries();
  }

  forEach(visit: (section: Section, name: string, map: ReadonlyMap<string, Section>) => void): void {
    this.#reads.all = this.#formulas;
    this.#formulas.forEach((section, name) => visit(section, name, this));
  }

  [Symbol.iterator](): MapIterator<[string, Section]> {
    return this.entries();
  }

  #readNames(): void {
    this.#reads.names ??= namesOf(this.#formulas);
  }
}
