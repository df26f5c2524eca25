/**
 * Every place that names one thing, in one file and across files. Definition, references, highlights and rename take their
 * places from here, so that they are the same.
 */
import { ownName } from '../../core/ingredients/own';
import type { LoadedFile, ProjectFile } from '../../project/file';
import { ownIngredientOf, sameThing } from './named';
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
  return [file, ...reachOf(file, named, others)].flatMap(place => placesIn(place, named));
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
