import { nameKey } from '../../formula/draft';
import { basedOnOf } from '../../variant/write-out';
import type { CheckContext } from '../check';
import { defineCheck, type Found } from '../define';
import { headNamePlace, namesakesRelated } from '../twice';
import { placeOf } from '../walk';
import { named } from '../words';

export const formulaTwice = defineCheck({
  code: 'formula-twice',
  severity: 'warning',
  title: 'Two formulas of one name',
  why:
    'A dish, a plan and a variant find a formula by its name. Where two have it, in this file or in the files that it uses, ' +
    'the baker means one and may get the other.',
  source: 'definition of the language',
  trips: `formula «"Milk loaf"»
  makes     1 loaf of 900 g
  style     pan

dough
  100 %     bread flour
  62 %      water
  2 %       salt

dish "Milk loaf"
  serves    4

custard
  300 g     milk
`,
  tripsTimes: 2,
  passes: `formula "Milk loaf"
  makes     1 loaf of 900 g
  style     pan

dough
  100 %     bread flour
  62 %      water
  2 %       salt

dish "Milk loaf pudding"
  serves    4

custard
  300 g     milk
`,
  find: ({ section, namesakes, formulaNamed }) => [
    ...ambiguousBase(section, namesakes, formulaNamed),
    ...section.blocks.flatMap((block, index): readonly Found[] => {
      const { node } = block.head;
      if (node.kind === 'use') {
        const { path } = node;
        return (path === undefined ? [] : (namesakes?.ofUse(path.text) ?? [])).map(({ name, blocks }) => ({
          place: path === undefined ? placeOf(index, block.head) : placeOf(index, path),
          message:
            `The files used here have ${blocks.length === 2 ? 'two' : String(blocks.length)} formulas called ${named(name)}, and a name cannot choose ` +
            'between them: the one of the first `use` line counts. Rename all but one.',
          related: namesakesRelated(blocks),
        }));
      }
      const others = node.kind === 'formula' || node.kind === 'dish' ? (namesakes?.of(block) ?? []) : [];
      const name = 'name' in node ? node.name : undefined;
      return others.length === 0 || name === undefined
        ? []
        : [
            {
              place: headNamePlace(block, index),
              message:
                `${named(name.text)} is the name of ${others.length === 1 ? 'another formula' : `${String(others.length)} other formulas`} too, here or in a file ` +
                'used here, and a name cannot choose between them: the first of this file counts. Give each a name of its own.',
              related: namesakesRelated(others),
            },
          ];
    }),
  ],
});

/** A variant may get another base than the one that is meant. */
function ambiguousBase(section: CheckContext['section'], namesakes: CheckContext['namesakes'], formulaNamed: CheckContext['formulaNamed']): readonly Found[] {
  const basedOn = basedOnOf(section);
  const base = basedOn && formulaNamed(nameKey(basedOn.node.base.text));
  const [head] = base?.blocks ?? [];
  const others = head === undefined ? [] : (namesakes?.of(head) ?? []);
  if (basedOn === undefined || head === undefined || others.length === 0) return [];
  return [
    {
      place: placeOf(basedOn.block, basedOn.node.base),
      message:
        `${others.length === 1 ? 'Two' : String(others.length + 1)} formulas are called ${named(basedOn.node.base.text)}, here or in the files used here, and this one is based on the first: ` +
        'of this file, else of the first `use` line. Give each a name of its own.',
      related: namesakesRelated([head, ...others]),
    },
  ];
}
