/**
 * A variant with what its base gives it: the base's parts with the variant's lines applied, its steps where the variant has
 * none, its properties where the variant says nothing else. See `model.ts` for how the texts are kept apart.
 *
 * - A part that the variant has itself stands in for the base's part of that name; any other is a part more.
 * - A step that adds what is swapped adds what it is swapped for, and one that adds what is dropped adds nothing.
 * - A part that nothing takes in any more, since the line that did is dropped or swapped, is left out.
 * - Records are of the formula that was baked, and stay there.
 */
import { parseBlock, type Block, type DeltaLine, type PropertyLine } from '../../../grammar';
import { nameKey } from '../formula/draft';
import type { Section } from '../formula/model';
import type { Catalogue } from '../ingredients/model';
import { placedChanges } from './changes';
import { partsIn } from './lines';
import type { Origin, Variant } from './model';
import { blocksInOrder, orderOf, partKeyOf, type Taken } from './order';
import { offsetIn, rewritten, untouched, wholeLine, type Cut } from './rewrite';
import { partCuts, stepCuts } from './cuts';

export interface VariantScene {
  readonly catalogue: Catalogue;
  /** The formula or dish of a lower-case name. */
  readonly formulaNamed: (name: string) => Section | undefined;
}

/** The `based on` line of a formula or dish; the first, where it has several. */
export function basedOnOf({ blocks }: Section): { readonly block: number; readonly node: Extract<DeltaLine, { kind: 'based-on' }> } | undefined {
  for (const [block, { lines }] of blocks.entries()) {
    for (const { node } of lines) if (node.kind === 'based-on') return { block, node };
  }
  return undefined;
}

/**
 * The section with what its base gives it; the section itself where it is no variant, where its base is not to be found, and
 * where the way over the bases leads back to it. Never throws.
 *
 * @param left a change by its index that is left out, to see what it is that it brings about
 */
export function writtenOut(section: Section, scene: VariantScene, left?: number): Section {
  return writtenOutWithin(section, scene, new Set([section]), left);
}

function writtenOutWithin(section: Section, scene: VariantScene, open: ReadonlySet<Section>, left?: number): Section {
  if (section.variant !== undefined || (section.kind !== 'formula' && section.kind !== 'dish')) return section;
  const basedOn = basedOnOf(section);
  const found = basedOn && scene.formulaNamed(nameKey(basedOn.node.base.text));
  if (basedOn === undefined || found === undefined || open.has(found)) return section;
  const base = writtenOutWithin(found, scene, new Set([...open, found]));
  // A base that hangs in the air gives nothing, and says so itself.
  if (base.variant === undefined && basedOnOf(base) !== undefined) return section;
  return onBase(section, base, basedOn, scene, left);
}

function onBase(section: Section, base: Section, { block, node }: NonNullable<ReturnType<typeof basedOnOf>>, scene: VariantScene, left: number | undefined): Section {
  const ownParts = new Set(section.blocks.flatMap((one) => partKeyOf(one) ?? []));
  const parts = partsIn(base).filter(({ key }) => !ownParts.has(key));
  const placed = placedChanges(section, parts, ownParts, scene.catalogue, left);
  const gone = new Set(placed.goneParts);
  const hasSteps = section.blocks.some(({ head }) => head.node.kind === 'steps');
  const taken = blocksInOrder(base).flatMap((index): readonly Taken[] => {
    const one = base.blocks[index];
    if (one === undefined) return [];
    switch (one.head.node.kind) {
      case 'formula':
      case 'dish':
        return [takenOver(index, one, [...headCuts(one, section), ...partCuts(base, index, section, placed)], placed)];
      case 'part':
        if (gone.has(index) || ownParts.has(partKeyOf(one) ?? '')) return [];
        return [takenOver(index, one, [...partCuts(base, index, section, placed), ...stepCuts(one, section, placed)], placed)];
      case 'steps':
        return hasSteps ? [] : [takenOver(index, one, stepCuts(one, section, placed), placed)];
      default:
        return [];
    }
  });
  const variant: Variant = {
    ownBlocks: section.blocks.length,
    base,
    basedOn: { block, start: node.start, end: node.end },
    baseName: { block, start: node.base.start, end: node.base.end },
    changes: placed.changes,
    origins: taken.map(({ origin }) => origin),
    order: orderOf(section, base, taken),
    troubles: placed.troubles,
  };
  return { ...section, blocks: [...section.blocks, ...taken.map((one) => one.block)], variant };
}

function takenOver(index: number, block: Block, cuts: readonly Cut[], { changes }: ReturnType<typeof placedChanges>): Taken {
  if (cuts.length === 0) return { block, origin: untouched(index, block) };
  const { text, pieces } = rewritten(block.text, cuts);
  const touched = new Map<number, number>();
  changes.forEach(({ lines }, change) => {
    for (const { block: at, start } of lines) if (at === index && !touched.has(start)) touched.set(start, change);
  });
  const made = parseBlock(text);
  const starts = [...touched].flatMap(([start, change]) => {
    const at = offsetIn(pieces, start);
    return at === undefined ? [] : [{ at, change }];
  });
  const changed = made.lines.flatMap((line) => {
    const found = starts.find(({ at }) => at === line.start)?.change ?? addedBy(line, pieces, cuts);
    return found === undefined ? [] : [{ start: line.start, end: line.end, change: found }];
  });
  const inSteps = pieces.flatMap(({ start, end, own }) => {
    const cut = own === undefined ? undefined : cuts.find((one) => one.own === own);
    return cut?.change === undefined || changed.some((one) => one.start <= start && end <= one.end) ? [] : [{ start, end, change: cut.change }];
  });
  return { block: made, origin: { block: index, pieces, changed: [...changed, ...inSteps] } };
}

/** The change that added a line whole. */
function addedBy(line: { readonly start: number; readonly end: number }, pieces: Origin['pieces'], cuts: readonly Cut[]): number | undefined {
  const piece = pieces.find(({ start, end, own }) => own !== undefined && start === line.start && line.end <= end);
  return piece && cuts.find(({ own }) => own === piece.own)?.change;
}

/** Takes out of the base's head what the variant says itself, and the lines of a variant: what they change is changed. */
function headCuts({ text, lines }: Block, section: Section): readonly Cut[] {
  const own = section.blocks.flatMap(({ head, lines: said }) => (head.node.kind === 'formula' || head.node.kind === 'dish' ? said.map(({ node }) => node) : []));
  const said = new Set(own.flatMap((node) => (node.kind === 'property' ? [propertyKey(node)] : node.kind === 'makes' ? ['makes'] : [])));
  return lines.flatMap((line): readonly Cut[] => {
    const { node } = line;
    switch (node.kind) {
      case 'property':
        return said.has(propertyKey(node)) ? [{ ...wholeLine(text, line), newText: '' }] : [];
      case 'makes':
        return said.has('makes') ? [{ ...wholeLine(text, line), newText: '' }] : [];
      case 'based-on':
      case 'swap':
      case 'set':
      case 'add':
      case 'drop':
        return [{ ...wholeLine(text, line), newText: '' }];
      default:
        return [];
    }
  });
}

/** What the oven takes and what the bench takes are two things. */
function propertyKey({ key, value }: PropertyLine): string {
  return value.kind === 'loss' ? `${key} ${value.where}` : key;
}
