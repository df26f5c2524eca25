import { defineCheck } from '../define';
import { badUses } from '../uses';
import { named } from '../words';

export const useNotBake = defineCheck({
  code: 'use-not-bake',
  severity: 'error',
  title: 'A file that holds no formulas',
  why: 'Only files that end in `.bake` hold formulas and ingredients.',
  source: 'definition of the language',
  trips: `use «"prices.txt"»
`,
  passes: `use "pantry.bake"
`,
  find: (context) => badUses(context, 'not-bake', (path) => `${named(path)} does not end in \`.bake\`, so it is not read and brings nothing. Name a \`.bake\` file, or take the line out.`),
});
