/** Egg that is eaten raw. */
import type { StepKind } from '../../../grammar';
import type { PlacedStep, ResolvedFormula, ResolvedPart } from '../formula/model';

export interface RawEgg {
  readonly part: ResolvedPart;
  /** The step that puts it on. */
  readonly step: PlacedStep;
}

const HEATS: ReadonlySet<StepKind> = new Set<StepKind>(['bake', 'boil', 'steam', 'fry']);

/** Parts with egg that go on after the last heat and are not cooked in steps of their own. None where nothing is heated at all. */
export function rawEggIn({ method, parts }: ResolvedFormula): readonly RawEgg[] {
  const last = method.findLastIndex(({ node }) => HEATS.has(node.step));
  if (last < 0) return [];
  return method.slice(last + 1).flatMap((step) => step.node.details.flatMap((detail): readonly RawEgg[] => {
    const part = detail.kind === 'add' ? parts.find(({ key }) => key === detail.name.text.trim().toLowerCase()) : undefined;
    return part === undefined || !hasRawEgg(part) || isCooked(part) ? [] : [{ part, step }];
  }));
}

function hasRawEgg({ lines }: ResolvedPart): boolean {
  return lines.some(({ role, name }) => role === 'egg' && !/pasteuri[sz]ed|boiled|cooked|dried/i.test(name));
}

/** What stands in its steps in words may well be cooking. */
function isCooked({ steps }: ResolvedPart): boolean {
  return steps.some(({ node }) => HEATS.has(node.step) || node.step === 'do' || node.details.some(({ kind }) => kind === 'until-core'));
}
