/** The method of a card as steps, and as notes where it says less or more than a step. */
import type { DraftLine, DraftPart, Outcome, PlacedLine } from './model';
import { foldName } from '../ingredients/names';
import { noteLine, stepLine } from './lines';
import { bareName } from './names';
import { partHeading } from './headings';
import { readSentence, type SoFar, type Step } from './sentence';
import { sentencesOf } from './sentences';

export interface MethodReading {
  readonly lines: readonly DraftLine[];
  /** Steps that belong to a part, by its index. */
  readonly ofParts: ReadonlyMap<number, readonly DraftLine[]>;
  readonly outcomes: readonly Outcome[];
}

/** A part that is made ready before the dough is mixed. */
interface Ahead {
  readonly index: number;
  readonly words: readonly string[];
  readonly of: SoFar['of'];
}

/** What is done to a dough and to no preferment. */
const OF_DOUGH = /\b(?:dough|add|everything|all|knead|with the|final mix)\b/i;
const MAKING = /\b(?:mix|make|build|combine|stir|feed|prepare|refresh|night before|evening before|day before|pour|cook)\b/i;
const BEGINS_DOUGH = /\b(?:dough|add|autolyse|autolyze|flour|knead|remaining|rest of the)\b/i;

/**
 * Reads paragraphs of a method, in order.
 *
 * @param under the part whose ingredients a paragraph stands under, where more parts follow
 */
export function readMethod(paragraphs: readonly PlacedLine[], parts: readonly DraftPart[], under: (paragraph: PlacedLine) => number | undefined): MethodReading {
  const aheads = aheadsOf(parts);
  const lines: DraftLine[] = [];
  const ofParts = new Map<number, DraftLine[]>();
  const outcomes: Outcome[] = [];
  let soFar: SoFar = { isShaped: false, hasRisen: false, oven: undefined, of: 'dough' };
  let isDoughBegun = false;
  let heading: Ahead | undefined;
  for (const paragraph of paragraphs) {
    const { text, line } = paragraph;
    if (paragraph.kind === 'step-heading') {
      heading = isDoughBegun ? undefined : aheads.find((ahead) => isAbout(ahead, text) || partOf(text) === parts[ahead.index]?.kind);
      // The part that it names has a heading of its own.
      const isSaid = heading !== undefined && isAbout(heading, text) && text.split(' ').length <= 2;
      if (!isSaid) lines.push({ comment: text });
      const kind = partOf(text);
      isDoughBegun ||= kind === 'dough' || kind === 'batter';
      outcomes.push({ line, text, reading: heading === undefined ? 'text' : 'understood', why: heading === undefined ? ['a heading of the method, kept as a comment'] : [] });
      continue;
    }
    const own = under(paragraph);
    const fixed = heading ?? aheads.find(({ index }) => index === own);
    let ahead = fixed;
    let steps = 0;
    const why: string[] = [];
    let kept: string[] = [];
    const keep = (into: DraftLine[]): void => {
      if (kept.length > 0) into.push(noteLine(kept.join(' ')));
      kept = [];
    };
    let into: DraftLine[] = lines;
    for (const sentence of sentencesOf(text)) {
      if (fixed === undefined) ahead = isDoughBegun || OF_DOUGH.test(sentence) ? undefined : (aheadOf(sentence, aheads) ?? ahead);
      const target = ahead === undefined ? lines : listOf(ofParts, ahead.index);
      if (target !== into) keep(into);
      into = target;
      const reading = readSentence(sentence, { ...soFar, of: ahead?.of ?? 'dough' });
      soFar = { ...reading.soFar, of: 'dough' };
      const taken = placeSteps(sentence, reading.steps, reading.decide, into, () => keep(into));
      const folded = taken ? true : addFolds(reading.folds, sentence, into, kept.length > 0);
      if (taken || folded) steps += 1;
      else if (reading.decide.length > 0) {
        keep(into);
        into.push({ ...noteLine(sentence), decide: reading.decide.join(' ') });
      } else {
        kept.push(sentence);
      }
      why.push(...reading.decide);
      if (ahead === undefined && (BEGINS_DOUGH.test(sentence) || taken)) isDoughBegun ||= reading.steps.some((step) => step.kind !== 'preheat');
    }
    keep(into);
    outcomes.push({ line, text, ...outcomeOf(steps, why) });
  }
  return { lines, ofParts, outcomes };
}

