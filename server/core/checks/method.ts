/** What checks on the method share. */
import type { StepKind } from '../../../grammar';
import type { Place, PlacedStep, ResolvedFormula, ResolvedPart } from '../formula/model';
import { placeOf, remembering } from './walk';

export interface StepOf {
  readonly step: PlacedStep;
  /** Undefined for the steps of the method. */
  readonly part: ResolvedPart | undefined;
  readonly parent: PlacedStep | undefined;
}

/** Every step of parts and method, refining ones after the step they refine. Not recursive: a garbled file may nest deep. */
export function allSteps(formula: ResolvedFormula | undefined): readonly StepOf[] {
  return formula === undefined ? [] : stepsOf(formula);
}

const stepsOf = remembering((formula: ResolvedFormula): readonly StepOf[] => {
  const found: StepOf[] = [];
  const waiting: StepOf[] = [
    ...formula.parts.flatMap((part) => part.steps.map((step) => ({ step, part, parent: undefined }))),
    ...formula.method.map((step) => ({ step, part: undefined, parent: undefined })),
  ].reverse();
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    found.push(next);
    const { step, part } = next;
    waiting.push(...[...step.children].reverse().map((child) => ({ step: child, part, parent: step })));
  }
  return found;
});

/** The steps of the dough and then of the method, in order, refining ones left out. */
export function methodOf(formula: ResolvedFormula): readonly PlacedStep[] {
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  return [...(dough?.steps ?? []), ...formula.method];
}

export const HEATS: ReadonlySet<StepKind> = new Set<StepKind>(['bake', 'boil', 'steam', 'fry']);
/** Steps in which dough rises or ripens. */
export const RISES: ReadonlySet<StepKind> = new Set<StepKind>(['bulk', 'proof', 'ripen', 'rest', 'autolyse']);
export const FOLDS: ReadonlySet<StepKind> = new Set<StepKind>(['fold', 'stretch and fold', 'coil fold']);

export function isKind(...kinds: readonly StepKind[]): (step: PlacedStep) => boolean {
  return ({ node }) => kinds.includes(node.step);
}

/** Where the word of a step stands. */
export function keywordPlace({ place, node }: PlacedStep): Place {
  return placeOf(place.block, node.keyword);
}

export function durationPlace(step: PlacedStep): Place {
  return step.node.duration === undefined ? keywordPlace(step) : placeOf(step.place.block, step.node.duration);
}

export function temperaturePlace(step: PlacedStep): Place {
  return step.node.temperature === undefined ? keywordPlace(step) : placeOf(step.place.block, step.node.temperature);
}

/** Degrees written on the step itself, C; undefined for `room`, `fridge` and nothing. */
export function writtenCelsius({ node: { temperature } }: PlacedStep): { readonly low: number; readonly high: number; readonly unit: 'C' | 'F' } | undefined {
  return temperature?.kind === 'degrees' ? { low: temperature.lowCelsius, high: temperature.highCelsius, unit: temperature.unit } : undefined;
}

/** Written minutes of steps together; undefined when one of them has none. */
export function minutesOf(steps: readonly PlacedStep[]): { readonly low: number; readonly high: number } | undefined {
  let low = 0;
  let high = 0;
  for (const { node } of steps) {
    if (node.duration === undefined) {
      return undefined;
    }
    low += Math.min(node.duration.lowMinutes, node.duration.highMinutes);
    high += Math.max(node.duration.lowMinutes, node.duration.highMinutes);
  }
  return { low, high };
}

/** What a step says in free words: its notes, what it waits for, its own name. */
export function wordsOf({ node }: PlacedStep): readonly { readonly text: string; readonly start: number; readonly end: number }[] {
  return [
    ...(node.label === undefined ? [] : [node.label]),
    ...node.details.flatMap((detail) => (detail.kind === 'note' || detail.kind === 'until' ? [detail.text] : [])),
  ];
}

/** The core that a step bakes to, the last one where several say so. */
export function coreOf(steps: readonly PlacedStep[]): { readonly celsius: number; readonly place: Place; readonly step: PlacedStep } | undefined {
  let found: ReturnType<typeof coreOf>;
  for (const step of steps) {
    for (const detail of step.node.details) {
      if (detail.kind === 'until-core' && detail.temperature.kind === 'degrees') {
        const { lowCelsius, highCelsius } = detail.temperature;
        found = { celsius: (lowCelsius + highCelsius) / 2, place: placeOf(step.place.block, detail.temperature), step };
      }
    }
  }
  return found;
}
