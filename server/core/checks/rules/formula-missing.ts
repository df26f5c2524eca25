import { defineCheck, type Found } from '../define';
import { missingFormula } from '../names';
import { linesOf } from '../walk';

export const formulaMissing = defineCheck({
  code: 'formula-missing',
  severity: 'error',
  title: 'A formula that nobody can see from here',
  why:
    'A dish that uses slices of a loaf, a plan that bakes one, and a formula based on another need the formula that ' +
    'is named: in this file or in one that a `use` line brings in.',
  source: 'definition of the language',
  trips: `dish "Bread pudding"
  serves    4
  uses      8 slices of «"Milk loaf"»

custard
  300 g     milk
`,
  passes: `formula "Milk loaf"
  makes     1 loaf of 900 g
  style     pan

dough
  100 %     bread flour
  62 %      water
  2 %       salt

dish "Bread pudding"
  serves    4
  uses      300 g "Milk loaf"

custard
  300 g     milk
`,
  find: (context) =>
    linesOf(context.section).flatMap(({ block, line: { node } }): readonly Found[] => {
      if (node.kind === 'uses') {
        return missingFormula(context, block, node.formula, 'taken in');
      }
      if (node.kind === 'based-on') {
        return missingFormula(context, block, node.base, 'built on');
      }
      if (node.kind === 'property' && node.value.kind === 'order') {
        return missingFormula(context, block, node.value.formula, 'baked');
      }
      return [];
    }),
});
