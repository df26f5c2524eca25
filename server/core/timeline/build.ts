/** From a resolved formula to its network of steps: every part's sequence, the method, and which step takes what in. */
import type { PartKind, StepKind } from '../../../grammar';
import type { ResolvedFormula, ResolvedPart } from '../formula/model';
import type { Conditions } from './model';
import { addsOf, namesOf, stepText, type Names } from './names';
import { addLink, addNode, NO_TIME, type Conflict, type Draft, type Link, type Network } from './network';
import { addSequence, counter, slug, type Moment, type Sequence } from './sequence';

export type Built = { readonly kind: 'network'; readonly network: Network } | { readonly kind: 'conflict'; readonly conflict: Conflict };

const MIXING_KINDS: readonly StepKind[] = ['mix', 'knead', 'whisk'];
const HEATING_KINDS: readonly StepKind[] = ['bake', 'steam', 'fry', 'boil'];

/**
 * Where parts that nothing takes in are wanted: at the first step of the first of these kinds that the method has; a
 * kind not listed here goes into the dough.
 */
const WANTED_AT: ReadonlyMap<PartKind, readonly StepKind[]> = new Map<PartKind, readonly StepKind[]>([
  // A roll is shaped around its filling.
  ['filling', ['fill', 'shape', ...HEATING_KINDS]],
  // Its eggs and milk are put together when they are whisked.
  ['custard', ['whisk', 'fill', 'soak', ...HEATING_KINDS]],
  ['topping', ['glaze', ...HEATING_KINDS]],
  ['wash', ['glaze', ...HEATING_KINDS]],
  ['glaze', ['glaze', 'cool', ...HEATING_KINDS]],
]);

/** A sequence that may take parts in: that of a part, or the method, into which the dough's list goes. */
interface Taker {
  readonly list: ResolvedPart | undefined;
  readonly sequence: Sequence;
  /** The steps that add a part, by the part. */
  readonly adding: ReadonlyMap<number, readonly Moment[]>;
  /** When what the list makes is ready; undefined for the method. */
  readonly ready: number | undefined;
}

/** Builds the network, or says which lines keep it from being one. A network may still hold a cycle; placing finds it. */
export function networkOf(formula: ResolvedFormula, conditions?: Conditions): Built {
  const day = { formula, conditions };
  const draft: Draft = { nodes: [], links: [], conflicts: missingParts(formula) };
  const prefix = counter(['method']);
  const prefixes = formula.parts.map((part) => prefix(slug(part.key) || slug(part.kind)));
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  const names = namesOf(formula);

  // Parts first, so that of two steps that begin together the part's comes first in the list.
  const takers: Taker[] = [];
  const readyOf = new Map<number, number>();
  formula.parts.forEach((part, index) => {
    if (part === dough) return;
    const stretch = { prefix: prefixes[index] ?? '', part: index, steps: part.steps };
    const sequence = addSequence(draft, day, index, [stretch], part.lines.length > 0 ? part : undefined);
    const ready = addNode(draft, { length: NO_TIME, sequence: index, work: undefined, inside: undefined });
    const last = sequence.spine.at(-1);
    if (last) addLink(draft, last.node, ready, { waitMs: part.isPreferment ? 0 : Infinity });
    readyOf.set(index, ready);
    takers.push({ list: part, sequence, adding: addingIn(sequence, names, index), ready });
  });
  const doughPrefix = formula.dough === undefined ? '' : prefixes[formula.dough] ?? '';
  const method = addSequence(
    draft, day, undefined,
    [
      { prefix: doughPrefix, part: formula.dough, steps: dough?.steps ?? [] },
      { prefix: 'method', part: undefined, steps: formula.method },
    ],
    undefined,
  );
  takers.push({ list: dough, sequence: method, adding: addingIn(method, names, undefined), ready: undefined });

  linkUses(draft, formula, readyOf, takers, method);
  for (const { sequence } of takers) findStrangers(draft, names, sequence);

  const conflict = draft.conflicts[0];
  if (conflict) return { kind: 'conflict', conflict };
  const links = ripeOnTime(formula, draft.links, readyOf);
  return { kind: 'network', network: { nodes: draft.nodes, links, last: method.spine.at(-1)?.node } };
}

/** A preferment is used when it is ripe. One that is taken in at several moments can be ripe at the first of them only. */
function ripeOnTime(formula: ResolvedFormula, links: readonly Link[], readyOf: ReadonlyMap<number, number>): readonly Link[] {
  const takings = new Map<number, number>();
  for (const { before } of links) takings.set(before, (takings.get(before) ?? 0) + 1);
  const preferments = new Set([...readyOf].flatMap(([part, ready]) => (formula.parts[part]?.isPreferment && takings.get(ready) === 1 ? [ready] : [])));
  return links.map((link) => (preferments.has(link.before) ? { ...link, waitMs: 0 } : link));
}

