/** Why nothing fits: what clashes at the usual lengths, and the smallest set of facts that cannot all hold. */
import { formatDuration, formatInstant } from './clock';
import { chooseTimes, fits, spanOf, type Task } from './choose';
import { hoursOffText } from './hours-off';
import type { HoursOff, TimelineRequest } from './model';
import type { Place } from '../formula/model';
import { MAY_GIVE } from './defaults';
import { boundedNet, distancesOf, keepOutsOf, writtenBox, type Box } from './net';
import { stepText } from './names';
import type { Node, Work } from './network';
import { smallestConflict } from './smallest';
import { latestTimes } from './solve';

const MS_PER_DAY = 86_400_000;

export interface Explanation {
  readonly message: string;
  readonly facts: readonly { readonly text: string; readonly place: Place | undefined }[];
  /** The task with nothing but those facts: what a way out must mend first. */
  readonly core: Task;
}

/** What may be given up to make a task fit. */
type Fact =
  | { readonly kind: 'length'; readonly text: string; readonly place: Place; readonly nodes: ReadonlySet<number> }
  | { readonly kind: 'hours'; readonly text: string; readonly place: undefined; readonly hours: HoursOff }
  | { readonly kind: 'moment'; readonly text: string; readonly place: undefined };

/** Explains a task that does not fit. */
export function explain(task: Task): Explanation {
  const facts = factsOf(task);
  const smallest = new Set(smallestConflict(facts.length, (kept) => holds(task, facts, kept)));
  const found = facts.filter((_, index) => smallest.has(index));
  return { message: messageOf(task, found), facts: found.map(({ text, place }) => ({ text, place })), core: keeping(task, facts, smallest).task };
}

/** `Fri 21:40` */
export function clockText(epochMs: number, zone: string): string {
  const { weekday, time } = formatInstant(epochMs, zone);
  return `${weekday} ${time}`;
}

/** `ready Sat 2026-03-14 08:00` */
export function anchorText({ kind, epochMs }: TimelineRequest['anchor'], zone: string): string {
  const { weekday, date, time } = formatInstant(epochMs, zone);
  return `${kind === 'ready' ? 'ready' : 'begun at'} ${weekday} ${date} ${time}`;
}

/** A step in words with its length, also where it is a usual one. */
export function workText({ step, label, assumed }: Work, chosenMs: number): string {
  return step?.node.duration ? stepText(step) : `${label} ${formatDuration(chosenMs / 60_000)}${assumed ? ', a usual length' : ''}`;
}

function factsOf({ network, anchor, zone, hoursOff }: Task): readonly Fact[] {
  const lengths = new Map<string, { readonly text: string; readonly place: Place; readonly nodes: Set<number> }>();
  network.nodes.forEach(({ work, length }, index) => {
    if (!work) return;
    const key = `${String(work.place.block)}:${String(work.place.start)}:${work.step ? '' : work.id}`;
    const known = lengths.get(key);
    if (known) known.nodes.add(index);
    else lengths.set(key, { text: workText(work, length.chosenMs), place: work.place, nodes: new Set([index]) });
  });
  return [
    ...[...lengths.values()].map((fact): Fact => ({ kind: 'length', ...fact })),
    ...hoursOff.map((hours): Fact => ({ kind: 'hours', text: `${hours.kind} ${hoursOffText(hours)}`, place: undefined, hours })),
    { kind: 'moment', text: anchorText(anchor, zone), place: undefined },
  ];
}

/** Whether some timeline keeps to some of the facts. */
function holds(task: Task, facts: readonly Fact[], kept: ReadonlySet<number>): boolean {
  const { task: looser, anchored } = keeping(task, facts, kept);
  if (looser.hoursOff.length === 0) return true;
  return anchored ? fits(looser) : fitsSomeDay(looser);
}

