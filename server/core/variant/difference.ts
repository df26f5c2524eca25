/** What a formula says differently from another one, as lines of a variant. */
import { meaningOf, parseBlock, type Block, type BodyNode, type IngredientLine, type Line } from '../../../grammar';
import { isDoughKind, nameKey } from '../formula/draft';
import type { Section } from '../formula/model';
import { blocksInOrder, partKeyOf } from './order';

export interface Difference {
  /** `set water to 620 g`. */
  readonly changes: readonly string[];
  /** Lines of the target's head that the base says likewise, by their start. */
  readonly sameInHead: ReadonlySet<number>;
  /** Blocks of the target that the base and the changes come to. */
  readonly sameBlocks: ReadonlySet<number>;
}

/**
 * The fewest lines that make the target of the base, as far as lines can say it; what they cannot stays as a block of the variant's
 * own. Undefined where the base says something in its head that the target leaves open. Whoever asks tries it.
 *
 * @param base written out
 * @param target no variant
 */
export function differenceBetween(base: Section, target: Section): Difference | undefined {
  const sameInHead = headLikeBase(base, target);
  if (sameInHead === undefined) return undefined;
  const changes: string[] = [];
  const sameBlocks = new Set<number>();
  const inBase = blocksInOrder(base).flatMap((index) => base.blocks[index] ?? []);
  target.blocks.forEach((block, index) => {
    const key = partKeyOf(block);
    const other = key === undefined ? undefined : inBase.filter((one) => partKeyOf(one) === key);
    const [only] = other ?? [];
    if (only === undefined || other?.length !== 1 || !isSameBeside(only, block)) return;
    changes.push(...lineChanges(only, block));
    sameBlocks.add(index);
  });
  const steps = (blocks: readonly Block[]): readonly Block[] => blocks.filter(({ head }) => head.node.kind === 'steps');
  const [own, ...more] = target.blocks.flatMap((block, index) => (block.head.node.kind === 'steps' ? [{ block, index }] : []));
  const [others, ...otherMore] = steps(inBase);
  const swapped = swapsIn(changes);
  if (own !== undefined && others !== undefined && more.length === 0 && otherMore.length === 0 && stepText(others, swapped) === stepText(own.block, [])) sameBlocks.add(own.index);
  return { changes, sameInHead, sameBlocks };
}

/** Lines of the target's head that are the base's; undefined when the base has one that the target has not. */
function headLikeBase(base: Section, target: Section): ReadonlySet<number> | undefined {
  const said = (section: Section): readonly { readonly line: Line; readonly text: string; readonly key: string }[] => blocksInOrder(section).flatMap((index) => {
    const block = section.blocks[index];
    return block?.head.node.kind !== 'formula' ? [] : block.lines.flatMap((line) => {
      const { node } = line;
      const key = node.kind === 'makes' ? 'makes' : node.kind === 'property' ? `${node.key}${node.value.kind === 'loss' ? node.value.where : ''}` : undefined;
      return key === undefined ? [] : [{ line, key, text: plain(block.text.slice(node.start, node.end)) }];
    });
  });
  const own = said(target);
  const theirs = said(base);
  if (theirs.some(({ key }) => !own.some((one) => one.key === key))) return undefined;
  return new Set(own.filter(({ key, text }) => theirs.filter((one) => one.key === key).map((one) => one.text).join('\n') === text && own.filter((one) => one.key === key).length === 1).map(({ line }) => line.start));
}

/** Whether two blocks of a part differ in their ingredients only. */
function isSameBeside(a: Block, b: Block): boolean {
  return restOf(a) === restOf(b);
}

function restOf(block: Block): string {
  const lines = block.lines.filter(({ node }) => node.kind !== 'ingredient' && node.kind !== 'blank' && node.kind !== 'comment').map(({ node }) => plain(block.text.slice(node.start, node.end)));
  return [plain(block.text.slice(block.head.node.start, block.head.node.end)), ...lines].join('\n');
}

