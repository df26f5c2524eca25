/**
 * The steps of one batch as a network, with every load of it on a branch of its own, and what each stretch of it takes up: a mixer,
 * a place in the fridge, an oven.
 */
import type { PlacedStep, ResolvedFormula } from '../../formula/model';
import { networkOf } from '../../timeline/build';
import { cycleIn } from '../../timeline/cycle';
import type { Conditions } from '../../timeline/model';
import { deltaText } from '../../timeline/names';
import type { Conflict, Length, Link, Network, Node } from '../../timeline/network';
import type { Batch } from '../batches';

/** What a batch does along the clock. Indices are into `network.nodes`. */
export interface BatchNetwork {
  readonly network: Network;
  /** The load of each node; undefined for what the whole dough does. */
  readonly loadOf: readonly (number | undefined)[];
  /** In the oven, each load on its own. */
  readonly bakes: readonly Stay[];
  /** In the fridge. */
  readonly chills: readonly Stay[];
  /** In the mixer. */
  readonly mixes: readonly number[];
  /** With which each load, or the whole, is done. */
  readonly lasts: readonly number[];
  readonly preheats: readonly number[];
}

/** Steps that follow one another in the same place. */
export interface Stay {
  readonly load: number | undefined;
  readonly first: number;
  readonly last: number;
  readonly stages: readonly Stage[];
}

export interface Stage {
  readonly celsius: number | null;
  readonly lowMs: number;
  readonly highMs: number;
}

export type BatchNetworkOrNot =
  | { readonly kind: 'network'; readonly of: BatchNetwork }
  | { readonly kind: 'conflict'; readonly conflict: Conflict }
  | { readonly kind: 'empty' };

const MS_PER_MINUTE = 60_000;
const SHAPING: ReadonlySet<string> = new Set(['divide', 'preshape', 'shape', 'fill']);
/** Done piece by piece, so that more of them take longer. */
const PIECE_BY_PIECE: ReadonlySet<string> = new Set(['divide', 'preshape', 'shape', 'fill', 'score', 'glaze', 'slice']);
const FRIDGE_AT_MOST_CELSIUS = 10;

/** The network of a batch; `conflict` where its formula has none. */
export function batchNetwork(batch: Batch, conditions: Conditions | undefined): BatchNetworkOrNot {
  const { formula } = batch;
  if (formula.lacksBase) {
    const facts = formula.deltas.map(({ node, place }) => ({ text: deltaText(node), place }));
    return { kind: 'conflict', conflict: { message: 'The formula that this one is based on is not to be found, so its steps are not known.', facts } };
  }
  if (formula.method.length === 0 && formula.parts.every((part) => part.steps.length === 0)) return { kind: 'empty' };
  const built = networkOf(formula, conditions);
  if (built.kind === 'conflict') return built;
  const circle = cycleIn(built.network);
  if (circle) return { kind: 'conflict', conflict: circle };
  const { network, loadOf } = branched(sized(built.network, batch), batch);
  const chains = chainsOf(network, loadOf);
  const ends = chains.filter(({ load }) => load !== undefined || chains.length === 1).flatMap(({ nodes }) => nodes.at(-1) ?? []);
  return {
    kind: 'network',
    of: {
      network, loadOf,
      bakes: chains.flatMap(({ load, nodes }) => staysIn(network, nodes, load, ({ work }) => work?.kind === 'bake')),
      chills: chains.flatMap(({ load, nodes }) => staysIn(network, nodes, load, isCold)),
      mixes: [...network.nodes.keys()].filter((index) => isMixing(network.nodes[index])),
      // Where the dough itself has no steps, it is what ripens or soaks for it that has to be done.
      lasts: ends.length > 0 ? ends : unfollowed(network),
      preheats: [...network.nodes.keys()].filter((index) => network.nodes[index]?.work?.kind === 'preheat'),
    },
  };
}

// --- at the size of the batch ---------------------------------------------------------------------------------------

/** What is done piece by piece takes as much longer as there are more pieces than the formula makes, to the minute. */
function sized(network: Network, { factor, formula }: Batch): Network {
  if (formula.yield.pieces === null) return network;
  return {
    ...network,
    nodes: network.nodes.map((node) => (isPieceByPiece(node) ? { ...node, length: times(node.length, factor) } : node)),
  };
}

function isPieceByPiece({ work, sequence }: Node): boolean {
  return work?.step?.node.duration !== undefined && sequence === undefined && PIECE_BY_PIECE.has(work.kind);
}

function times({ lowMs, chosenMs, highMs }: Length, factor: number): Length {
  const of = (ms: number): number => Math.max(1, Math.ceil((ms * factor) / MS_PER_MINUTE - 1e-6)) * MS_PER_MINUTE;
  return { lowMs: of(lowMs), chosenMs: of(chosenMs), highMs: of(highMs) };
}

// --- a branch for each load -----------------------------------------------------------------------------------------

interface Branched {
  readonly network: Network;
  readonly loadOf: readonly (number | undefined)[];
}

