/**
 * Every place that names one thing, in one file and across files. Definition, references, highlights and rename take their
 * places from here, so that they are the same.
 */
import type { Section } from '../../core/formula/model';
import { ownName } from '../../core/ingredients/own';
import type { LoadedFile, ProjectFile } from '../../project/file';
import { baseOf, ownIngredientOf, sameThing } from './named';
import type { Named } from './named';
import { namesIn } from './names';
import type { Occurrence } from './names';

export interface Place {
  readonly file: ProjectFile;
  readonly name: Occurrence;
}

/** The names in one file that mean the thing, in the order of the text. */
export function placesIn(file: ProjectFile, named: Named): readonly Place[] {
  return namesIn(file, file.environment).filter(name => sameThing(name.named, named)).map(name => ({ file, name }));
}

/**
 * The names that mean what `named` means in `file`, there and in the others. A formula, a part or an ingredient of one's
 * own is the same wherever it is made by the same block. One of the built-in table, or one that nothing makes, is looked
 * for in this file only: the same flour in two unrelated files is nobody's concern.
 */
export function placesOf(file: ProjectFile, named: Named, others: readonly ProjectFile[]): readonly Place[] {
  const found = [file, ...reachOf(file, named, others)].flatMap(place => placesIn(place, named));
  if (named.kind !== 'ingredient' || makerOf(file, named.key) !== undefined) return found;
  return [...found, ...others.filter(other => other.uri !== file.uri).flatMap(other => placesAlong(file, other, named))];
}

/**
 * Names of a built-in ingredient in another file, where a formula of the one is based on one of the other: what is said of a base
 * and in the lines that change it is one thing.
 */
function placesAlong(file: ProjectFile, other: ProjectFile, named: Named): readonly Place[] {
  const own = new Set(file.sections.map(({ section }) => section));
  const bases = new Set(file.sections.flatMap(({ section }) => basesOf(section, file)));
  const isLinked = ({ section }: Occurrence['section']): boolean => bases.has(section) || basesOf(section, other).some(base => own.has(base));
  return placesIn(other, named).filter(({ name }) => isLinked(name.section));
}

/** What a formula is based on, and what that is based on. */
function basesOf(section: Section, { environment }: ProjectFile): readonly Section[] {
  const found = new Set<Section>();
  for (let base = baseOf(section, environment); base !== undefined && !found.has(base); base = baseOf(base, environment)) found.add(base);
  return [...found];
}

function reachOf(file: ProjectFile, named: Named, others: readonly ProjectFile[]): readonly ProjectFile[] {
  const rest = others.filter(other => other.uri !== file.uri);
  switch (named.kind) {
    case 'file':
      return [];
    case 'formula':
      return named.section === undefined ? [] : rest;
    case 'part':
      return rest;
    case 'ingredient': {
      const maker = makerOf(file, named.key);
      return maker === undefined ? [] : rest.filter(other => makerOf(other, named.key) === maker);
    }
  }
}

/** The names at which the thing is made, seen from a file: in the nearest file that makes it, whose word counts. */
export function makingsOf(file: ProjectFile, named: Named): readonly { readonly file: LoadedFile; readonly name: Occurrence }[] {
  for (const place of [file, ...file.visible]) {
    const made = namesIn(place, file.environment).filter(name => name.defines && sameThing(name.named, named));
    if (made.length > 0) return made.map(name => ({ file: place, name }));
  }
  return [];
}

/** URI of the file whose `ingredient` block makes the ingredient of that key, seen from a file; the nearest one counts. */
export function makerOf(file: ProjectFile, key: string): string | undefined {
  return [file, ...file.visible].find(place => place.tree.blocks.some(({ block }) => {
    const own = ownName(block);
    if (own === undefined) return false;
    const made = ownIngredientOf(own, file.environment);
    return made.kind === 'ingredient' && made.key === key;
  }))?.uri;
}
