/** Where the thing under the cursor is made: a part, an ingredient of one's own, a formula, a used file. */
import type { LocationLink, Range } from 'vscode-languageserver';
import type { LoadedFile, ProjectFile } from '../project/file';
import { offsetsOfSection } from '../project/file';
import { sameThing } from './shared/named';
import { nameAt, namesIn } from './shared/names';

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
  const { named } = name;
  for (const place of [file, ...file.visible]) {
    const made = namesIn(place, file.environment).filter(other => other.defines && sameThing(other.named, named));
    // The first file that makes it is the nearest, and its word counts.
    if (made.length > 0) return made.map(other => linkTo(place, other, origin));
  }
  return [];
}

const TOP: Range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

function linkTo(place: LoadedFile, made: ReturnType<typeof namesIn>[number], originSelectionRange: Range): LocationLink {
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
