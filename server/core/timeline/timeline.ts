/** The door to the timeline: a resolved formula and a moment in, a clock time for every step out. */
import type { ResolvedFormula } from '../formula/model';
import { networkOf } from './build';
import { isInstant, unknownZone } from './clock';
import type { Timeline, TimelineRequest, TimelineStep } from './model';
import { deltaText } from './names';
import type { Conflict } from './network';
import { place } from './place';
import { zoneNamed } from './zone-names';

const MS_PER_MINUTE = 60_000;

/**
 * Places the steps of all parts and of the method: forward from a start, which is the start of the earliest step, or
 * backward from a ready time, which is the end of the last one. Steps are in order of their start.
 *
 * A range is planned at its middle; a step with no duration takes a default and is marked `assumed`. Parts end just
 * when they are needed. Lengths are absolute, so a night with a change of summer time keeps its hours.
 *
 * `conflict` says what keeps the steps from being placed: a variant not resolved, a part that is missing or waits for
 * itself, a length no calendar holds, a zone that does not exist. Never throws.
 */
export function timelineOf(formula: ResolvedFormula, request: TimelineRequest): Timeline {
  if (formula.deltas.length > 0) {
    return conflict({
      message: 'This formula is a variant of another and is not worked out yet, so its steps are not known.',
      facts: formula.deltas.map(({ node, place: at }) => ({ text: deltaText(node), place: at })),
    });
  }
  if (formula.method.length === 0 && formula.parts.every((part) => part.steps.length === 0)) return { kind: 'empty' };
  const zone = zoneNamed(request.zone);
  if (zone === undefined) return conflict({ message: unknownZone(request.zone), facts: [] });

  const built = networkOf(formula);
  if (built.kind === 'conflict') return conflict(built.conflict);
  const { network } = built;
  const placed = place(network);
  if (placed.kind === 'conflict') return conflict(placed.conflict);

  const shown = network.nodes.flatMap(({ work, length }, index) => {
    const at = placed.places[index];
    return work && at ? [{ work, length, at }] : [];
  });
  const firstMs = shown.reduce((least, { at }) => Math.min(least, at.startMs), Infinity);
  const lastMs = shown.reduce((most, { at }) => Math.max(most, at.endMs), -Infinity);
  const shiftMs = request.anchor.epochMs - (request.anchor.kind === 'start' ? firstMs : lastMs);
  if (!isInstant(firstMs + shiftMs) || !isInstant(lastMs + shiftMs)) {
    return conflict({ message: 'These steps would begin or end where no calendar reaches.', facts: [] });
  }

  const steps = shown.map(({ work, length, at }): TimelineStep => ({
    ...work,
    handAtStart: false,
    handAtEnd: false,
    adapted: undefined,
    startMs: at.startMs + shiftMs,
    endMs: at.endMs + shiftMs,
    earliestStartMs: at.earliestStartMs + shiftMs,
    latestStartMs: at.latestStartMs + shiftMs,
    lowMinutes: length.lowMs / MS_PER_MINUTE,
    highMinutes: length.highMs / MS_PER_MINUTE,
  }));
  steps.sort((a, b) => a.startMs - b.startMs); // stable: of those that begin together, in the order written
  return { kind: 'placed', startMs: firstMs + shiftMs, readyMs: lastMs + shiftMs, zone, steps, notes: [] };
}

function conflict({ message, facts }: Conflict): Timeline {
  return { kind: 'conflict', message, facts, waysOut: [] };
}
