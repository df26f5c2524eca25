/** What would become of names and findings if some texts were others. */
import type { PlacedSection, ProjectFile } from '../../project/file';
import { baseName } from '../../project/uris';
import { namesIn } from './names';
import type { Occurrence } from './names';
import { makerOf } from './places';
import type { Place } from './places';

/** A name, and which thing it means among all those in some files: two with one `id` mean the same. */
export interface Meant {
  readonly file: ProjectFile;
  readonly name: Occurrence;
  readonly id: string;
  /** From 0. */
  readonly line: number;
}

/** Every name in the files, file by file in the order given. */
export function everyNameIn(files: readonly ProjectFile[]): readonly Meant[] {
  const homes = new Map<unknown, string>();
  for (const file of files) {
    for (const { section, firstBlock } of [...file.sections, ...file.visible.flatMap(other => other.sections)]) {
      if (!homes.has(section)) homes.set(section, `${file.uri} ${firstBlock}`);
    }
  }
  return files.flatMap(file => {
    const makers = new Map<string, string>();
    const idOf = ({ named }: Occurrence): string => {
      switch (named.kind) {
        case 'part': return `part ${homes.get(named.owner)} ${named.key}`;
        case 'formula': return `formula ${homes.get(named.section)} ${named.section === undefined ? named.key : ''}`;
        case 'file': return `file ${file.uri} ${named.block}`;
        case 'ingredient': {
          const { key } = named;
          const maker = makers.get(key) ?? makerOf(file, key) ?? (key.startsWith('?') ? file.uri : 'table');
          makers.set(key, maker);
          return `ingredient ${maker} ${key}`;
        }
      }
    };
    return namesIn(file, file.environment).map(name => ({ file, name, id: idOf(name), line: file.lineIndex.positionAt(name.start).line }));
  });
}

/**
 * The first name that would mean another thing than it does now, and one that it would be mixed up with: two things would
 * have become one, or one would have become two. Undefined when all still mean what they mean.
 */
export function firstMixedUp(now: readonly Meant[], then: readonly Meant[]): { readonly first: Meant; readonly second: Meant | undefined } | undefined {
  const forth = new Map<string, string>();
  const back = new Map<string, string>();
  for (const [index, one] of now.entries()) {
    const other = then[index];
    if (other === undefined || other.line !== one.line || other.name.defines !== one.name.defines) return { first: one, second: undefined };
    const goesTo = forth.get(one.id) ?? other.id;
    const comesFrom = back.get(other.id) ?? one.id;
    if (goesTo !== other.id || comesFrom !== one.id) {
      return { first: one, second: now.find((earlier, at) => earlier.id !== one.id && then[at]?.id === other.id) };
    }
    forth.set(one.id, other.id);
    back.set(other.id, one.id);
  }
  const last = now.at(-1);
  return then.length > now.length && last !== undefined ? { first: last, second: undefined } : undefined;
}

/** Formulas and plans whose findings are looked at; the rest of a large workspace would say the same again. */
const MOST_LOOKED_AT = 60;

/**
 * A finding that the files would have and do not have now, with its line from 1. Looked at are the sections that hold one of
 * the places, where the thing is made first, and all that are quick to look at, such as `use` lines.
 */
export function firstNewFinding(
  now: readonly ProjectFile[], then: readonly ProjectFile[], places: readonly Place[],
): { readonly message: string; readonly file: string; readonly line: number } | undefined {
  const touched = new Set([...places].sort((a, b) => Number(b.name.defines) - Number(a.name.defines)).map(({ name }) => name.section.section));
  const looked = new Set([...touched].slice(0, MOST_LOOKED_AT));
  const isLookedAt = ({ section }: PlacedSection): boolean => {
    switch (section.kind) {
      case 'formula': case 'dish': case 'plan': return looked.has(section);
      case 'use': case 'ingredient': case 'stray': return true;
    }
  };
  for (const [index, file] of now.entries()) {
    const after = then[index];
    for (const [nth, section] of file.sections.entries()) {
      const other = after?.sections[nth];
      if (after === undefined || other === undefined || !isLookedAt(section)) continue;
      const known = findingsIn(file, section).map(({ key }) => key);
      for (const { key, message, line } of findingsIn(after, other)) {
        const at = known.indexOf(key);
        if (at < 0) return { message, file: baseName(file.uri), line: line + 1 };
        known.splice(at, 1);
      }
    }
  }
  return undefined;
}

function findingsIn(file: ProjectFile, section: PlacedSection) {
  return section.analysis.findings.map(({ code, message, place }) => {
    const { line } = file.lineIndex.positionAt(section.offsetsOf(place).start);
    return { key: `${line} ${code}`, message, line };
  });
}
