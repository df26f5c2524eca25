/** What a formula still lacks, for completion to offer first. What is being typed counts for nothing. */
import { STEP_WORDS } from '../../../grammar';
import type { Line } from '../../../grammar';
import { nameKey } from '../../core/formula/draft';
import type { Section } from '../../core/formula/model';
import { everyLine } from '../../project/file';
import type { Cursor } from './cursor';

/** Keys of the parts that some line of the section takes in. */
export function takenIn(section: Section): ReadonlySet<string> {
  const taken = new Set<string>();
  for (const block of section.blocks) {
    if (block.head.node.kind !== 'part') continue;
    for (const { node } of everyLine(block)) if (node.kind === 'ingredient') taken.add(nameKey(node.name.text));
  }
  return taken;
}

/** Words that open the lines of the cursor's block, in the order of the text; of its steps only those above the cursor. */
export function linesWritten(cursor: Cursor, text: string): readonly string[] {
  const { block } = cursor;
  if (block === undefined) return [];
  return everyLine(block.block).flatMap(line => {
    if (isTyped(line, block.offset, cursor, text)) return [];
    const { node } = line;
    if (node.kind === 'step') return block.offset + line.start < cursor.offset ? [node.step] : [];
    return 'keyword' in node ? [block.block.text.slice(node.keyword.start, node.keyword.end).toLowerCase().replace(/\s+/g, ' ')] : [];
  });
}

/** Kinds of steps that usually come after the last one that is written: all of them where there is none. */
export function bestNext(written: readonly string[]): ReadonlySet<string> {
  const order = STEP_WORDS.map(({ label }): string => label);
  const last = written.findLast(word => order.includes(word));
  return new Set(last === undefined ? order : order.slice(order.indexOf(last)));
}

export interface Added {
  readonly name: string;
  /** Of the whole, 0 to 1; a weight that is added counts as nothing, for it takes more than the text to know what it is of. */
  readonly share: number;
}

/** What steps of the section add already, by the key of the name. */
export function addedSoFar(section: Section, cursor: Cursor): ReadonlyMap<string, Added> {
  const at = cursor.offset - (cursor.block?.offset ?? 0);
  const added = new Map<string, Added>();
  for (const block of section.blocks) {
    for (const { node } of everyLine(block)) {
      if (node.kind !== 'step') continue;
      for (const detail of node.details) {
        const isTyped = block === cursor.block?.block && at >= detail.start && at <= detail.end;
        if (detail.kind !== 'add' || isTyped) continue;
        const key = nameKey(detail.name.text);
        const { portion } = detail;
        const share = portion.kind === 'whole' || portion.kind === 'rest' ? 1 : portion.kind === 'fraction' ? portion.fraction : 0;
        added.set(key, { name: detail.name.text, share: Math.min(1, (added.get(key)?.share ?? 0) + share) });
      }
    }
  }
  return added;
}

function isTyped({ start, end }: Line, offset: number, cursor: Cursor, text: string): boolean {
  const from = text.lastIndexOf('\n', cursor.offset - 1) + 1;
  return offset + end >= from && offset + start <= cursor.offset;
}