/** From the shaped pieces on every load goes its own way: copies of the steps there, each bound as the first is. */
function branched(network: Network, { loads, pieces, formula }: Batch): Branched {
  const own = branchOf(network, formula);
  if (loads.length === 0) return { network, loadOf: network.nodes.map(() => undefined) };
  if (loads.length === 1) return { network, loadOf: network.nodes.map((_, index) => (own.has(index) ? 0 : undefined)) };
  const share = (load: number): number => (loads[load]?.pieces ?? 1) / (pieces ?? 1);
  const part = (node: Node, load: number): Node => (isPieceByPiece(node) ? { ...node, length: times(node.length, share(load)) } : node);
  const nodes: Node[] = network.nodes.map((node, index) => (own.has(index) ? part(node, 0) : node));
  const loadOf: (number | undefined)[] = nodes.map((_, index) => (own.has(index) ? 0 : undefined));
  const links: Link[] = [...network.links];
  for (let load = 1; load < loads.length; load++) {
    const copyOf = new Map<number, number>();
    network.nodes.forEach((node, index) => {
      if (!own.has(index)) return;
      const inside = node.inside && { ...node.inside, outer: copyOf.get(node.inside.outer) ?? node.inside.outer };
      copyOf.set(index, nodes.push({ ...part(node, load), inside }) - 1);
      loadOf.push(load);
    });
    for (const link of network.links) {
      const [before, after] = [copyOf.get(link.before), copyOf.get(link.after)];
      if (after !== undefined) links.push({ ...link, before: before ?? link.before, after });
    }
  }
  // Loads are done one after the other, so no step is the last of all.
  return { network: { nodes, links, last: undefined }, loadOf };
}

function unfollowed({ nodes, links }: Network): readonly number[] {
  const followed = new Set(links.map(({ before }) => before));
  return [...nodes.keys()].filter((index) => !followed.has(index));
}

/** The steps that each load takes by itself: all after the shaping, and the preheating for its bake. */
function branchOf(network: Network, formula: ResolvedFormula): ReadonlySet<number> {
  const method = methodNodes(network, formula);
  const firstBake = method.findIndex((index) => network.nodes[index]?.work?.kind === 'bake');
  if (firstBake < 0) return new Set();
  const shaped = method.slice(0, firstBake).findLastIndex((index) => SHAPING.has(network.nodes[index]?.work?.kind ?? ''));
  // What is never shaped, a batter say, goes into the oven as it is.
  const from = shaped < 0 ? firstBake : shaped + 1;
  const own = new Set(method.slice(from));
  for (const { before, after } of network.links) if (own.has(after) && network.nodes[before]?.work?.kind === 'preheat') own.add(before);
  network.nodes.forEach(({ inside }, index) => {
    if (inside && own.has(inside.outer)) own.add(index);
  });
  return own;
}

/** Steps of the method that follow one another, in order. */
function methodNodes({ nodes }: Network, { method }: ResolvedFormula): readonly number[] {
  const written = new Set<PlacedStep | undefined>(method);
  return [...nodes.keys()].filter((index) => {
    const node = nodes[index];
    return node?.work !== undefined && written.has(node.work.step) && node.inside === undefined && node.work.kind !== 'preheat';
  });
}

/** The steps of each load in order, the whole dough's before them with the first; of what is not divided, all. */
function chainsOf({ nodes }: Network, loadOf: readonly (number | undefined)[]): readonly { readonly load: number | undefined; readonly nodes: readonly number[] }[] {
  const spine = [...nodes.keys()].filter((index) => {
    const node = nodes[index];
    return node?.work !== undefined && node.sequence === undefined && node.inside === undefined && node.work.kind !== 'preheat';
  });
  const loads = [...new Set(loadOf.filter((load) => load !== undefined))];
  const whole = spine.filter((index) => loadOf[index] === undefined);
  if (loads.length === 0) return [{ load: undefined, nodes: whole }];
  const chains = loads.map((load) => ({ load, nodes: spine.filter((index) => loadOf[index] === load) }));
  return whole.length === 0 ? chains : [{ load: undefined, nodes: whole }, ...chains];
}

function staysIn({ nodes }: Network, chain: readonly number[], load: number | undefined, belongs: (node: Node) => boolean): readonly Stay[] {
  const stays: { load: number | undefined; first: number; last: number; stages: Stage[] }[] = [];
  let open = false;
  for (const index of chain) {
    const node = nodes[index];
    if (!node || !belongs(node)) {
      open = false;
      continue;
    }
    const stage: Stage = { celsius: node.work?.ambientCelsius ?? null, lowMs: node.length.lowMs, highMs: node.length.highMs };
    const last = stays.at(-1);
    if (open && last) {
      last.last = index;
      last.stages.push(stage);
    } else stays.push({ load, first: index, last: index, stages: [stage] });
    open = true;
  }
  return stays;
}

function isCold({ work }: Node): boolean {
  if (work === undefined || work.kind === 'freeze') return false;
  return work.ambientCelsius === null ? work.kind === 'retard' || work.kind === 'chill' : work.ambientCelsius <= FRIDGE_AT_MOST_CELSIUS;
}

function isMixing(node: Node | undefined): boolean {
  if (node?.work?.step === undefined || node.sequence !== undefined || node.inside !== undefined) return false;
  const { kind, step } = node.work;
  return (kind === 'mix' || kind === 'knead') && !step.node.details.some((detail) => detail.kind === 'by' && detail.how === 'hand');
}
