/** Ways out of a timeline that does not fit: one change each, as small as will do, and tried before it is offered. */
import type { StepKind } from '../../../grammar';
import { chooseTimes, fits, leastWhere, roomFor, type Task } from './choose';
import { formatDuration } from './clock';
import { clockText } from './explain';
import { hoursOffText } from './hours-off';
import type { HoursOff, WayOut } from './model';
import { distancesOf, donePoint, writtenBox, type Box } from './net';
import type { Network, Node, Work } from './network';
import { earliestTimes, latestTimes } from './solve';

const MS_PER_MINUTE = 60_000;
const MS_PER_HOUR = 60 * MS_PER_MINUTE;
/** People change plans by five minutes, not by one. */
const STEP_MINUTES = 5;
const MOST_WAYS = 3;
/** Another day is no way out. */
const MOST_SHIFT_MS = 12 * MS_PER_HOUR;
const MOST_HOURS_OFF_MINUTES = 120;

/**
 * Kinds that may take longer or shorter than written: by which share of their middle, and how much a baker minds. What only waits
 * minds little; what ferments, and then the taste and the crumb, more. Common practice, no source.
 */
const GIVES: Partial<Readonly<Record<StepKind, { readonly share: number; readonly minds: number }>>> = {
  retard: { share: 0.5, minds: 1 },
  soak: { share: 1, minds: 0.5 },
  cool: { share: 0.5, minds: 1 },
  chill: { share: 0.5, minds: 1 },
  thaw: { share: 0.5, minds: 1 },
  rest: { share: 0.5, minds: 1 },
  autolyse: { share: 0.5, minds: 1 },
  ripen: { share: 0.3, minds: 2 },
  bulk: { share: 0.25, minds: 3 },
  proof: { share: 0.25, minds: 3 },
};

/** A way out and how much it asks of the baker: the less the better. */
interface Candidate {
  readonly way: WayOut;
  readonly cost: number;
}

/** At most three, the easiest first, and no two of the same line. */
export function waysOut(task: Task): readonly WayOut[] {
  const candidates = [...shiftsOf(task), ...task.network.nodes.flatMap((_, index) => lengthsOf(task, index)), ...task.hoursOff.flatMap((_, index) => hoursOf(task, index))];
  return candidates.sort((a, b) => a.cost - b.cost).slice(0, MOST_WAYS).map(({ way }) => way);
}

// --- another moment -------------------------------------------------------------------------------------------------

/** A ready time a little later or earlier. A start that does not fit is moved on anyway, so it is no way out. */
function shiftsOf(task: Task): readonly Candidate[] {
  const { anchor, zone, network } = task;
  if (anchor.kind === 'start') return [];
  const { netOf } = roomFor({ ...task, anchor: { kind: 'ready', epochMs: anchor.epochMs + MOST_SHIFT_MS } });
  const done = donePoint(network);
  const distances = distancesOf(network, writtenBox);
  const stepMs = STEP_MINUTES * MS_PER_MINUTE;
  const later = earliestTimes(netOf(distances, [{ point: done, earliest: anchor.epochMs }]))?.[done];
  const earlier = latestTimes(netOf(distances, [{ point: done, latest: anchor.epochMs }]))?.[done];
  return [later === undefined ? undefined : Math.ceil(later / stepMs) * stepMs, earlier].flatMap((epochMs): readonly Candidate[] => {
    if (epochMs === undefined || Math.abs(epochMs - anchor.epochMs) > MOST_SHIFT_MS || !fits({ ...task, anchor: { kind: 'ready', epochMs } })) return [];
    const text = `be ready at ${clockText(epochMs, zone)} instead of ${clockText(anchor.epochMs, zone)}`;
    return [{ way: { text, place: undefined, length: undefined }, cost: (0.3 * Math.abs(epochMs - anchor.epochMs)) / MS_PER_HOUR }];
  });
}

// --- another length -------------------------------------------------------------------------------------------------

