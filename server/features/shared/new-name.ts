/** A new name in the place of an old one: which characters change, and whether it takes quotes there. */
import { meaningOf, parseBlock } from '../../../grammar';
import type { Span } from '../../../grammar';
import { foldName } from '../../core/ingredients/names';
import { everyLine } from '../../project/file';
import { withoutQuotes } from './names';
import type { Place } from './places';
import { inTheForm } from './written-form';

/** Offsets in the text of a file, and what comes in their place. */
export interface NameEdit extends Span {
  readonly newText: string;
}

/** What of a written name is the name itself: `mill flour` in `toasted mill flour`. `made` is how its block calls the ingredient. */
export function coreOf({ name }: Place, made: string | undefined): Span & { readonly text: string } {
  if (name.named.kind !== 'ingredient' || made === undefined) return name;
  const goal = foldName(made);
  if (foldName(name.text) === goal) return name;
  const words = [...name.text.matchAll(/\S+/gu)].map(({ index, 0: word }) => ({ start: index, end: index + word.length }));
  for (const first of words) {
    for (const last of words) {
      if (last.start < first.start) continue;
      const text = name.text.slice(first.start, last.end);
      // Offsets in the name are offsets in the file only where it is written with single spaces.
      if (foldName(text) === goal && name.end - name.start === name.text.length) {
        return { start: name.start + first.start, end: name.start + last.end, text };
      }
    }
  }
  return name;
}

/** Undefined where nothing changes. `reference` is how the name stood where the new one was given. */
export function renamedPlace(place: Place, newName: string, reference: string, made: string | undefined): NameEdit | undefined {
  const { file, name } = place;
  const core = coreOf(place, made);
  const text = inTheForm(newName, core.text, reference);
  const head = file.tree.blocks[name.block];
  const node = head?.block.head.node;
  if (head !== undefined && node?.kind === 'part' && name.defines) {
    const keywordEnd = head.offset + node.keyword.end;
    // A part that is called as its kind needs no name.
    if (text === node.part && node.part !== 'part') {
      return name.whole === undefined ? undefined : { start: keywordEnd, end: name.whole.end, newText: '' };
    }
    if (name.whole === undefined) return { start: keywordEnd, end: keywordEnd, newText: ` "${text}"` };
  }
  if (name.whole === undefined) return undefined;
  const inner = withoutQuotes(file.text, name.whole);
  const whole = file.text.slice(inner.start, core.start) + text + file.text.slice(core.end, inner.end);
  if (name.whole.quoted) {
    // Formulas and heads are written in quotes, the others only where they must be.
    const quotesGo = !name.defines && name.named.kind !== 'formula' && !readsBare(place, file.text.slice(inner.start, inner.end)) && readsBare(place, whole);
    return quotesGo ? { ...spanOf(name.whole), newText: whole } : { start: core.start, end: core.end, newText: text };
  }
  return readsBare(place, whole) ? { start: core.start, end: core.end, newText: text } : { ...spanOf(name.whole), newText: `"${whole}"` };
}

function spanOf({ start, end }: Span): Span {
  return { start, end };
}

/** Whether a name says the same on its line without quotes as within them. */
function readsBare({ file, name: { block: index, whole } }: Place, text: string): boolean {
  const placed = file.tree.blocks[index];
  if (placed === undefined || whole === undefined) return false;
  const { block, offset } = placed;
  const start = whole.start - offset;
  const end = whole.end - offset;
  const head = block.text.slice(block.head.start, block.head.end);
  const line = everyLine(block).find(one => one.start <= start && end <= one.end);
  // The head and the line are enough to tell, however long the block is.
  const meaning = (name: string): string => {
    const from = line ?? block.head;
    const changed = block.text.slice(from.start, start) + name + block.text.slice(end, from.end);
    return meaningOf(parseBlock(line === undefined ? changed : `${head}\n  ${changed}`)).replace(/"quoted":(?:true|false)|\\"/g, '');
  };
  return meaning(text) === meaning(`"${text}"`);
}
