import { defineCheck } from '../define';
import { badUses } from '../uses';
import { named } from '../words';

export const useNotFound = defineCheck({
  code: 'use-not-found',
  severity: 'error',
  title: 'A file that is not there',
  why:
    'The ingredients and formulas of the file that is missing are unknown here, so what is made with them cannot be ' +
    'worked out.',
  source: 'definition of the language',
  trips: `use «"missing.bake"»
`,
  passes: `use "pantry.bake"
`,
  find: (context) =>
    badUses(context, 'not-found', (path) =>
      `There is no file ${named(path)}, so nothing that it would bring is known here. Correct the path: it counts from the folder of this file.`),
});
