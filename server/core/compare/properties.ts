/** What the lines of heads, records, plans and ingredients say, line by line, however they are laid out. */
import type { Block, Line, MassAmount } from '../../../grammar';
import { GRAMS_PER, toGrams } from '../units/mass';
import { gradeOf } from './factor';
import type { Change, Fact, What } from './model';

interface Said {
  /** The word that opens the line. */
  readonly key: string;
  readonly text: string;
  readonly meaning: string;
  /** Of a weight, which grows with the formula. */
  readonly grams: number | undefined;
  readonly start: number;
}

export interface BlockSide {
  readonly block: Block;
  /** Line in its file, from 1, of an offset in the block. */
  readonly lineAt: (offset: number) => number;
}

/**
 * Lines of two blocks that differ, by the word that opens them; several of one word in their order. Ingredients and steps, which are
 * compared otherwise, are left out.
 *
 * @param part name of the part that the lines stand in, where it is one
 */
export function compareLines(before: BlockSide | undefined, after: BlockSide | undefined, factor: number, what: What = 'property', part?: { readonly before: string; readonly after: string }): readonly Change[] {
  const [was, is] = [groups(before), groups(after)];
  const changes: Change[] = [];
  for (const key of new Set([...was.keys(), ...is.keys()])) {
    const there = [...(is.get(key) ?? [])];
    const gone = (was.get(key) ?? []).filter((said) => {
      const same = there.findIndex((other) => saysTheSame(said, other, factor));
      if (same >= 0) there.splice(same, 1);
      return same < 0;
    });
    for (let i = 0; i < Math.max(gone.length, there.length); i += 1) {
      changes.push({ what, before: fact(before, gone[i], part?.before), after: fact(after, there[i], part?.after) });
    }
  }
  return changes;
}

function fact(side: BlockSide | undefined, said: Said | undefined, part: string | undefined): Fact | undefined {
  return side === undefined || said === undefined ? undefined : { name: said.key, text: said.text, line: side.lineAt(said.start), ...(part !== undefined && { part }) };
}

function saysTheSame(a: Said, b: Said, factor: number): boolean {
  if (a.grams !== undefined && b.grams !== undefined) {
    return a.grams === b.grams || (a.grams > 0 && b.grams > 0 && gradeOf({ before: a.grams, after: b.grams, rewritten: false }, factor) !== 'other');
  }
  return a.meaning === b.meaning;
}

function groups(side: BlockSide | undefined): ReadonlyMap<string, readonly Said[]> {
  const found = new Map<string, Said[]>();
  for (const line of side?.block.lines ?? []) {
    const said = side === undefined ? undefined : saidBy(line, side.block);
    if (said === undefined) continue;
    const group = found.get(said.key);
    if (group === undefined) found.set(said.key, [said]);
    else group.push(said);
  }
  return found;
}

function saidBy(line: Line, { text: blockText }: Block): Said | undefined {
  const { node } = line;
  const said = (key: string, from: number, meaning: unknown = node, grams?: number): Said => ({
    key, text: blockText.slice(from, node.end).trim().replace(/\s+/g, ' '), meaning: meaningOf(meaning), grams, start: line.start,
  });
  switch (node.kind) {
    case 'property': {
      const { value } = node;
      const grams = value.kind === 'amount' && value.amount.kind === 'mass' ? toGrams(value.amount) : undefined;
      return said(node.key, node.keyword.end, value, grams);
    }
    case 'makes':
      return said('makes', node.keyword.end);
    case 'based-on':
      return said('based on', node.keyword.end, node.base);
    case 'swap':
    case 'set':
    case 'add':
    case 'drop':
      return said(node.kind, node.keyword.end);
    case 'bad':
      return said('line that is not understood', node.start, blockText.slice(node.start, node.end).trim().replace(/\s+/g, ' '));
    case 'ingredient':
    case 'flour-share':
    case 'uses':
    case 'step':
    case 'blank':
    case 'comment':
      return undefined;
  }
}

/** A block's lines whatever they are, each one line of text: for records, where steps and weights are what happened. */
export function compareRecords(before: BlockSide, after: BlockSide, date: string): Change | undefined {
  const [was, is] = [textsOf(before.block), textsOf(after.block)];
  const gone = without(was, is);
  const came = without(is, was);
  if (gone.length === 0 && came.length === 0) return undefined;
  const side = ({ block, lineAt }: BlockSide, texts: readonly string[]): Fact => ({ name: date, text: texts.join('; '), line: lineAt(block.head.start) });
  return { what: 'record', before: side(before, gone), after: side(after, came) };
}

interface LineText {
  readonly meaning: string;
  readonly text: string;
}

function textsOf({ lines, text }: Block): readonly LineText[] {
  return lines.flatMap(({ node, children }): readonly LineText[] => (node.kind === 'blank' || node.kind === 'comment'
    ? []
    : [{ meaning: meaningOf([node, children.map((child) => child.node)]), text: text.slice(node.start, node.end).trim().replace(/\s+/g, ' ') }]));
}

function without(list: readonly LineText[], other: readonly LineText[]): readonly string[] {
  const left = new Set(other.map(({ meaning }) => meaning));
  return list.filter(({ meaning }) => !left.has(meaning)).map(({ text }) => text);
}

/** What a block says, comments and layout aside. */
export function meaningOfBlock({ head, lines, text, problems }: Block): string {
  const body = (line: Line): unknown => (line.node.kind === 'bad' ? text.slice(line.start, line.end).trim() : [line.node, line.children.filter(isSaid).map(body)]);
  const broken = problems.map(({ start, end }) => text.slice(start, end).trim().replace(/\s+/g, ' '));
  return meaningOf([head.node, lines.filter(isSaid).map(body), broken]);
}

function isSaid({ node }: Line): boolean {
  return node.kind !== 'blank' && node.kind !== 'comment';
}

/** The tree in one spelling: where it stands, quotes, the digits of a number and the scale of a temperature do not count. */
function meaningOf(value: unknown): string {
  return JSON.stringify(value, (key, each: unknown) => {
    if (key === 'start' || key === 'end' || key === 'keyword' || key === 'quoted' || key === 'comma') return undefined;
    if (!isRecord(each)) return each;
    if (typeof each['value'] === 'number' && typeof each['text'] === 'string') return each['value'];
    if (each['kind'] === 'degrees') return [each['lowCelsius'], each['highCelsius']];
    if (isMass(each)) return ['g', toGrams(each)];
    return each;
  });
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isMass(value: unknown): value is MassAmount {
  return isRecord(value) && value['kind'] === 'mass' && typeof value['unit'] === 'string' && Object.hasOwn(GRAMS_PER, value['unit']) && isRecord(value['quantity']);
}
