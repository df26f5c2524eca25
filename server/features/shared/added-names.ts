/**
 * What the `add …` of a step means. Steps are written shorter than lists: `add seeds` for `stall seed mix`, `add soaker`
 * for the only soaker, `add figs and walnuts` for two.
 */
import type { Name, Span } from '../../../grammar';
import type { Environment } from '../../core/analyse';
import { nameKey } from '../../core/formula/draft';
import type { Section } from '../../core/formula/model';
import { foldName } from '../../core/ingredients/names';
import { everyLine } from '../../project/file';
import { baseOf, ingredientOf, sameThing } from './named';
import type { Named } from './named';

export interface Added {
  readonly named: Named;
  /** The words are not the name itself. */
  readonly loose: boolean;
  /** Where in the block the name stands, if the words hold several. */
  readonly piece?: Span & { readonly text: string };
}

/** `parts` are those that can be named in the section, with the section that makes each. `inner` is the name's place without its quotes. */
export function addedNames(section: Section, environment: Environment, parts: ReadonlyMap<string, Section>): (name: Name, inner: Span) => readonly Added[] {
  let known: Listed | undefined;
  const listed = (): Listed => (known ??= listedIn(section, environment, parts));
  return (name, inner) => {
    const part = partCalled(nameKey(name.text), parts);
    if (part !== undefined) return [{ named: part, loose: false }];
    const ingredient = ingredientOf(name.text, environment);
    if (listed().lines.some(({ named }) => sameThing(named, ingredient))) return [{ named: ingredient, loose: false }];
    const loose = looselyMeant(name.text, listed());
    if (loose !== undefined) return [{ named: loose, loose: true }];
    const pieces = piecesOf(name, inner).flatMap((piece): Added[] => {
      const exact = partCalled(nameKey(piece.text), parts);
      const meant = exact ?? partAlike(piece.text, listed());
      return meant === undefined ? [] : [{ named: meant, loose: exact === undefined, piece }];
    });
    return pieces.length > 0 ? pieces : [{ named: ingredient, loose: false }];
  };
}

interface Listed {
  /** Names in the lists of the formula and of those that it is based on, with what they mean. */
  readonly lines: readonly { readonly text: string; readonly named: Named }[];
  readonly kinds: ReadonlyMap<string, readonly Named[]>;
  readonly partNames: readonly { readonly text: string; readonly named: Named }[];
}

function listedIn(section: Section, environment: Environment, parts: ReadonlyMap<string, Section>): Listed {
  const lines: { text: string; named: Named }[] = [];
  const kinds = new Map<string, Named[]>();
  const seen = new Set<Section>();
  for (let at: Section | undefined = section; at !== undefined && !seen.has(at); at = baseOf(at, environment)) {
    seen.add(at);
    for (const block of at.blocks) {
      const { node: head } = block.head;
      if (head.kind === 'part') {
        const key = nameKey(head.name?.text ?? head.part);
        const owner = parts.get(key);
        if (owner === at) kinds.set(head.part, [...kinds.get(head.part) ?? [], { kind: 'part', key, owner }]);
      }
      for (const { node } of everyLine(block)) {
        const name = node.kind === 'ingredient' ? node.name : node.kind === 'add' ? node.line.name : node.kind === 'swap' ? node.to : undefined;
        if (name !== undefined) lines.push({ text: name.text, named: partCalled(nameKey(name.text), parts) ?? ingredientOf(name.text, environment) });
      }
    }
  }
  return { lines, kinds, partNames: [...parts].map(([key, owner]) => ({ text: key, named: { kind: 'part', key, owner } })) };
}

function partCalled(key: string, parts: ReadonlyMap<string, Section>): Named | undefined {
  const owner = parts.get(key);
  return owner === undefined ? undefined : { kind: 'part', key, owner };
}

/** In another number; by the kind of part where there is one of it; or by some words of the name. Nothing if several things fit. */
function looselyMeant(text: string, listed: Listed): Named | undefined {
  const alike = partAlike(text, listed) ?? onlyOne(listed.lines.filter(line => foldName(line.text) === foldName(text)));
  if (alike !== undefined) return alike;
  const words = nameKey(text).split(' ');
  return onlyOne(listed.lines.filter(line => {
    const own = nameKey(line.text).split(' ');
    return words.every(word => own.includes(word));
  }));
}

function partAlike(text: string, { partNames, kinds }: Listed): Named | undefined {
  const alike = onlyOne(partNames.filter(part => foldName(part.text) === foldName(text)));
  if (alike !== undefined) return alike;
  const ofKind = [...kinds].filter(([kind]) => foldName(kind) === foldName(text)).flatMap(([, named]) => named);
  return ofKind.length === 1 ? ofKind[0] : undefined;
}

function onlyOne(found: readonly { readonly named: Named }[]): Named | undefined {
  const first = found[0]?.named;
  return first !== undefined && found.every(({ named }) => sameThing(named, first)) ? first : undefined;
}

/** The pieces around `and`, `&` and `+`, with their places; none for a name that has no such word, or odd spacing. */
function piecesOf({ text }: Name, inner: Span): readonly (Span & { readonly text: string })[] {
  // Only where the text stands letter for letter in the file do places in the one hold in the other.
  if (inner.end - inner.start !== text.length) return [];
  const pieces: (Span & { readonly text: string })[] = [];
  let at = 0;
  for (const joint of [...text.matchAll(/\s+and\s+|\s*[&+]\s*/gu), undefined]) {
    const end = joint?.index ?? text.length;
    if (end > at) pieces.push({ start: inner.start + at, end: inner.start + end, text: text.slice(at, end) });
    if (joint !== undefined) at = joint.index + joint[0].length;
  }
  return pieces.length > 1 ? pieces : [];
}
