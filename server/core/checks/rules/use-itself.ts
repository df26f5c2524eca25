import { defineCheck } from '../define';
import { badUses } from '../uses';

export const useItself = defineCheck({
  code: 'use-itself',
  severity: 'error',
  title: 'A file that uses itself',
  why: 'A file has its own ingredients and formulas already.',
  source: 'definition of the language',
  trips: `use «"itself.bake"»
`,
  passes: `use "pantry.bake"
`,
  find: (context) => badUses(context, 'itself', () => 'This is the file itself, which has its own formulas and ingredients already. Take the line out.'),
});
