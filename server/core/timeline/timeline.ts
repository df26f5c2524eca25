/** The door to the timeline: a resolved formula and a moment in, a clock time for every step out. */
import type { ResolvedFormula } from '../formula/model';
import { networkOf } from './build';
import { chooseTimes, spanOf, type Task } from './choose';
import { conditionNotes } from './conditions';
import { formatDuration, isInstant, unknownZone } from './clock';
import { cycleIn } from './cycle';
import { clockText, explain } from './explain';
import type { Timeline, TimelineRequest, TimelineStep } from './model';
import { deltaText } from './names';
import type { Conflict } from './network';
import { waysOut } from './ways-out';
import { calendarOf } from './windows';
import { zoneNamed } from './zone-names';

const MS_PER_MINUTE = 60_000;
const MS_PER_DAY = 24 * 60 * MS_PER_MINUTE;
/** Room for nights and for a week of looking around. */
const MARGIN_MS = 9 * MS_PER_DAY;
const LONGEST_WITH_NIGHTS_MS = 400 * MS_PER_DAY;

/**
 * Places the steps of all parts and of the method so that nothing that needs a hand falls into hours off: back from the time when
 * all must be ready, or on from a start.
 *
 * Ready means ready by then: just then where that can be, else up to two hours before, which a note says. A start
 * is when the first step begins; where hours off forbid it, the soonest time after it. Ranges give where they must, as
 * little as they can; a step with no duration takes a default and is marked `assumed`. Parts end just when they are
 * needed. Lengths are absolute, so a night with a change of summer time keeps its hours.
 *
 * `conflict` says what keeps the steps from being placed: a base that is missing, a part that is missing or waits for
 * itself, a length no calendar holds, a zone that does not exist; or facts that cannot all hold, with ways out. Never throws.
 */
export function timelineOf(formula: ResolvedFormula, request: TimelineRequest): Timeline {
  if (formula.lacksBase) {
    return conflict({
      message: 'The formula that this one is based on is not to be found, so its steps are not known.',
      facts: formula.deltas.map(({ node, place: at }) => ({ text: deltaText(node), place: at })),
    });
  }
  if (formula.method.length === 0 && formula.parts.every((part) => part.steps.length === 0)) return { kind: 'empty' };
  const zone = zoneNamed(request.zone);
  if (zone === undefined) return conflict({ message: unknownZone(request.zone), facts: [] });

  const built = networkOf(formula, request.conditions);
  if (built.kind === 'conflict') return conflict(built.conflict);
  const { network } = built;
  const circle = cycleIn(network);
  if (circle) return conflict(circle);
  const { anchor, hoursOff = [] } = request;
  const spanMs = spanOf(network) + MARGIN_MS;
  if (!isInstant(anchor.epochMs - spanMs) || !isInstant(anchor.epochMs + spanMs)) {
    return conflict({ message: 'These steps would begin or end where no calendar reaches.', facts: [] });
  }
  // Over years there is a night for everything; and a list of all of them would be long.
  const task: Task = {
    network, anchor, zone, hoursOff: spanMs > LONGEST_WITH_NIGHTS_MS ? [] : hoursOff, calendar: calendarOf(zone, anchor.epochMs, spanMs),
  };
  const chosen = chooseTimes(task);
  if (!chosen) {
    const { message, facts, core } = explain(task);
    return { kind: 'conflict', message, facts, waysOut: waysOut(task, core) };
  }

  const steps = network.nodes.flatMap(({ work, length }, index): readonly TimelineStep[] => {
    if (!work) return [];
    return [{
      ...work,
      startMs: chosen.startsMs[index] ?? 0,
      endMs: chosen.endsMs[index] ?? 0,
      earliestStartMs: chosen.earliestStartsMs[index] ?? 0,
      latestStartMs: chosen.latestStartsMs[index] ?? 0,
      lowMinutes: length.lowMs / MS_PER_MINUTE,
      highMinutes: length.highMs / MS_PER_MINUTE,
    }];
  });
  steps.sort((a, b) => a.startMs - b.startMs); // stable: of those that begin together, in the order written
  const startMs = steps.reduce((least, step) => Math.min(least, step.startMs), Infinity);
  const readyMs = chosen.doneMs;
  return { kind: 'placed', startMs, readyMs, zone, steps, notes: [...notesOf(steps, { startMs, readyMs }, request, zone), ...(request.conditions ? conditionNotes(formula, request.conditions) : [])] };
}

/** What differs from what was asked or written. */
function notesOf(
  steps: readonly TimelineStep[], { startMs, readyMs }: { readonly startMs: number; readonly readyMs: number }, { anchor }: TimelineRequest, zone: string,
): readonly string[] {
  const awayMs = anchor.kind === 'ready' ? anchor.epochMs - readyMs : startMs - anchor.epochMs;
  const moved = awayMs <= 0 ? [] : [
    anchor.kind === 'ready'
      ? `Ready at ${clockText(readyMs, zone)}, ${formatDuration(awayMs / MS_PER_MINUTE)} before it must be: what needs hands would fall into hours off otherwise.`
      : `Begins at ${clockText(startMs, zone)}, ${formatDuration(awayMs / MS_PER_MINUTE)} later than asked: what needs hands would fall into hours off otherwise.`,
  ];
  return [...moved, ...steps.flatMap(({ adapted }) => (adapted ? [adapted.why] : []))];
}

function conflict({ message, facts }: Conflict): Timeline {
  return { kind: 'conflict', message, facts, waysOut: [] };
}
