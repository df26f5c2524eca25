/** What spoils out of the cold, and how long a part stands there. */
import type { PlacedStep, ResolvedFormula, ResolvedLine, ResolvedPart } from '../formula/model';
import { ambientOf } from '../timeline/ambient';
import { HEATS } from './method';

/** Milk, cream and the fresh cheeses by ingredient key. Soured and hard ones keep better and are left to the baker. */
const DAIRY = new Set([
  'milk-whole', 'milk-2-percent', 'milk-skim', 'cream', 'half-and-half', 'evaporated-milk', 'ricotta', 'cream-cheese', 'mascarpone', 'quark',
  'cottage-cheese', 'goat-cheese-soft', 'mozzarella', 'soy-milk', 'oat-milk', 'tofu', 'ham',
]);
const COOL_CELSIUS_TOO_HOT = 32;

export function isPerishable({ role, key, name, inDough }: ResolvedLine): boolean {
  return inDough && ((role === 'egg' && key !== 'egg-white-dried') || DAIRY.has(key) || /\bcustard\b/i.test(name));
}

/**
 * Minutes that a part stands warmer than the cold before heat ends the waiting: in its own steps and, in a dish, in those
 * of the method up to its first heat. Only what is written counts: a step whose place or length nobody says is no reproach.
 */
export function warmMinutes(formula: ResolvedFormula, part: ResolvedPart, coldCelsius: number): { readonly warm: number; readonly hot: number } {
  const heat = formula.method.findIndex(({ node }) => HEATS.has(node.step));
  const own: readonly PlacedStep[] = part.steps.some(({ node }) => HEATS.has(node.step)) ? [] : part.steps;
  const later = formula.kind === 'dish' ? formula.method.slice(0, Math.max(0, heat)) : [];
  let warm = 0;
  let hot = 0;
  for (const [steps, place] of [[own, part], [later, undefined]] as const) {
    for (const step of steps) {
      const celsius = step.node.step === 'preheat' ? null : ambientOf(step, place, formula, undefined);
      const time = step.node.duration?.lowMinutes ?? 0;
      if (celsius !== null && celsius > coldCelsius && celsius < 57) {
        warm += time;
        hot += celsius > COOL_CELSIUS_TOO_HOT ? time : 0;
      }
    }
  }
  return { warm, hot };
}
