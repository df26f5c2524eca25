/** A file with formulas and one plan, as a bake day: what tests of plans start from. */
import { parse } from '../../../grammar';
import type { ResolvedFormula, Section } from '../../../server/core/formula/model';
import { resolve } from '../../../server/core/formula/resolve';
import { sectionsOf } from '../../../server/core/formula/sections';
import { builtInCatalogue, extend } from '../../../server/core/ingredients/catalogue';
import type { BakeDay } from '../../../server/core/plan/model';
import { readPlan } from '../../../server/core/plan/read';

export function dayIn(text: string): BakeDay {
  const { blocks } = parse(text);
  const problems = blocks.flatMap(({ block }) => block.problems);
  if (problems.length > 0) throw new Error(problems.map(({ message }) => message).join('\n'));
  const sections = sectionsOf(blocks.map(({ block }) => block)).map(({ section }) => section);
  const formulas = new Map<string, Section>(sections.filter(({ kind }) => kind === 'formula' || kind === 'dish').map((section) => [section.name.toLowerCase(), section]));
  const catalogue = extend(builtInCatalogue, blocks.map(({ block }) => block).filter(({ head }) => head.node.kind === 'ingredient'));
  const known = new Map<string, ResolvedFormula>();
  const plan = sections.find(({ kind }) => kind === 'plan');
  if (!plan) throw new Error('There is no plan in this text.');
  return readPlan(plan, {
    formulaNamed: (name) => {
      const section = formulas.get(name);
      if (section && !known.has(name)) known.set(name, resolve(section, { catalogue, measures: 'us', formulas }));
      return known.get(name);
    },
  });
}

/** A levain loaf that proofs in the fridge, so that its loads can wait for one another. */
export const RYE = `formula "Rye"
  makes     2 loaves of 900 g

levain
  100 %     dark rye flour
  100 %     water
  20 %      starter
  keep      30 g
  ripen     7 to 9 h at 24 C

dough
  100 %     bread flour
  70 %      water
  20 %      levain
  2 %       salt
  10 g      rice flour for dusting

steps
  mix       10 min, by mixer
  bulk      3 h at 24 C
  shape     10 min
  retard    10 to 16 h at 4 C
  preheat   45 min at 240 C
  bake      40 min at 240 C
  cool      1 h
`;

/** Rolls with yeast that must be baked as they are proofed. */
export const ROLLS = `formula "Rolls"
  makes     20 rolls of 60 g

dough
  100 %     bread flour
  60 %      water
  2 %       salt
  1 %       instant yeast

steps
  mix       8 min, by mixer
  bulk      1 h at 24 C
  shape     15 min
  proof     50 to 60 min at 26 C
  preheat   30 min at 220 C
  bake      15 min at 220 C
  cool      20 min
`;

/** The same levain as the rye's under another name. */
export const WHEAT = RYE.replace('"Rye"', '"Wheat"').replace('levain\n', 'levain "night levain"\n').replace('20 %      levain', '15 %      night levain').replace('keep      30 g', 'keep      50 g');
