/** Edits of a formula written out, as edits of the variant's own text. */
import type { Block, Line } from '../../../grammar';
import { isDoughKind } from '../formula/draft';
import type { Place, Section } from '../formula/model';
import { exactPlace, isOwnPlace } from './places';

interface Edit {
  readonly place: Place;
  readonly newText: string;
}

/**
 * The same edits where the variant has the text itself. Where its base has, a line of the head is written here as it is to be, and
 * an amount becomes a `set` line, at most so many. They are in the order of the text. Undefined where that cannot be said in the variant's own lines.
 */
export function ownEdits(section: Section, edits: readonly Edit[], mostSets: number): readonly Edit[] | undefined {
  const { variant } = section;
  if (variant === undefined) return edits;
  // By where they stand: a weight that a line of the variant brings is met there and in the block that it is written out in,
  // where more is known of it, so the later edit counts.
  const own = new Map<string, Edit>();
  const properties: string[] = [];
  const setLines: string[] = [];
  const rest = new Map<string, { readonly block: number; readonly line: Line; readonly edits: Edit[] }>();
  for (const edit of edits) {
    const place = exactPlace(section, edit.place);
    if (place !== undefined) {
      own.set(`${String(place.block)} ${String(place.start)} ${String(place.end)}`, { place, newText: edit.newText });
      continue;
    }
    const { block, start, end } = edit.place;
    const line = section.blocks[block]?.lines.find((one) => one.start <= start && end <= one.end);
    if (line === undefined) return undefined;
    const key = `${String(block)} ${String(line.start)}`;
    const known = rest.get(key) ?? { block, line, edits: [] };
    known.edits.push(edit);
    rest.set(key, known);
  }
  for (const { block, line, edits: inLine } of rest.values()) {
    const said = sayHere(section, block, line, inLine);
    if (said === undefined) return undefined;
    (said.isSet ? setLines : properties).push(said.text);
  }
  if (setLines.length > mostSets) return undefined;
  const { text = '' } = section.blocks[variant.basedOn.block] ?? {};
  const indent = /[ \t]*$/.exec(text.slice(0, variant.basedOn.start))?.[0] ?? '';
  const lineEnd = text.includes('\r\n') ? '\r\n' : '\n';
  // Properties stand behind the name of the base, as they do in a formula that is written by hand, and changes behind the last one.
  const lastLine = lastChange(section) ?? variant.basedOn;
  const behind = (place: Place, lines: readonly string[]): readonly Edit[] => {
    const end = lineEndsAt(section.blocks[place.block], place);
    return lines.length === 0 ? [] : [{ place: { block: place.block, start: end, end }, newText: lines.map((line) => `${lineEnd}${indent}${line}`).join('') }];
  };
  const added = lastLine === variant.basedOn ? behind(lastLine, [...properties, ...setLines]) : [...behind(variant.basedOn, properties), ...behind(lastLine, setLines)];
  return [...own.values(), ...added].sort(byPlace);
}

/** A line of a block that the base gives, as the variant would say it itself. */
function sayHere(section: Section, block: number, line: Line, edits: readonly Edit[]): { readonly text: string; readonly isSet: boolean } | undefined {
  const { text = '', head } = section.blocks[block] ?? {};
  const { node } = line;
  const within = (from: number, to: number): string => {
    let made = '';
    let at = from;
    for (const { place, newText } of [...edits].sort((a, b) => a.place.start - b.place.start)) {
      made += text.slice(at, place.start) + newText;
      at = place.end;
    }
    return made + text.slice(at, to);
  };
  if ((node.kind === 'makes' || node.kind === 'property') && head?.node.kind !== 'part') return { text: within(node.start, node.end), isSet: false };
  if (node.kind !== 'ingredient' || head?.node.kind !== 'part') return undefined;
  const { amount, name } = node;
  if (edits.some(({ place }) => place.start < amount.start || place.end > amount.end)) return undefined;
  const part = isDoughKind(head.node.part) ? '' : ` in ${text.slice((head.node.name ?? head.node.keyword).start, (head.node.name ?? head.node.keyword).end)}`;
  return { text: `set       ${text.slice(name.start, name.end)} to ${within(amount.start, amount.end)}${part}`, isSet: true };
}

function byPlace({ place: a }: Edit, { place: b }: Edit): number {
  return a.block - b.block || a.start - b.start;
}

function lastChange(section: Section): Place | undefined {
  return section.variant?.changes.map(({ place }) => place).filter((place) => isOwnPlace(section, place)).at(-1);
}

/** Behind the comment that a line may have. */
function lineEndsAt(block: Block | undefined, { start, end }: Place): number {
  return block?.lines.find((line) => line.start <= start && end <= line.end)?.end ?? end;
}
