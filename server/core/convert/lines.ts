/** Lines of the language out of what was read, each tried before it is taken: what does not read back as it was meant is kept as words. */
import { parseBlock, type Block, type BodyNode } from '../../../grammar';
import type { IngredientReading } from './ingredient';
import type { DraftLine } from './model';

/** The beginning of a comment that says what is left to decide. The check of that name looks for it. */
export const TO_DECIDE = 'to decide:';

/** What a line says in a block; undefined where any of it is not understood. */
export function readsAs(head: 'formula "x"' | 'dish "x"' | 'dough' | 'steps', bake: string): BodyNode | undefined {
  const block: Block = parseBlock(`${head}\n  ${bake}\n`);
  const [line, ...others] = block.lines;
  return line === undefined || others.length > 0 || line.comment !== undefined || block.problems.length > 0 ? undefined : line.node;
}

/** Words as the language quotes them: quotes inside are those of a quote within a quote. */
export function quoted(words: string): string {
  return `"${words.replace(/["“”„‟«»]/g, "'")}"`;
}

/** A line of a part; undefined where the language cannot say it. */
export function ingredientLine({ amount, weight, name, at, hydration, purpose, notes }: IngredientReading): string | undefined {
  if (amount === undefined) return undefined;
  const behind = [weight === undefined ? '' : ` (${weight})`, at === undefined ? '' : ` at ${at}`, hydration === undefined ? '' : ` at ${hydration} % hydration`, purpose === undefined ? '' : ` for ${purpose}`].join('');
  const note = notes.length === 0 ? '' : notes.join(', ');
  for (const named of [name, quoted(name)]) {
    for (const noted of note === '' ? [''] : [note, quoted(note)]) {
      const bake = `${amount} ${named}${behind}${noted === '' ? '' : `, ${noted}`}`;
      const node = readsAs('dough', bake);
      if (node?.kind !== 'ingredient' || node.name.text !== (named === name ? name : named.slice(1, -1))) continue;
      if (at !== undefined && node.temperature === undefined || hydration !== undefined && node.hydrationPct === undefined) continue;
      if (purpose !== node.purpose?.text || (node.note === undefined) !== (noted === '')) continue;
      return bake;
    }
  }
  return undefined;
}

/** A step of the method with the sentence that it comes from; undefined where the language cannot say it. */
export function stepLine(bake: string, sentence: string | undefined): string | undefined {
  const whole = sentence === undefined ? bake : `${bake}, ${quoted(sentence)}`;
  return readsAs('steps', whole)?.kind === 'step' ? whole : undefined;
}

/** Words that are kept as a note; as a comment where they are too long for one. */
export function noteLine(words: string): DraftLine {
  const bake = `note ${quoted(words)}`;
  return readsAs('steps', bake)?.kind === 'property' ? { bake } : { comment: words };
}

/** A line of a formula's head, or its words as a comment. */
export function headLine(kind: 'formula' | 'dish', bake: string, words: string): DraftLine {
  const node = readsAs(kind === 'formula' ? 'formula "x"' : 'dish "x"', bake);
  return node?.kind === 'property' || node?.kind === 'makes' ? { bake } : { comment: words };
}
