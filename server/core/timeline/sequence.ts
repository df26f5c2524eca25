/** One sequence of steps, that of a part or of the method, as nodes of the network: one after the other, folds inside. */
import type { Duration, StepDetail, StepKind } from '../../../grammar';
import type { PlacedStep, ResolvedFormula, ResolvedPart } from '../formula/model';
import { ambientOf } from './ambient';
import { adaptedLength } from './conditions';
import { BUILD_MINUTES, HOT_OVEN_WAITS_MINUTES, MAY_WAIT_AFTER, STEP_DEFAULTS } from './defaults';
import type { Conditions } from './model';
import { labelOf, stepText } from './names';
import { addLink, addNode, type Draft, type Length } from './network';
import { surroundingsOf } from './surroundings';

/** A step of a sequence and where it stands in the network. A fold that recurs has a moment for each time. */
export interface Moment {
  readonly step: PlacedStep | undefined;
  readonly kind: StepKind;
  /** The node that binds: the step itself, or the outermost step that it is inside of. */
  readonly node: number;
  /** How far into `node` it begins, ms. */
  readonly lagMs: number;
}

export interface Sequence {
  /** The steps that follow one another, in order; not those that overlap them. */
  readonly spine: readonly Moment[];
  /** Every step, folds and preheats included, in the order written. */
  readonly moments: readonly Moment[];
}

/** A formula, and the day it is made on where that differs from the formula's own. */
export interface Day {
  readonly formula: ResolvedFormula;
  readonly conditions: Conditions | undefined;
}

/** Steps that share a prefix of their ids. The method's sequence is those of the dough block and then its own. */
export interface Stretch {
  readonly prefix: string;
  /** Of the steps: index into the formula's parts, or undefined for the method. */
  readonly part: number | undefined;
  readonly steps: readonly PlacedStep[];
}

const MS_PER_MINUTE = 60_000;
/** Beyond this a length is a slip of the pen, and clock times lose their meaning. */
const LONGEST_MINUTES = 10 * 366 * 24 * 60;
/** More folds than this in one bulk is a slip of the pen. */
const MOST_TIMES = 100;
/** A step, a fold inside it, and one more. */
const DEEPEST = 2;

/** What an oven is heated for. A pot or a pan only counts when no bake follows it: boiled rolls go on to the oven. */
const OVEN_KINDS: readonly StepKind[] = ['bake', 'steam'];
const STOVE_KINDS: readonly StepKind[] = ['boil', 'fry'];

/**
 * Adds the steps of a sequence to the network. With `build`, the part that has to be put together first: a step
 * nobody wrote opens the sequence when its own steps begin with waiting.
 */
export function addSequence(
  draft: Draft,
  { formula, conditions }: Day,
  owner: number | undefined,
  stretches: readonly Stretch[],
  build: ResolvedPart | undefined,
): Sequence {
  const moments: Moment[] = [];
  const tops: Moment[] = [];
  for (const { prefix, part, steps } of stretches) {
    const name = counter();
    if (build && beginsWithWaiting(steps)) {
      const moment = addBuild(draft, build, owner, `${prefix}/build`);
      tops.push(moment);
      moments.push(moment);
    }
    for (const step of steps) {
      const id = `${prefix}/${name(slug(step.node.step))}`;
      tops.push(addStep(draft, { formula, conditions }, step, { id, owner, part, inside: undefined }, moments));
    }
  }

  // A preheat overlaps what is before it, so it stands beside the spine and only binds what it heats for.
  const spine: Moment[] = [];
  tops.forEach((top, index) => {
    const heated = top.kind === 'preheat' ? heatedBy(tops, index) : undefined;
    if (heated) {
      addLink(draft, top.node, heated.node, { waitMs: HOT_OVEN_WAITS_MINUTES * MS_PER_MINUTE });
      return;
    }
    const previous = spine.at(-1);
    if (previous) addLink(draft, previous.node, top.node, { waitMs: MAY_WAIT_AFTER.includes(previous.kind) ? Infinity : 0 });
    spine.push(top);
  });
  return { spine, moments };
}

/** An id in words without spaces: `coil-fold`, `fig-compote`. Letters of any script stay. */
export function slug(text: string): string {
  return text.toLowerCase().split(/[^\p{L}\p{M}\p{N}]+/u).filter((word) => word !== '').join('-');
}

/** Gives each name once: `bake`, `bake-2`, … */
export function counter(taken: readonly string[] = []): (name: string) => string {
  const given = new Set(taken);
  return (name) => {
    let unique = name;
    for (let count = 2; given.has(unique); count++) unique = `${name}-${count}`;
    given.add(unique);
    return unique;
  };
}