interface Said {
  readonly node: IngredientLine;
  readonly name: string;
  readonly amount: string;
  /** Everything but the name and the amount. */
  readonly rest: string;
  readonly text: string;
}

function saidIn({ text, lines }: Block): readonly Said[] {
  return lines.flatMap(({ node }): readonly Said[] => {
    if (node.kind !== 'ingredient') return [];
    const { amount, name } = node;
    const bracket = 'bracket' in amount && amount.bracket !== undefined && amount.bracket.start > name.start ? ` (${text.slice(amount.bracket.start, amount.bracket.end)})` : '';
    const behind = text.slice(name.end, node.end);
    const rest = bracket === '' ? behind : behind.replace(/\([^)]*\)/, '');
    return [{ node, name: text.slice(name.start, name.end), amount: `${text.slice(amount.start, amount.end)}${bracket}`, rest: plain(rest), text: text.slice(node.start, node.end) }];
  });
}

/** The changes that make the ingredients of one block of those of another. */
function lineChanges(from: Block, to: Block): readonly string[] {
  const { node } = to.head;
  const where = node.kind === 'part' && !isDoughKind(node.part) ? ` in ${to.text.slice((node.name ?? node.keyword).start, (node.name ?? node.keyword).end)}` : '';
  const was = [...saidIn(from)];
  const is = [...saidIn(to)];
  const take = (test: (a: Said, b: Said) => boolean): readonly (readonly [Said, Said])[] => {
    const found: (readonly [Said, Said])[] = [];
    for (const b of [...is]) {
      const a = was.find((one) => test(one, b));
      if (a === undefined) continue;
      was.splice(was.indexOf(a), 1);
      is.splice(is.indexOf(b), 1);
      found.push([a, b]);
    }
    return found;
  };
  const isNamed = (a: Said, b: Said): boolean => nameKey(a.node.name.text) === nameKey(b.node.name.text);
  take((a, b) => isNamed(a, b) && a.amount === b.amount && a.rest === b.rest);
  const set = take((a, b) => isNamed(a, b) && a.rest === b.rest);
  const swapped = take((a, b) => a.amount === b.amount && a.rest === b.rest && a.node.amount.kind !== 'all' && !isNamed(a, b));
  const added = (line: Said): string => {
    const { note } = line.node;
    const said = note === undefined ? line.text : line.text.slice(0, note.start - line.node.start).replace(/\s*,\s*$/, '');
    const words = note === undefined ? '' : `, ${to.text.slice(note.start, note.end)}`;
    // Behind a note only a part in quotes is read as one.
    return `add       ${plain(said)}${words}${note !== undefined && where !== '' && !where.includes('"') ? ` in "${where.slice(4)}"` : where}`;
  };
  return [
    ...swapped.map(([a, b]) => `swap      ${a.name} for ${b.name}${where}`),
    ...set.map(([, b]) => `set       ${b.name} to ${b.amount}${where}`),
    ...was.map((a) => `drop      ${a.name}${where}`),
    ...is.map(added),
  ];
}

function swapsIn(changes: readonly string[]): readonly (readonly [string, string])[] {
  return changes.flatMap((change): readonly (readonly [string, string])[] => {
    const node: BodyNode | undefined = parseBlock(`formula "F"\n  ${change}\n`).lines[0]?.node;
    return node?.kind === 'swap' ? [[nameKey(node.from.text), nameKey(node.to.text)]] : [];
  });
}

/** What steps say, with the names of what they add changed. */
function stepText(block: Block, swaps: readonly (readonly [string, string])[]): string {
  return JSON.stringify(JSON.parse(meaningOf(block)), (key, value: unknown) => {
    if (key !== 'text' || typeof value !== 'string') return value;
    return swaps.find(([from]) => from === nameKey(value))?.[1] ?? nameKey(value);
  });
}

function plain(text: string): string {
  return text.replace(/\s+/g, ' ').trim();
}