/** The task with only some of its facts. `anchored` when the moment asked for is among them. */
function keeping(task: Task, facts: readonly Fact[], kept: ReadonlySet<number>): { readonly task: Task; readonly anchored: boolean } {
  const free = new Set<number>();
  const hoursOff: HoursOff[] = [];
  let anchored = false;
  facts.forEach((fact, index) => {
    if (fact.kind === 'length') {
      if (!kept.has(index)) for (const node of fact.nodes) free.add(node);
    } else if (kept.has(index)) {
      if (fact.kind === 'hours') hoursOff.push(fact.hours);
      else anchored = true;
    }
  });
  return { task: { ...task, hoursOff, boxOf: (node, index) => (free.has(index) ? withoutFact(node) : writtenBox(node)) }, anchored };
}

/** A length that nobody insists on. What only waits could wait for ever; what is worked at would at most be skipped. */
function withoutFact(node: Node): Box | undefined {
  const waits = node.inside !== undefined || (node.work !== undefined && MAY_GIVE[node.work.kind] !== undefined);
  return waits ? undefined : { lowMs: 0, highMs: node.length.highMs };
}

/** Whether it fits on any day of the week to come. */
function fitsSomeDay({ network, anchor, hoursOff, calendar, boxOf = writtenBox }: Task): boolean {
  const aroundMs = spanOf(network) + 8 * MS_PER_DAY;
  const range = { fromMs: anchor.epochMs - aroundMs, toMs: anchor.epochMs + aroundMs };
  return latestTimes(boundedNet(network, distancesOf(network, boxOf), keepOutsOf(network, calendar(hoursOff, range.fromMs, range.toMs)), range)) !== undefined;
}

/** One sentence: what falls into hours off when every length is as planned. */
function messageOf(task: Task, found: readonly Fact[]): string {
  const { network, zone, hoursOff, calendar } = task;
  const goal = `To be ${anchorText(task.anchor, zone)}`;
  const plain = chooseTimes({ ...task, hoursOff: [] });
  if (!plain) return `${goal} cannot be done: these lengths contradict one another.`;
  const named = new Set(found.flatMap((fact) => (fact.kind === 'length' ? [...fact.nodes] : [])));
  const beside = new Set(network.links.flatMap(({ before, after }) => (named.has(after) ? [before] : named.has(before) ? [after] : [])));
  const nearness = (index: number): number => (named.has(index) ? 2 : beside.has(index) ? 1 : 0);
  const clashes = network.nodes.flatMap(({ work }, index) => {
    if (!work) return [];
    const [startMs, endMs] = [plain.startsMs[index] ?? 0, plain.endsMs[index] ?? 0];
    return hoursOff.flatMap((hours) => {
      const windows = calendar([hours], startMs - MS_PER_DAY, endMs + MS_PER_DAY);
      const touches = (fromMs: number, toMs: number): boolean => windows.some((window) => window.startMs < toMs && window.endMs > fromMs);
      const is = (ms: number): boolean => windows.some((window) => window.startMs < ms && window.endMs > ms);
      const what = work.handsOn && touches(startMs, endMs) ? { verb: 'needs hands', atMs: startMs }
        : work.handAtStart && is(startMs) ? { verb: 'begins', atMs: startMs }
          : work.handAtEnd && is(endMs) ? { verb: 'ends', atMs: endMs } : undefined;
      const counts = found.some((fact) => fact.kind === 'hours' && fact.hours === hours);
      return what && counts ? [{ ...what, label: work.label, hours, near: nearness(index) }] : [];
    });
  });
  const clash = clashes.reduce<(typeof clashes)[number] | undefined>((best, each) => (best && best.near >= each.near ? best : each), undefined);
  if (!clash) return `${goal} cannot be done within these hours and lengths.`;
  return `${goal}, "${clash.label}" ${clash.verb} at ${clockText(clash.atMs, zone)} with every length as planned, but you are ${clash.hours.kind} ${hoursOffText(clash.hours)}; no length within its range avoids it.`;
}
