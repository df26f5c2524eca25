import { defineCheck } from '../define';
import { badUses } from '../uses';
import { named } from '../words';

export const useOutside = defineCheck({
  code: 'use-outside',
  severity: 'error',
  title: 'A file outside the folder that is open',
  why: 'Only files inside the open folder are read, so that a formula from a stranger cannot look around your disk.',
  source: 'definition of the language',
  trips: `use «"../outside.bake"»
`,
  passes: `use "pantry.bake"
`,
  find: (context) =>
    badUses(context, 'outside', (path) => `${named(path)} is outside the open folder and is not read, so what it would bring is not known. Copy it into the folder.`),
});
