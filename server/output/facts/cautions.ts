/** The safety cautions of a method, short and in full. */
import { cautionsFor, LOCAL_RULES, type Caution } from '../../core/facts';
import type { ResolvedFormula } from '../../core/formula/model';
import type { Timeline } from '../../core/timeline/model';

export { LOCAL_RULES };

export function cautionsOf(formula: ResolvedFormula, timeline?: Timeline): readonly Caution[] {
  return formula.parts.length === 0 ? [] : cautionsFor(formula, timeline);
}

/** A line's worth of it: its first sentence, and as many more as fit. */
export function shortly({ text }: Pick<Caution, 'text'>, most = 110): string {
  const [first = '', ...more] = text.split(/(?<=[.!?])\s+(?=\p{Lu})/u);
  return more.reduce((short, next) => (text.startsWith(`${short} ${next}`) && short.length + next.length < most ? `${short} ${next}` : short), first);
}