/** Where a step goes. */
interface Spot {
  readonly id: string;
  readonly owner: number | undefined;
  readonly part: number | undefined;
  /** What it is inside of, and how far in it begins. */
  readonly inside:
    | { readonly depth: number; readonly moment: Moment; readonly node: number; readonly ambientCelsius: number | null; readonly child: Child }
    | undefined;
}

/** A step inside another, with the time from that one's start, ms. `guessed` when no time was written. */
interface Child {
  readonly step: PlacedStep;
  readonly offsetMs: number;
  readonly guessed: boolean;
  /** When it comes, or how often, follows from the length of what it is inside of. */
  readonly follows: boolean;
}

/** Adds a step and those inside it; `moments` gets them all. */
function addStep(draft: Draft, day: Day, step: PlacedStep, { id, owner, part, inside }: Spot, moments: Moment[]): Moment {
  const { formula, conditions } = day;
  const kind = step.node.step;
  const written = lengthOf(draft, step);
  const adapted = conditions && adaptedLength(step, part === undefined ? undefined : formula.parts[part], formula, conditions);
  const length = adapted ? lengthFrom(adapted) : written;
  const place = owner === undefined ? undefined : formula.parts[owner];
  // As warm as it is today, where that differs from what is written.
  const ambientCelsius = inside ? ambientOf(step, place, formula, inside.ambientCelsius) : surroundingsOf(step, place, formula, conditions?.roomCelsius).todayCelsius;
  const node = addNode(draft, {
    length,
    sequence: owner,
    inside: inside && { outer: inside.node, offsetMs: inside.child.offsetMs, follows: inside.child.follows },
    work: {
      id,
      part,
      step,
      kind,
      label: labelOf(step),
      place: step.place,
      ...handsOf(step),
      adapted: adapted && { lowMinutes: written.lowMs / MS_PER_MINUTE, highMinutes: written.highMs / MS_PER_MINUTE, why: adapted.why },
      ambientCelsius,
      assumed: !step.node.duration || (inside?.child.guessed ?? false),
    },
  });
  const moment: Moment = inside
    ? { step, kind, node: inside.moment.node, lagMs: inside.moment.lagMs + inside.child.offsetMs }
    : { step, kind, node, lagMs: 0 };
  moments.push(moment);

  const depth = (inside?.depth ?? 0) + 1;
  if (depth > DEEPEST && step.children.length > 0) {
    draft.conflicts.push({
      message: `Steps stand too deep inside one another here. A fold stands inside its bulk, and nothing much deeper.`,
      facts: [{ text: stepText(step), place: step.place }],
    });
    return moment;
  }
  const name = counter();
  // Folds of a bulk that is shorter today come round sooner, or the last would be after its end; in a longer one they stay in its first hours.
  const pace = written.lowMs > 0 ? Math.min(1, length.lowMs / written.lowMs) : 1;
  for (const child of childrenOf(draft, step, { outerMs: length.lowMs, pace, recur: depth === 1 })) {
    const childId = `${id}/${name(slug(child.step.node.step))}`;
    addStep(draft, day, child.step, { id: childId, owner, part, inside: { depth, moment, node, ambientCelsius, child } }, moments);
  }
  return moment;
}

/**
 * The steps inside a step that takes `outerMs` at the least, so that they are inside it whatever it comes to; with `recur`, one that
 * comes round is there each time.
 */
function childrenOf(
  draft: Draft, step: PlacedStep, { outerMs, pace, recur }: { readonly outerMs: number; readonly pace: number; readonly recur: boolean },
): readonly Child[] {
  const timed = step.children.map((child) => {
    const at = detailOf(child, 'at');
    const every = detailOf(child, 'every');
    const everyMs = every ? pace * middleMs(every.interval) : 0;
    const firstMs = at ? pace * middleMs(at.offset) : everyMs > 0 ? everyMs : undefined;
    const times = detailOf(child, 'times')?.count.value;
    let count = 1;
    if (everyMs > 0 && firstMs !== undefined) {
      // Without a number of times: as often as it fits before the end.
      count = times ?? Math.ceil((outerMs - firstMs) / everyMs);
    } else if (firstMs === undefined) {
      count = times ?? 1;
    }
    count = recur ? Math.max(1, Math.floor(count)) : 1;
    if (count > MOST_TIMES) {
      draft.conflicts.push({
        message: `The ${labelOf(child)} comes round more than ${MOST_TIMES} times in the ${labelOf(step)}. Give it a longer interval or fewer times.`,
        facts: [{ text: stepText(step), place: step.place }, { text: stepText(child), place: child.place }],
      });
      count = 1;
    }
    return { child, firstMs, everyMs, count, follows: firstMs === undefined || (everyMs > 0 && times === undefined) };
  });

  // Those without a time share the length out evenly, in their order.
  const untimed = timed.reduce((sum, { firstMs, count }) => (firstMs === undefined ? sum + count : sum), 0);
  let shared = 0;
  return timed.flatMap(({ child, firstMs, everyMs, count, follows }) =>
    Array.from({ length: count }, (_, time) =>
      firstMs === undefined
        ? { step: child, offsetMs: Math.round((outerMs * ++shared) / (untimed + 1)), guessed: true, follows }
        : { step: child, offsetMs: Math.round(firstMs + time * everyMs), guessed: false, follows },
    ),
  );
}

