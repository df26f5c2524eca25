/** Every place that names the thing under the cursor, in this file and in those that it has to do with. */
import { DocumentHighlightKind } from 'vscode-languageserver';
import type { DocumentHighlight, Location } from 'vscode-languageserver';
import type { ProjectFile } from '../project/file';
import { nameAt, namesIn, sameThing } from './shared/names';
import type { Named } from './shared/names';

/**
 * `others` are files that may have to do with this one, each with its own surroundings. A formula, a part or an ingredient
 * of one's own is the same wherever it is made by the same block. One of the built-in table is looked for in this file
 * only: the same flour in two unrelated files is nobody's concern.
 */
export function referencesAt(file: ProjectFile, offset: number, others: readonly ProjectFile[], withDefinition: boolean): Location[] {
  const name = nameAt(file, file.environment, offset);
  if (name === undefined) return [];
  const { named } = name;
  const maker = named.kind === 'ingredient' ? makerOf(file, named) : undefined;
  const alone = named.kind === 'file' || (named.kind === 'ingredient' && maker === undefined);
  const reach = alone ? [] : others.filter(other => other.uri !== file.uri && (named.kind !== 'ingredient' || makerOf(other, named) === maker));
  return [file, ...reach].flatMap(place => (
    namesIn(place, place.environment)
      .filter(other => sameThing(other.named, named) && (withDefinition || !other.defines))
      .map(other => ({ uri: place.uri, range: place.lineIndex.rangeOf(other.start, other.end) }))
  ));
}

/** The file whose `ingredient` block counts, seen from a file. */
function makerOf(file: ProjectFile, named: Named): string | undefined {
  return [file, ...file.visible].find(place => (
    namesIn(place, file.environment).some(name => name.defines && sameThing(name.named, named))
  ))?.uri;
}

/** The same places in this file, for the editor to mark. */
export function highlightsAt(file: ProjectFile, offset: number): DocumentHighlight[] {
  const name = nameAt(file, file.environment, offset);
  if (name === undefined) return [];
  return namesIn(file, file.environment).filter(other => sameThing(other.named, name.named)).map(other => ({
    range: file.lineIndex.rangeOf(other.start, other.end),
    kind: other.defines ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
  }));
}