function outcomeOf(steps: number, why: readonly string[]): Pick<Outcome, 'reading' | 'why'> {
  if (why.length > 0) return { reading: 'doubtful', why };
  if (steps === 0) return { reading: 'text', why: ['no step with a clear kind and time: kept as a note'] };
  return { reading: 'understood', why: [] };
}

/** The steps of a sentence, which stands as a note on the first of them. */
function placeSteps(sentence: string, steps: readonly Step[], decide: readonly string[], into: DraftLine[], keep: () => void): boolean {
  const drafts = steps.flatMap(({ bake, folds }, index): readonly DraftLine[] => {
    const line = stepLine(bake, index === 0 ? sentence : undefined);
    if (line === undefined) return [];
    return [{ bake: line, ...(folds.length > 0 && { children: folds.map((fold) => ({ bake: fold })) }) }];
  });
  const [first, ...others] = drafts;
  // The sentence stands on the first step: without that one its words would be lost.
  if (first === undefined || drafts.length < steps.length) return false;
  keep();
  into.push(decide.length > 0 ? { ...first, decide: decide.join(' ') } : first, ...others);
  return true;
}

/** Folds that a later sentence tells of go under the bulk, where that is the last step. */
function addFolds(folds: readonly string[], sentence: string, into: DraftLine[], isBehindNote: boolean): boolean {
  const last = into.at(-1);
  const [first, ...others] = folds;
  if (first === undefined || last?.bake === undefined || isBehindNote || !/^bulk\b/.test(last.bake)) return false;
  const line = stepLine(first, sentence);
  if (line === undefined) return false;
  into[into.length - 1] = { ...last, children: [...(last.children ?? []), { bake: line }, ...others.map((bake) => ({ bake }))] };
  return true;
}

function listOf(map: Map<number, DraftLine[]>, index: number): DraftLine[] {
  const known = map.get(index);
  if (known !== undefined) return known;
  const list: DraftLine[] = [];
  map.set(index, list);
  return list;
}

function aheadsOf(parts: readonly DraftPart[]): readonly Ahead[] {
  return parts.flatMap(({ kind, name }, index): readonly Ahead[] => {
    switch (kind) {
      case 'levain': case 'poolish': case 'biga': case 'sponge': case 'old dough':
        return [{ index, of: 'preferment', words: wordsFor(kind, name, kind === 'levain' ? ['leaven', 'starter'] : ['preferment']) }];
      case 'soaker': case 'scald':
        return [{ index, of: 'other', words: wordsFor(kind, name, []) }];
      case 'filling': case 'topping': case 'glaze': case 'wash': case 'custard': case 'part': case 'dough': case 'batter': case 'total formula':
        return [];
    }
  });
}

function wordsFor(kind: string, name: string | undefined, others: readonly string[]): readonly string[] {
  return [kind, ...others, ...(name === undefined ? [] : [bareName(name)])];
}

function isAbout({ words }: Ahead, text: string): boolean {
  const folded = ` ${foldName(text)} `;
  return words.some((word) => folded.includes(` ${word} `));
}

function partOf(heading: string): DraftPart['kind'] | undefined {
  return partHeading(heading, true)?.kind;
}

/** The part that a sentence makes ready, where it is not about the dough. */
function aheadOf(sentence: string, aheads: readonly Ahead[]): Ahead | undefined {
  return MAKING.test(sentence) && !OF_DOUGH.test(sentence) ? aheads.find((ahead) => isAbout(ahead, sentence)) : undefined;
}
