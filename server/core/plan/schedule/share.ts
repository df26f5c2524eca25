/** Preferments of the same make put together once, where the doughs that take them are near enough in time. */
import { endPoint, startPoint } from '../../timeline/net';
import type { Batch } from '../batches';
import type { Build, Portion } from '../builds';
import type { Placement } from './place';

/** One build, and for whom. */
export interface SharedBuild {
  /** Index into the builds of the day's work. */
  readonly build: number;
  readonly startMs: number;
  readonly builtMs: number;
  /** When the first and the last dough take it. */
  readonly firstMs: number;
  readonly lastMs: number;
  readonly portions: readonly Portion[];
  /** The nodes that it stands for, by batch: their own builds. */
  readonly replaces: readonly { readonly batch: number; readonly part: number }[];
  /** A step of this batch's part says how it ripens. */
  readonly like: { readonly batch: number; readonly part: number };
}

interface Member {
  readonly portion: Portion;
  readonly startMs: number;
  readonly builtMs: number;
  readonly takenMs: number;
  /** How long after its start it may be taken, from the least to the most. */
  readonly leastMs: number;
  readonly mostMs: number;
  /** It has no work but putting it together. */
  readonly isPlain: boolean;
}

/**
 * Which portions are built together. Each build stands where one of them was to be built anyway, so hands are free for it; it serves every dough
 * whose time to take it lies within the ripening that is written. As few builds as that gives, the one for most first.
 */
export function shareBuilds(builds: readonly Build[], placements: readonly Placement[], batches: readonly Batch[]): readonly SharedBuild[] {
  return builds.flatMap((build, index) => {
    let left: readonly Member[] = build.portions.flatMap((portion) => memberOf(portion, placements, batches) ?? []);
    const shared: SharedBuild[] = [];
    while (left.length > 0) {
      const groups = left.map((host) => ({
        host,
        served: left.filter((member) => member === host || (host.isPlain && member.isPlain
          && member.takenMs - host.startMs >= member.leastMs && member.takenMs - host.startMs <= member.mostMs)),
      }));
      const { host, served } = groups.reduce((most, group) => (group.served.length > most.served.length || (group.served.length === most.served.length && group.host.startMs > most.host.startMs) ? group : most));
      shared.push({
        build: index, startMs: host.startMs, builtMs: host.builtMs,
        firstMs: Math.min(...served.map(({ takenMs }) => takenMs)), lastMs: Math.max(...served.map(({ takenMs }) => takenMs)),
        portions: served.map(({ portion }) => portion),
        replaces: served.map(({ portion: { batch, part } }) => ({ batch, part })),
        like: { batch: host.portion.batch, part: host.portion.part },
      });
      left = left.filter((member) => !served.includes(member));
    }
    return shared;
  });
}

function memberOf(portion: Portion, placements: readonly Placement[], batches: readonly Batch[]): Member | undefined {
  const placement = placements.find(({ job }) => job.index === portion.batch);
  if (!placement || !batches[portion.batch]) return undefined;
  const { timesMs, job: { of: { network } } } = placement;
  const own = [...network.nodes.keys()].filter((node) => network.nodes[node]?.sequence === portion.part);
  const works = own.filter((node) => network.nodes[node]?.work !== undefined);
  const [first] = works;
  const ready = own.find((node) => network.nodes[node]?.work === undefined);
  if (first === undefined || ready === undefined) return undefined;
  const at = (point: number): number => timesMs[point] ?? 0;
  const outer = works.filter((node) => network.nodes[node]?.inside === undefined);
  const sum = (of: 'lowMs' | 'highMs'): number => outer.reduce((total, node) => total + (network.nodes[node]?.length[of] ?? 0), 0);
  const taken = network.links.filter(({ before }) => before === ready).map(({ after, lagMs }) => at(startPoint(after)) + lagMs);
  if (taken.length !== 1) return undefined;
  return {
    portion, startMs: at(startPoint(first)), builtMs: at(endPoint(first)), takenMs: taken[0] ?? 0, leastMs: sum('lowMs'), mostMs: sum('highMs'),
    isPlain: works.every((node) => node === first || network.nodes[node]?.work?.handsOn === false),
  };
}
