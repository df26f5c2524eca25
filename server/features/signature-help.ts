/** The shape of the line that is being written, and which of its places the cursor is at. Nothing in comments and notes. */
import type { SignatureHelp, SignatureHelpContext } from 'vscode-languageserver';
import { BLOCK_WORDS, LINE_WORDS, PROPERTY_WORDS, STEP_WORDS } from '../../grammar';
import type { BlockKind, LineWord, VocabularyWord } from '../../grammar';
import type { ProjectFile } from '../project/file';
import { cursorAt } from './shared/cursor';
import type { Cursor } from './shared/cursor';
import { deltaSlots, headSlots, ingredientSlots, propertySlots, stepSlots } from './shared/signatures';
import type { Slot } from './shared/signatures';
import { SignatureHelpTriggerKind } from './shared/protocol';

export function signatureHelpAt(file: ProjectFile, offset: number, context?: SignatureHelpContext): SignatureHelp | undefined {
  const cursor = cursorAt(file, offset);
  if (cursor === undefined || cursor.inComment || isBroken(cursor)) return undefined;
  const form = cursor.indented ? lineForm(cursor) : headForm(cursor.before);
  if (form === undefined) return undefined;
  const at = activeOf(form.slots, cursor.before);
  const active = form.slots[at];
  if (active === undefined || inNote(active, cursor.before)) return undefined;
  // A space inside a name is no question: only where a place has just begun is one answered that nobody asked.
  const isTyped = context?.triggerKind === SignatureHelpTriggerKind.TriggerCharacter && !context.isRetrigger;
  if (isTyped && at === activeOf(form.slots, cursor.before.slice(0, -1)) && cursor.before !== '') return undefined;
  const lead = form.word === '' ? '' : `${form.word} `;
  let label = lead;
  const parameters = form.slots.map(slot => {
    const start = label.length + (label === lead || slot.label.startsWith('[,') ? 0 : 1);
    label = label.padEnd(start) + slot.label;
    return { label: [start, label.length] as [number, number], documentation: slot.doc };
  });
  return { signatures: [{ label, documentation: form.doc, parameters, activeParameter: at }], activeSignature: 0, activeParameter: at };
}

interface Form {
  /** The word that opens the line; '' for an ingredient line. */
  readonly word: string;
  readonly doc: string;
  readonly slots: readonly Slot[];
}

/** The last place that has begun; -1 before the first. */
function activeOf(slots: readonly Slot[], before: string): number {
  return slots.findLastIndex(({ begins }) => begins.test(before));
}

/** A note is the baker's own; its comma still shows that one may follow. */
function inNote(slot: Slot, before: string): boolean {
  return (slot.label === '[, note]' && /,\s*\S/.test(before)) || slot.label === 'words';
}

/** A quote that nobody closed swallows the rest: only where it may stand for a name is it still known what is meant. */
function isBroken({ quoted, before }: Cursor): boolean {
  return quoted !== undefined && /,[^"“„«]*["“„«][^"“„«]*$/.test(before);
}

function headForm(before: string): Form | undefined {
  const word = openedBy(BLOCK_WORDS, before);
  const slots = word === undefined ? [] : headSlots(word.label);
  return word === undefined || slots.length === 0 ? undefined : { word: word.label, doc: word.doc, slots };
}

function lineForm({ before, block }: Cursor): Form | undefined {
  const kind = block?.block.head.node.kind;
  if (kind === undefined || kind === 'use' || kind === 'unknown' || kind === 'none') return undefined;
  if ((kind === 'part' || kind === 'dish') && /^(?:[\d.¼½¾⅓⅔⅛]|(?:all|pinch|a pinch)\s)/i.test(before)) {
    return { word: '', doc: 'An ingredient: how much of what.', slots: ingredientSlots() };
  }
  const known = (words: readonly VocabularyWord[]): VocabularyWord | undefined => openedBy(words.filter(({ allowedIn }) => allowedIn.includes(kind)), before);
  const property = known(PROPERTY_WORDS);
  if (property !== undefined) return { word: property.label, doc: property.doc, slots: propertySlotsOf(property.label, kind) };
  const line = known(LINE_WORDS);
  if (line !== undefined) return { word: line.label, doc: line.doc, slots: lineSlots(line.label, kind) };
  const step = known(STEP_WORDS);
  return step && { word: step.label, doc: step.doc, slots: stepSlots(step.label) };
}

function propertySlotsOf(label: string, kind: BlockKind): readonly Slot[] {
  const key = PROPERTY_WORDS.find(word => word.label === label)?.label;
  return key === undefined ? [] : propertySlots(key, kind);
}

function lineSlots(label: string, kind: BlockKind): readonly Slot[] {
  const word: LineWord | undefined = LINE_WORDS.find(one => one.label === label)?.label;
  switch (word) {
    case undefined:
      return [];
    case 'makes':
    case 'uses':
      return propertySlots(word, kind);
    case 'based on':
    case 'swap':
    case 'set':
    case 'add':
    case 'drop':
      return deltaSlots(word);
  }
}

/** The word or words that open a line, with a space behind them; the longest where several do. */
function openedBy<W extends VocabularyWord>(words: readonly W[], before: string): W | undefined {
  const typed = before.toLowerCase().replace(/\s+/g, ' ');
  return words.filter(({ label }) => typed.startsWith(`${label} `)).sort((a, b) => b.label.length - a.label.length)[0];
}
