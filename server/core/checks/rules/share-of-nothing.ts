import { defineCheck, troublesOf } from '../define';
import { named } from '../words';

export const shareOfNothing = defineCheck({
  code: 'share-of-nothing',
  severity: 'error',
  title: 'A share with nothing to take it of',
  why:
    'A share is a part of something: of the flour in a dough, of the weighed lines where there is no flour. Where ' +
    'everything is a share, nothing can be weighed.',
  source: 'definition of the language',
  trips: `dish "Bread pudding"
  serves    4

«custard»
  70 %      milk
  30 %      eggs
`,
  passes: `dish "Bread pudding"
  serves    4

custard
  350 g     milk
  150 g     eggs
`,
  find: (context) =>
    troublesOf(context, 'share-of-nothing').map(({ place, part }) => ({
      place,
      message:
        `${named(part)} is written in shares alone, and there is nothing that fixes how much it is. Write a weight ` +
        'for one line at least.',
    })),
});
