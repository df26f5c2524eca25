/** The references in this file, for the editor to mark: where the thing is made is written, everywhere else it is read. */
import type { DocumentHighlight } from 'vscode-languageserver';
import type { ProjectFile } from '../project/file';
import { nameAt } from './shared/names';
import { placesIn } from './shared/places';
import { DocumentHighlightKind } from './shared/protocol';

export function highlightsAt(file: ProjectFile, offset: number): DocumentHighlight[] {
  const name = nameAt(file, file.environment, offset);
  if (name === undefined) return [];
  return placesIn(file, name.named).map(({ name: { start, end, defines } }) => ({
    range: file.lineIndex.rangeOf(start, end),
    kind: defines ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
  }));
}
