import type { IngredientLine } from '../../../../grammar';
import type { Ingredient } from '../../ingredients/model';
import type { CheckContext } from '../check';
import { defineCheck, type Found } from '../define';
import { loaf } from '../examples';
import { linesOf, placeOf } from '../walk';
import { listed, named, plain } from '../words';

/** So many g in 100 g make it another thing to weigh. */
const WATER_APART = 10;
const SALT_APART = 1;

export const noteChangesIngredient = defineCheck({
  code: 'note-changes-ingredient',
  severity: 'warning',
  title: 'A word behind the comma that belongs to the name',
  why:
    'A comma starts a note, which no arithmetic reads. `figs, dried` is weighed as fresh figs with a note: four times the ' +
    'water, a quarter of the sugar.',
  source: 'definition of the language',
  trips: loaf({ head: ['style     with inclusions'], more: ['200 g     «figs, dried»'] }),
  passes: loaf({ head: ['style     with inclusions'], more: ['200 g     dried figs, quartered'] }),
  fixed: loaf({ head: ['style     with inclusions'], more: ['200 g     dried figs'] }),
  find: (context) =>
    linesOf(context.section).flatMap(({ block, line: { node } }): readonly Found[] => {
      if (node.kind !== 'ingredient' || node.note === undefined || node.note.quoted || node.name.quoted) {
        return [];
      }
      const meant = meantBy(node, context);
      if (meant === undefined) {
        return [];
      }
      const place = placeOf(block, { start: node.name.start, end: node.note.end });
      const plainLine = node.purpose === undefined && node.role === undefined && node.temperature === undefined && node.hydrationPct === undefined;
      return [
        {
          place,
          message:
            `Behind the comma ${named(node.note.text)} is a note, and the line is weighed as ${named(node.name.text)}: ` +
            `${meant.apart}. ` +
            `Is ${named(meant.name)} meant?`,
          fixes: plainLine ? [{ title: `Write ${meant.name}`, certain: false, edits: [{ place, newText: meant.name }] }] : [],
        },
      ];
    }),
});

function meantBy({ name, note }: IngredientLine, { catalogue }: CheckContext): { readonly name: string; readonly apart: string } | undefined {
  const [word = ''] = (note?.text ?? '').split(',').map((text) => text.trim());
  const read = catalogue.find(name.text);
  if (!/^\p{L}+$/u.test(word) || read === undefined) {
    return undefined;
  }
  const meant = `${word} ${name.text}`;
  const other = catalogue.find(meant);
  const apart = other === undefined || other.key === read.key ? [] : differences(read, other);
  return apart.length === 0 ? undefined : { name: meant, apart: listed(apart) };
}

function differences(read: Ingredient, other: Ingredient): readonly string[] {
  return (['water', 'salt'] as const).flatMap((part) => {
    const [a, b] = [read.composition[part], other.composition[part]];
    const least = part === 'water' ? WATER_APART : SALT_APART;
    return a === null || b === null || Math.abs(a - b) < least ? [] : [`${plain(a)} % ${part} instead of ${plain(b)}`];
  });
}
