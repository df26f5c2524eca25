/** Where the thing under the cursor is made: a part, an ingredient of one's own, a formula, a used file. */
import type { LocationLink, Range } from 'vscode-languageserver';
import type { LoadedFile, ProjectFile } from '../project/file';
import { offsetsOfSection } from '../project/file';
import { nameAt } from './shared/names';
import type { Occurrence } from './shared/names';
import { makingsOf } from './shared/places';

/** Empty when there is no such place: an ingredient of the built-in table has none. */
export function definitionAt(file: ProjectFile, offset: number): LocationLink[] {
  const name = nameAt(file, file.environment, offset);
  if (name === undefined) return [];
  const origin = file.lineIndex.rangeOf(name.start, name.end);
  if (name.named.kind === 'file') {
    const { block } = name.named;
    const uri = file.uses.find(use => use.block === block && use.problem === undefined)?.uri;
    return uri === undefined ? [] : [{ targetUri: uri, targetRange: TOP, targetSelectionRange: TOP, originSelectionRange: origin }];
  }
  return makingsOf(file, name.named).map(made => linkTo(made.file, made.name, origin));
}

const TOP: Range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

function linkTo(place: LoadedFile, made: Occurrence, originSelectionRange: Range): LocationLink {
  const block = place.tree.blocks[made.block];
  const whole = made.named.kind === 'formula'
    ? offsetsOfSection(place, made.section)
    : { start: (block?.offset ?? 0) + (block?.block.head.start ?? 0), end: (block?.offset ?? 0) + (block?.block.head.end ?? 0) };
  return {
    targetUri: place.uri,
    targetRange: place.lineIndex.rangeOf(whole.start, whole.end),
    targetSelectionRange: place.lineIndex.rangeOf(made.start, made.end),
    originSelectionRange,
  };
}
