/** Pieces folded in by halves, at two folds of the bulk. */
import type { StepDetail } from '../../../grammar';
import { writtenName } from '../checks/words';
import type { PlacedStep, ResolvedLine, ResolvedPart } from '../formula/model';
import { linesNamed } from '../formula/named';
import { isSettled, writtenLines, type Refactoring, type Scene } from './refactoring';

type Add = Extract<StepDetail, { kind: 'add' }>;
interface Added {
  readonly step: PlacedStep;
  readonly detail: Add;
}

/** For what the cursor is on: a line of pieces in the dough that no step adds yet, or that one fold adds whole. */
export function halvesOverFolds(scene: Scene): readonly Refactoring[] {
  const { formula } = scene;
  const dough = formula.dough === undefined ? undefined : formula.parts[formula.dough];
  if (dough === undefined || !isSettled(scene)) return [];
  const steps = formula.method.flatMap((step) => [step, ...step.children]);
  const additions = steps.flatMap((step) => step.node.details.flatMap((detail) => (detail.kind === 'add' ? [{ step, detail }] : [])));
  const line = lineMeant(scene, dough, additions);
  if (line === undefined || (line.role !== 'inclusion' && line.part === undefined) || !line.inDough) return [];
  if (line.part !== undefined && formula.parts[line.part]?.isPreferment === true) return [];
  const adding = additions.filter(({ detail }) => linesNamed(detail.name.text, dough.lines, formula.parts).includes(line));
  const bulk = formula.method.find((step) => step.node.step === 'bulk' && foldsOf(step).length > 1);
  const folds = bulk === undefined ? [] : foldsOf(bulk);
  const [only] = adding;
  if (adding.length > 1 || (only !== undefined && (only.detail.portion.kind !== 'whole' || !folds.includes(only.step)))) return [];
  // The first fold of three or more builds strength before there is anything to carry.
  const from = only === undefined ? (folds.length > 2 ? 1 : 0) : folds.indexOf(only.step);
  const [first, second] = [folds[from], folds[from + 1]];
  if (first === undefined || second === undefined || linesNamed(line.name, dough.lines, formula.parts).length !== 1) return [];
  const name = writtenName(line.name);
  return [{
    id: 'halves', kind: 'rewrite', title: `Fold in ${line.name} by halves, ${whenOf(scene, first)} and ${whenOf(scene, second)}`,
    edits: () => [
      only === undefined ? addAtEnd(first, `add half of ${name}`) : { place: { block: first.place.block, start: only.detail.start, end: only.detail.end }, newText: `add half of ${name}` },
      addAtEnd(second, `add rest of ${name}`),
    ],
  }];
}

/** The line of the dough that the cursor is on, or that the step it is on adds. */
function lineMeant({ formula, at }: Scene, dough: ResolvedPart, additions: readonly Added[]): ResolvedLine | undefined {
  if (at.block === dough.block) return writtenLines(dough).find(({ node }) => at.start >= node.start && at.end <= node.end)?.line;
  const adding = additions.find(({ step, detail }) => step.place.block === at.block && at.start >= detail.start && at.end <= detail.end);
  return adding && linesNamed(adding.detail.name.text, dough.lines, formula.parts)[0];
}

function foldsOf({ children }: PlacedStep): readonly PlacedStep[] {
  return children.filter(({ node: { step, details } }) => (
    (step === 'fold' || step === 'stretch and fold' || step === 'coil fold' || step === 'laminate') && details.some(({ kind }) => kind === 'at') && !details.some(({ kind }) => kind === 'every')
  ));
}

function addAtEnd({ place, node }: PlacedStep, words: string) {
  return { place: { block: place.block, start: node.end, end: node.end }, newText: `, ${words}` };
}

/** `at 30 min`, as the fold says it. */
function whenOf({ section }: Scene, { place, node }: PlacedStep): string {
  const at = node.details.find(({ kind }) => kind === 'at');
  return at === undefined ? '' : (section.blocks[place.block]?.text.slice(at.start, at.end) ?? '');
}