function lengthsOf(task: Task, index: number): readonly Candidate[] {
  const node = task.network.nodes[index];
  const gives = node?.work?.step?.node.duration ? GIVES[node.work.kind] : undefined;
  if (!node?.work || !gives || node.length.chosenMs <= 0) return [];
  const { work, length } = node;
  const stepMs = STEP_MINUTES * MS_PER_MINUTE;
  const found = (['shorter', 'longer'] as const).flatMap((side): readonly Candidate[] => {
    const most = Math.floor((gives.share * length.chosenMs) / stepMs);
    const changed = (count: number): number =>
      side === 'shorter' ? Math.floor((length.lowMs - count * stepMs) / stepMs) * stepMs : Math.ceil((length.highMs + count * stepMs) / stepMs) * stepMs;
    const tried = (count: number): Task => withLength(task, index, { lowMs: changed(count), highMs: changed(count) });
    const opened = (count: number): Task => withLength(task, index, { lowMs: Math.min(length.lowMs, changed(count)), highMs: Math.max(length.highMs, changed(count)) });
    if (most < 1 || changed(most) <= 0 || !fits(opened(most))) return [];
    const count = leastWhere(1, most, (each) => fits(opened(each)));
    if (!fits(tried(count))) return [];
    const minutes = changed(count) / MS_PER_MINUTE;
    const text = `${work.label} ${formatDuration(minutes)} instead of ${rangeText(length)}${beginning(tried(count), work, index)}`;
    const cost = (gives.minds * count * stepMs) / length.chosenMs * 4;
    return [{ way: { text, place: work.place, length: formatDuration(minutes) }, cost }];
  });
  return found.sort((a, b) => a.cost - b.cost).slice(0, 1);
}

/** The task with another length written at a node. */
function withLength(task: Task, index: number, { lowMs, highMs }: Box): Task {
  const nodes = task.network.nodes.map((node, at): Node =>
    at === index ? { ...node, length: { lowMs, chosenMs: Math.round((lowMs + highMs) / 2), highMs } } : node);
  return { ...task, network: { ...task.network, nodes } };
}

/** When it would be begun; of a part, when that would be put together, for that is what the baker does other than planned. */
function beginning(task: Task, { part }: Work, index: number): string {
  const times = chooseTimes(task);
  if (!times) return '';
  const first = part === undefined ? index : firstOfSequence(task.network, index);
  const at = clockText(times.startsMs[first] ?? 0, task.zone);
  return first === index ? `, begun at ${at}` : `: ${task.network.nodes[first]?.work?.label ?? ''} at ${at}`;
}

function firstOfSequence({ nodes }: Network, index: number): number {
  const sequence = nodes[index]?.sequence;
  return nodes.findIndex((node) => node.sequence === sequence && node.work !== undefined);
}

function rangeText({ lowMs, highMs }: Node['length']): string {
  const [low, high] = [formatDuration(lowMs / MS_PER_MINUTE), formatDuration(highMs / MS_PER_MINUTE)];
  return low === high ? low : `${low} to ${high}`;
}

// --- other hours ----------------------------------------------------------------------------------------------------

function hoursOf(task: Task, index: number): readonly Candidate[] {
  const hours = task.hoursOff[index];
  if (!hours) return [];
  const length = (hours.toMinute - hours.fromMinute + 24 * 60) % (24 * 60);
  const most = Math.floor(Math.min(MOST_HOURS_OFF_MINUTES, length - STEP_MINUTES) / STEP_MINUTES);
  if (most < 1) return [];
  return (['fromMinute', 'toMinute'] as const).flatMap((end): readonly Candidate[] => {
    const changed = (count: number): HoursOff => {
      const minutes = hours[end] + (end === 'fromMinute' ? 1 : -1) * count * STEP_MINUTES;
      return { ...hours, [end]: ((minutes % (24 * 60)) + 24 * 60) % (24 * 60) };
    };
    const tried = (count: number): Task => ({ ...task, hoursOff: task.hoursOff.map((each, at) => (at === index ? changed(count) : each)) });
    if (!fits(tried(most))) return [];
    const count = leastWhere(1, most, (each) => fits(tried(each)));
    const text = `${hours.kind} ${hoursOffText(changed(count))} instead of ${hoursOffText(hours)}`;
    return [{ way: { text, place: undefined, length: undefined }, cost: (count * STEP_MINUTES) / 30 }];
  });
}
