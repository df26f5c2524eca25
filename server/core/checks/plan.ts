/** What the checks on plans share. */
import type { PlanTrouble } from '../plan/model';
import type { CheckContext } from './check';

/** The troubles of one kind that the reading of a plan met. */
export function troublesOfPlan<K extends PlanTrouble['kind']>({ day }: CheckContext, kind: K): readonly Extract<PlanTrouble, { kind: K }>[] {
  return (day?.troubles ?? []).filter((trouble): trouble is Extract<PlanTrouble, { kind: K }> => trouble.kind === kind);
}

const LOAF = `formula "Country loaf"
  makes     2 loaves of 900 g
  style     hearth

dough
  100 %     bread flour
  70 %      water
  2 %       salt
  1 %       fresh yeast

steps
  mix       10 min
  bulk      2 h at 24 C
  shape     10 min
  proof     1 h at 24 C
  preheat   1 h at 240 C
  bake      40 min at 240 C
  cool      2 h
`;

/** A formula and a plan for it, for the examples. */
export function planText({ name = '"Saturday"', ready = 'ready     2026-03-14 08:00 Europe/Lisbon', oven = 'oven      holds 4 loaves', order = 'bake      4 loaves of "Country loaf"', more = [] }: {
  readonly name?: string;
  readonly ready?: string;
  readonly oven?: string;
  readonly order?: string;
  readonly more?: readonly string[];
} = {}): string {
  const lines = [ready, ...more, oven, order].filter((line) => line !== '');
  return `${LOAF}\n${name.startsWith('«') ? name : `plan ${name}`}\n${lines.map((line) => `  ${line}\n`).join('')}`;
}
