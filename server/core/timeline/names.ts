/** Names in steps: which part an `add` means, and what steps and lines are called in a conflict. */
import type { DeltaLine, StepDetail } from '../../../grammar';
import type { PlacedStep, ResolvedFormula } from '../formula/model';
import { formatDuration } from './clock';

export type AddDetail = Extract<StepDetail, { readonly kind: 'add' }>;

/** The `add …` details of one step line. */
export function addsOf(step: PlacedStep): readonly AddDetail[] {
  return step.node.details.filter((detail) => detail.kind === 'add');
}

/** What the names in the steps of one formula mean. */
export interface Names {
  /**
   * The parts that an `add` names: by the part's name, by its kind where only one part is of that kind, and each of
   * several joined by "and". Empty when it names none: then it adds an ingredient.
   */
  readonly partsNamed: (name: string) => readonly number[];
  /** False when nothing in the formula, neither a part nor an ingredient, has so much as a word of the name. */
  readonly isKnown: (name: string) => boolean;
}

export function namesOf(formula: ResolvedFormula): Names {
  const byName = new Map<string, number>();
  const byKind = new Map<string, number[]>();
  // A list that is not written yet cannot be missing anything.
  const isListed = formula.parts.some((part) => part.lines.length > 0);
  const known = new Set(['everything', 'all', 'rest', 'remaining', 'remainder']);
  formula.parts.forEach((part, index) => {
    for (const own of [part.key, part.name].map(plain)) if (own !== '' && !byName.has(own)) byName.set(own, index);
    const ofKind = byKind.get(plain(part.kind));
    if (ofKind) ofKind.push(index);
    else byKind.set(plain(part.kind), [index]);
    for (const word of wordsOf(`${part.key} ${part.name} ${part.kind}`)) known.add(word);
    for (const line of part.lines) {
      for (const word of wordsOf(`${line.name} ${line.key} ${line.ingredient?.label ?? ''}`)) known.add(word);
    }
  });
  const partNamed = (name: string): readonly number[] => {
    const named = byName.get(plain(name));
    const ofKind = byKind.get(plain(name)) ?? [];
    return named !== undefined ? [named] : ofKind.length === 1 ? ofKind : [];
  };
  return {
    partsNamed: (name) => {
      const whole = partNamed(name);
      return whole.length > 0 ? whole : name.split(/\s+and\s+|\s*[&+]\s*/u).flatMap(partNamed);
    },
    isKnown: (name) => !isListed || wordsOf(name).some((word) => known.has(word)),
  };
}

/** What a step is called: its kind, or the words of `do`. */
export function labelOf(step: PlacedStep): string {
  return step.node.step === 'do' && step.node.label ? step.node.label.text : step.node.step;
}

/** A step in words, as a conflict lists it: `retard 10 h to 16 h`. */
export function stepText(step: PlacedStep): string {
  const { duration } = step.node;
  if (!duration) return labelOf(step);
  const low = formatDuration(duration.lowMinutes);
  const high = formatDuration(duration.highMinutes);
  return `${labelOf(step)} ${low === high ? low : `${low} to ${high}`}`;
}

/** A line of a variant in words: `swap walnuts for pistachios`. */
export function deltaText(delta: DeltaLine): string {
  switch (delta.kind) {
    case 'based-on':
      return `based on "${delta.base.text}"`;
    case 'swap':
      return `swap ${delta.from.text} for ${delta.to.text}`;
    case 'set':
      return `set ${delta.name.text}`;
    case 'add':
      return `add ${delta.line.name.text}`;
    case 'drop':
      return `drop ${delta.name.text}`;
  }
}

function plain(name: string): string {
  return wordsOf(name).join(' ');
}

/** Lower case, hyphens and plural endings aside, so that `fig` and `Figs` are one. */
function wordsOf(name: string): readonly string[] {
  return name
    .toLowerCase()
    .split(/[^\p{L}\p{M}\p{N}']+/u)
    .filter((word) => word !== '')
    .map((word) => (word.length > 3 && word.endsWith('s') && !word.endsWith('ss') ? word.slice(0, -1) : word));
}
