/** Ways out of a timeline that does not fit: one change each, as small as will do, and tried before it is offered. */
import { chooseTimes, fits, leastWhere, roomFor, type Task } from './choose';
import { formatDuration } from './clock';
import { MAY_GIVE } from './defaults';
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
/** Another day is no way out, nor is bread that stands about for most of one. */
const MOST_LATER_MS = 12 * MS_PER_HOUR;
const MOST_EARLIER_MS = 6 * MS_PER_HOUR;
const MOST_HOURS_OFF_MINUTES = 120;
const MINUTES_PER_DAY = 24 * 60;

/** One change, and how much it asks of the baker: the less the better. */
interface Change {
  readonly way: WayOut;
  readonly cost: number;
  readonly apply: (task: Task) => Task;
}

/**
 * At most three, the easiest first. Where one change does not do, two: one that mends `core`, the facts that clash, and
 * one that mends what still clashes then.
 */
export function waysOut(task: Task, core: Task): readonly WayOut[] {
  const single = changesFor(task);
  const all = single.length > 0 ? single : changesFor(core).slice(0, MOST_WAYS).flatMap((first) => {
    const second = changesFor(first.apply(task))[0];
    return second ? [both(first, second)] : [];
  });
  return [...all].sort((a, b) => a.cost - b.cost).slice(0, MOST_WAYS).map(({ way }) => way);
}

function both(first: Change, second: Change): Change {
  // An edit of one line is no way out here.
  const way: WayOut = { text: `${first.way.text}; and ${second.way.text}`, place: undefined, length: undefined };
  return { way, cost: first.cost + second.cost, apply: (task) => second.apply(first.apply(task)) };
}

/** Single changes with which a task fits, the easiest first. */
function changesFor(task: Task): readonly Change[] {
  const nodes = [...task.network.nodes.keys()];
  const changes = [
    ...shiftsOf(task),
    ...nodes.flatMap((index) => [...lengthsOf(task, index), ...timerOf(task, index)]),
    ...task.hoursOff.flatMap((hours) => hoursOf(task, hours)),
  ];
  return changes.sort((a, b) => a.cost - b.cost);
}

// --- another moment -------------------------------------------------------------------------------------------------

/** A ready time a little later or earlier. A start that does not fit is moved on anyway, so it is no way out. */
function shiftsOf(task: Task): readonly Change[] {
  const { anchor, zone, network } = task;
  if (anchor.kind === 'start') return [];
  const { netOf } = roomFor({ ...task, anchor: { kind: 'ready', epochMs: anchor.epochMs + MOST_LATER_MS } });
  const done = donePoint(network);
  const distances = distancesOf(network, task.boxOf ?? writtenBox);
  const stepMs = STEP_MINUTES * MS_PER_MINUTE;
  const later = earliestTimes(netOf(distances, [{ point: done, earliest: anchor.epochMs }]))?.[done];
  const earlier = latestTimes(netOf(distances, [{ point: done, latest: anchor.epochMs }]))?.[done];
  return [later === undefined ? undefined : Math.ceil(later / stepMs) * stepMs, earlier].flatMap((epochMs): readonly Change[] => {
    const apply = (each: Task): Task => ({ ...each, anchor: { kind: 'ready', epochMs: epochMs ?? anchor.epochMs } });
    const shiftMs = (epochMs ?? NaN) - anchor.epochMs;
    if (epochMs === undefined || shiftMs > MOST_LATER_MS || shiftMs < -MOST_EARLIER_MS || !fits(apply(task))) return [];
    const text = `be ready at ${clockText(epochMs, zone)} instead of ${clockText(anchor.epochMs, zone)}`;
    return [{ way: { text, place: undefined, length: undefined }, cost: (0.6 * Math.abs(shiftMs)) / MS_PER_HOUR, apply }];
  });
}

// --- another length -------------------------------------------------------------------------------------------------