function addBuild(draft: Draft, part: ResolvedPart, owner: number | undefined, id: string): Moment {
  const ms = BUILD_MINUTES * MS_PER_MINUTE;
  const node = addNode(draft, {
    length: { lowMs: ms, chosenMs: ms, highMs: ms },
    sequence: owner,
    inside: undefined,
    work: {
      id,
      part: owner,
      step: undefined,
      kind: 'mix',
      label: `${part.isPreferment ? 'mix' : 'prepare'} the ${part.name}`,
      place: part.place,
      handsOn: true,
      handAtStart: false,
      handAtEnd: false,
      adapted: undefined,
      ambientCelsius: null,
      assumed: true,
    },
  });
  return { step: undefined, kind: 'mix', node, lagMs: 0 };
}

/** Who must be there, and when: what the line says, else what is usual for its kind. */
function handsOf(step: PlacedStep): { readonly handsOn: boolean; readonly handAtStart: boolean; readonly handAtEnd: boolean } {
  const said = detailOf(step, 'attended')?.attended;
  const { handsOn, handAt } = STEP_DEFAULTS[step.node.step];
  const free = said !== undefined || handAt === undefined;
  return { handsOn: said ?? handsOn, handAtStart: !free, handAtEnd: !free && handAt === 'both' };
}

function beginsWithWaiting(steps: readonly PlacedStep[]): boolean {
  const first = steps.find((step) => step.node.step !== 'preheat');
  return first !== undefined && !STEP_DEFAULTS[first.node.step].handsOn;
}

/** What the preheat at `index` heats for: the first bake up to the next preheat, else the first pot or pan, else whatever heat comes later. */
function heatedBy(tops: readonly Moment[], index: number): Moment | undefined {
  const later = tops.slice(index + 1);
  const nextPreheat = later.findIndex((top) => top.kind === 'preheat');
  const near = nextPreheat < 0 ? later : later.slice(0, nextPreheat);
  for (const among of [near, later]) {
    const heated = among.find((top) => OVEN_KINDS.includes(top.kind)) ?? among.find((top) => STOVE_KINDS.includes(top.kind));
    if (heated) return heated;
  }
  return undefined;
}

function lengthOf(draft: Draft, step: PlacedStep): Length {
  const { duration } = step.node;
  if (!duration) {
    const ms = STEP_DEFAULTS[step.node.step].minutes * MS_PER_MINUTE;
    return { lowMs: ms, chosenMs: ms, highMs: ms };
  }
  const low = Math.min(duration.lowMinutes, duration.highMinutes);
  const high = Math.max(duration.lowMinutes, duration.highMinutes);
  if (!(low >= 0 && high <= LONGEST_MINUTES)) {
    draft.conflicts.push({
      message: `The ${labelOf(step)} is longer than ten years. Check its unit.`,
      facts: [{ text: stepText(step), place: step.place }],
    });
    return { lowMs: 0, chosenMs: 0, highMs: 0 };
  }
  return lengthFrom({ lowMinutes: low, highMinutes: high });
}

function lengthFrom({ lowMinutes, highMinutes }: { readonly lowMinutes: number; readonly highMinutes: number }): Length {
  return { lowMs: wholeMs(lowMinutes), chosenMs: wholeMs((lowMinutes + highMinutes) / 2), highMs: wholeMs(highMinutes) };
}

function middleMs(duration: Duration): number {
  return wholeMs((duration.lowMinutes + duration.highMinutes) / 2);
}

function wholeMs(minutes: number): number {
  return Math.round(minutes * MS_PER_MINUTE);
}

function detailOf<K extends StepDetail['kind']>(step: PlacedStep, kind: K): Extract<StepDetail, { readonly kind: K }> | undefined {
  return step.node.details.find((detail): detail is Extract<StepDetail, { readonly kind: K }> => detail.kind === kind);
}
