/** Every place that names the thing under the cursor, in this file and in those that it has to do with. */
import type { Location } from 'vscode-languageserver';
import type { ProjectFile } from '../project/file';
import { nameAt } from './shared/names';
import { placesOf } from './shared/places';

/** `others` are files that may have to do with this one, each with its own surroundings. */
export function referencesAt(file: ProjectFile, offset: number, others: readonly ProjectFile[], withDefinition: boolean): Location[] {
  const name = nameAt(file, file.environment, offset);
  if (name === undefined) return [];
  return placesOf(file, name.named, others)
    .filter(place => withDefinition || !place.name.defines)
    .map(place => ({ uri: place.file.uri, range: place.file.lineIndex.rangeOf(place.name.start, place.name.end) }));
}