function lengthsOf(task: Task, index: number): readonly Change[] {
  const node = task.network.nodes[index];
  const gives = node?.work?.step?.node.duration ? MAY_GIVE[node.work.kind] : undefined;
  if (!node?.work || !gives || node.length.chosenMs <= 0) return [];
  // With another length its folds would come at other times, and that has not been tried.
  if (task.network.nodes.some(({ inside }) => inside?.outer === index && inside.follows)) return [];
  const { work, length } = node;
  const stepMs = STEP_MINUTES * MS_PER_MINUTE;
  const found = (['shorter', 'longer'] as const).flatMap((side): readonly Change[] => {
    const most = Math.floor((gives.share * length.chosenMs) / stepMs);
    const changed = (count: number): number =>
      side === 'shorter' ? Math.floor((length.lowMs - count * stepMs) / stepMs) * stepMs : Math.ceil((length.highMs + count * stepMs) / stepMs) * stepMs;
    const opened = (count: number): Task => withLength(task, index, { lowMs: Math.min(length.lowMs, changed(count)), highMs: Math.max(length.highMs, changed(count)) });
    if (most < 1 || changed(most) <= 0 || !fits(opened(most))) return [];
    const count = leastWhere(1, most, (each) => fits(opened(each)));
    const apply = (each: Task): Task => withLength(each, index, { lowMs: changed(count), highMs: changed(count) });
    if (!fits(apply(task))) return [];
    const minutes = changed(count) / MS_PER_MINUTE;
    const text = `${work.label} ${formatDuration(minutes)} instead of ${rangeText(length)}${beginning(apply(task), work, index)}`;
    const cost = (gives.minds * count * stepMs) / length.chosenMs * 4;
    return [{ way: { text, place: work.place, length: formatDuration(minutes) }, cost, apply }];
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

// --- nobody there ---------------------------------------------------------------------------------------------------

/** An oven on a timer. */
function timerOf(task: Task, index: number): readonly Change[] {
  const work = task.network.nodes[index]?.work;
  if (work?.kind !== 'preheat' || !work.handAtStart) return [];
  const apply = (each: Task): Task => ({
    ...each,
    network: {
      ...each.network,
      nodes: each.network.nodes.map((node, at) => (at === index && node.work ? { ...node, work: { ...node.work, handAtStart: false } } : node)),
    },
  });
  if (!fits(apply(task))) return [];
  return [{ way: { text: 'put the oven on a timer, and write "unattended" on the preheat', place: work.place, length: undefined }, cost: 0.1, apply }];
}

// --- other hours ----------------------------------------------------------------------------------------------------

function hoursOf(task: Task, hours: HoursOff): readonly Change[] {
  const length = (hours.toMinute - hours.fromMinute + MINUTES_PER_DAY) % MINUTES_PER_DAY;
  const most = Math.floor(Math.min(MOST_HOURS_OFF_MINUTES, length - STEP_MINUTES) / STEP_MINUTES);
  if (most < 1) return [];
  return (['fromMinute', 'toMinute'] as const).flatMap((end): readonly Change[] => {
    const changed = (count: number): HoursOff => {
      const minutes = hours[end] + (end === 'fromMinute' ? 1 : -1) * count * STEP_MINUTES;
      return { ...hours, [end]: (minutes + MINUTES_PER_DAY) % MINUTES_PER_DAY };
    };
    const applied = (count: number) => (each: Task): Task => ({ ...each, hoursOff: each.hoursOff.map((one) => (one === hours ? changed(count) : one)) });
    if (!fits(applied(most)(task))) return [];
    const count = leastWhere(1, most, (each) => fits(applied(each)(task)));
    const text = `${hours.kind} ${hoursOffText(changed(count))} instead of ${hoursOffText(hours)}`;
    return [{ way: { text, place: undefined, length: undefined }, cost: (count * STEP_MINUTES) / 30, apply: applied(count) }];
  });
}