/** Ties the moment each part is ready to every step that takes it in, or else to the step at which its kind is wanted. */
function linkUses(draft: Draft, formula: ResolvedFormula, readyOf: ReadonlyMap<number, number>, takers: readonly Taker[], method: Sequence): void {
  const taken = new Set<number>();
  for (const taker of takers) {
    for (const [part, moments] of taker.adding) {
      const ready = readyOf.get(part);
      if (ready === undefined) continue;
      taken.add(part);
      for (const { step, node, lagMs } of moments) {
        if (step) addLink(draft, ready, node, { fact: { text: stepText(step), place: step.place }, lagMs });
      }
    }
    for (const line of taker.list?.lines ?? []) {
      const part = line.part === undefined ? undefined : formula.parts[line.part];
      const ready = line.part === undefined ? undefined : readyOf.get(line.part);
      if (line.part === undefined || !part || ready === undefined) continue;
      taken.add(line.part);
      if (taker.adding.has(line.part)) continue; // its steps say when
      const node = takingIn(taker, part, line.inDough, method);
      if (node !== undefined) addLink(draft, ready, node, { fact: { text: `${line.name} in ${taker.list?.name ?? ''}`, place: line.place } });
    }
  }
  for (const [index, ready] of readyOf) {
    const part = formula.parts[index];
    const wanted = part && !taken.has(index) ? wantedAt(part.kind, method) : undefined;
    if (wanted) addLink(draft, ready, wanted.node);
  }
}

/** What must not begin before a listed part is ready, when no step adds it; undefined when the method has no such step. */
function takingIn({ sequence, ready }: Taker, part: ResolvedPart, inDough: boolean, method: Sequence): number | undefined {
  // A part is put together at its first step; one without steps takes no time, so when it is ready itself.
  if (ready !== undefined) return sequence.spine[0]?.node ?? ready;
  return (inDough ? firstMixing(method) : wantedAtTheTop(part, method))?.node;
}

/** The steps of a sequence that add parts. A part's own name in its own steps is the ingredient it is named after. */
function addingIn(sequence: Sequence, names: Names, own: number | undefined): ReadonlyMap<number, readonly Moment[]> {
  const adding = new Map<number, Moment[]>();
  for (const moment of sequence.moments) {
    const parts = moment.step ? addsOf(moment.step).flatMap(({ name }) => names.partsNamed(name.text)) : [];
    for (const part of parts) if (part !== own) adding.set(part, [...(adding.get(part) ?? []), moment]);
  }
  return adding;
}

/** The step at which all goes in that no step adds. */
function firstMixing(method: Sequence): Moment | undefined {
  for (const kind of MIXING_KINDS) {
    const found = method.spine.find((moment) => moment.kind === kind);
    if (found) return found;
  }
  return method.spine[0];
}

function wantedAt(kind: PartKind, method: Sequence): Moment | undefined {
  const kinds = WANTED_AT.get(kind);
  if (!kinds) return firstMixing(method);
  const firstHeat = method.spine.findIndex((moment) => HEATING_KINDS.includes(moment.kind));
  for (const wanted of kinds) {
    // What cools before the oven is not the loaf; and a wash or a topping is brushed or strewn on before it.
    const among = wanted === 'cool' ? method.spine.slice(firstHeat + 1)
      : wanted === 'glaze' && kind !== 'glaze' ? method.spine.slice(0, Math.max(0, firstHeat)) : method.spine;
    const found = among.find((moment) => moment.kind === wanted);
    if (found) return found;
  }
  return undefined;
}

/** A part that the dough lists `for the top`: fillings and glazes where they always are, others as a topping. */
function wantedAtTheTop(part: ResolvedPart, method: Sequence): Moment | undefined {
  return wantedAt(WANTED_AT.has(part.kind) ? part.kind : 'topping', method);
}

/** A line takes in a part that is not there: nobody knows when it would have to be begun. */
function missingParts(formula: ResolvedFormula): Conflict[] {
  return formula.troubles.flatMap((trouble) =>
    trouble.kind === 'part-missing'
      ? [{
          message: `No part is called "${trouble.name}", so the time it needs cannot be planned.`,
          facts: [{ text: trouble.name, place: trouble.place }],
        }]
      : []);
}

/** Steps that add what no part and no ingredient line is called. */
function findStrangers(draft: Draft, names: Names, sequence: Sequence): void {
  for (const { step } of sequence.moments) {
    if (!step) continue;
    for (const { name } of addsOf(step)) {
      if (names.partsNamed(name.text).length > 0 || names.isKnown(name.text)) continue;
      draft.conflicts.push({
        message: `The ${stepText(step)} adds "${name.text}", but no part and no ingredient of this formula is called that.`,
        facts: [{ text: stepText(step), place: step.place }],
      });
    }
  }
}
