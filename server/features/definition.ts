/** Where the thing under the cursor is made: a part, an ingredient of one's own, a formula, a used file. */
import type { LocationLink, Range } from 'vscode-languageserver';
import type { Block, Span } from '../../grammar';
import { sourceOf } from '../core/variant/places';
import type { LoadedFile, ProjectFile } from '../project/file';
import { offsetsOfSection, sectionOfBlock } from '../project/file';
import { nameAt, withoutQuotes } from './shared/names';
import type { Occurrence } from './shared/names';
import { makingsOf } from './shared/places';
import { changeHolding } from './shared/variant-words';

/** Empty when there is no such place: an ingredient of the built-in table has none. */
export function definitionAt(file: ProjectFile, offset: number): LocationLink[] {
  const name = nameAt(file, file.environment, offset);
  if (name === undefined) return [];
  return [...changedLines(file, name), ...makings(file, name)];
}

/** Of a name in a line of a variant: the lines of the base that it changes. */
function changedLines(file: ProjectFile, name: Occurrence): LocationLink[] {
  const section = sectionOfBlock(file, name.block);
  const at = name.start - (file.tree.blocks[name.block]?.offset ?? 0);
  const found = section && changeHolding(section, name.block - section.firstBlock, at);
  if (found === undefined || found.change.node.kind === 'add') return [];
  const { node } = found.change;
  const written = node.kind === 'swap' ? node.from : node.name;
  if (at < written.start || at > written.end) return [];
  return found.change.lines.flatMap(line => {
    const source = sourceOf(found.variant.base, line);
    const named = source && nameSpan(source);
    return source === undefined || named === undefined ? [] : [file, ...file.visible].flatMap(place => place.tree.blocks.flatMap(({ block, offset }) => (block !== source.block ? [] : [{
      targetUri: place.uri,
      targetRange: place.lineIndex.rangeOf(offset + source.start, offset + source.end),
      targetSelectionRange: place.lineIndex.rangeOf(offset + named.start, offset + named.end),
      originSelectionRange: file.lineIndex.rangeOf(name.start, name.end),
    }])));
  });
}

/** Where the name stands in a line of ingredients, its quotes left out. */
function nameSpan({ block, start }: Span & { readonly block: Block }): Span | undefined {
  const node = block.lines.find(line => line.start === start)?.node;
  const name = node?.kind === 'ingredient' ? node.name : node?.kind === 'flour-share' ? node.part : node?.kind === 'uses' ? node.formula : undefined;
  return name && withoutQuotes(block.text, name);
}

function makings(file: ProjectFile, name: Occurrence): LocationLink[] {
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
