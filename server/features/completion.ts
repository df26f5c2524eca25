/** What could be written at the cursor. Nothing in comments, notes and names that are being made up. */
import type { CompletionItem } from 'vscode-languageserver';
import { ROLES, VOCABULARY } from '../../grammar';
import type { BlockKind, Head } from '../../grammar';
import { STYLES } from '../core/checks/limits';
import { EU_ALLERGENS } from '../core/ingredients/allergens';
import type { ProjectFile } from '../project/file';
import { Items } from './shared/completion-items';
import type { CompletionOptions } from './shared/completion-items';
import { afterAmount, afterNumber, cursorAt } from './shared/cursor';
import type { Cursor } from './shared/cursor';
import { compositionWords } from './shared/ingredients';

export type { CompletionOptions };

/** A space after one of these is worth an answer that nobody asked for; after any other word it would be in the way. */
const ASKS = /(?:^|[\s\d])(?:all|as|at|of|like|role|contains|in|swap|set|drop|based on|add|g|kg|mg|oz|lb|ml|l|tsp|tbsp|cups?|%|pinch)\s$|,\s$/i;

export function completionsAt(file: ProjectFile, offset: number, options: CompletionOptions): CompletionItem[] {
  const cursor = cursorAt(file, offset);
  if (cursor === undefined || cursor.inComment || (options.trigger === ' ' && !ASKS.test(cursor.before))) return [];
  const items = new Items(file, cursor, options);
  if (cursor.quoted !== undefined) inQuotes(items, cursor);
  else if (!cursor.indented) firstColumn(items, cursor);
  else if (cursor.block !== undefined) inBlock(items, cursor, cursor.block.block.head.node);
  return items.list();
}

/** Whether the cursor stands where the path of another file goes: looking for files costs something. */
export function asksForPath(file: ProjectFile, offset: number): boolean {
  const cursor = cursorAt(file, offset);
  return cursor?.quoted !== undefined && USE.test(openingOf(cursor.before, cursor.quoted));
}

const USE = /^use\s*$/i;

/** What stands before the quote that is open. */
function openingOf(before: string, quoted: string): string {
  return before.slice(0, before.length - quoted.length - 1);
}

/** Adds what is too long to send for every item: the composition of an ingredient. */
export function resolvedCompletion(file: ProjectFile, item: CompletionItem): CompletionItem {
  const name = ingredientNameIn(item.data);
  const ingredient = name === undefined ? undefined : file.environment.catalogue.find(name);
  return ingredient === undefined ? item : { ...item, documentation: { kind: 'markdown', value: compositionWords(ingredient) } };
}

function ingredientNameIn(data: unknown): string | undefined {
  if (typeof data !== 'object' || data === null || !('ingredient' in data)) return undefined;
  return typeof data.ingredient === 'string' ? data.ingredient : undefined;
}

function inQuotes(items: Items, { before, quoted = '' }: Cursor): void {
  const opening = openingOf(before, quoted);
  if (USE.test(opening)) items.paths(quoted);
  else if (/^based on\s*$/.test(opening) || /^uses\b.*\sof\s*$/.test(opening) || /^uses\b.*\s\S+\s*$/.test(opening)) items.formulas(quoted, true);
  else if (/^bake\b.*\sof\s*$/.test(opening)) items.formulas(quoted, true);
}

function firstColumn(items: Items, { before }: Cursor): void {
  const desired = /^(?:dough|batter|total formula)\b.*\sat\s+(\S*)$/i.exec(before);
  if (desired !== null) return items.temperatures(desired[1] ?? '', '25 C');
  if (/^[\p{L} ]*$/u.test(before)) items.blocks(before);
}

function inBlock(items: Items, cursor: Cursor, head: Head): void {
  switch (head.kind) {
    case 'part': return inPart(items, cursor, 'part');
    case 'steps': return inSteps(items, cursor.before, 'steps');
    case 'formula': return inFormula(items, cursor.before);
    case 'dish': return inDish(items, cursor);
    case 'ingredient': return inIngredient(items, cursor.before);
    case 'record': return inRecord(items, cursor.before);
    case 'plan': return inPlan(items, cursor.before);
    case 'use':
    case 'unknown':
    case 'none':
      return;
  }
}

/** An ingredient line, or a step or property of the part. */
function inPart(items: Items, cursor: Cursor, block: BlockKind): void {
  const { before } = cursor;
  const all = /^all\s+(.*)$/i.exec(before);
  if (all !== null) return items.parts(all[1] ?? '');
  const rest = afterAmount(before);
  if (rest !== undefined) return afterAnAmount(items, rest);
  const unit = afterNumber(before);
  if (unit !== undefined) {
    items.units(unit, ['g', 'kg', '%', 'ml', 'l', 'tsp', 'tbsp', 'cup', 'fl oz', 'oz', 'lb', 'mg']);
    if (/\s$/.test(before.slice(0, before.length - unit.length))) items.counted(unit);
    return;
  }
  if (/^\p{L}*(?: \p{L}*)?$/u.test(before) && isOpening(before, block)) {
    items.words(before, block, ['property', 'line', 'step']);
    items.word(before, 'all', block);
    items.word(before, 'pinch', block);
    return;
  }
  inSteps(items, before, block);
}

function afterAnAmount(items: Items, rest: string): void {
  if (rest.includes(',')) return; // a note
  const as = /(?:^|\s)as\s+(\S*)$/i.exec(rest);
  if (as !== null) return items.roles(as[1] ?? '');
  const at = /\sat\s+(\S*)$/i.exec(rest);
  if (at !== null) return items.temperatures(at[1] ?? '', '28 C');
  const purpose = /\sfor\s+([\p{L} ]*)$/iu.exec(rest);
  if (purpose !== null) return items.plain(purpose[1] ?? '', ['dusting', 'the pan', 'the top'], 'Kept out of the dough’s totals.');
  if (/^%?\s*of flour in\s/i.test(rest) || /^of flour in\s/i.test(rest)) return items.parts(rest.replace(/^%?\s*of flour in\s+/i, ''));
  items.parts(rest);
  items.ingredients(rest);
}

/** The line so far may still become a word that opens one. */
function isOpening(before: string, block: BlockKind): boolean {
  const typed = before.toLowerCase();
  return VOCABULARY.some(({ label, kind, allowedIn }) => kind !== 'detail' && allowedIn.includes(block) && label.startsWith(typed));
}

function inSteps(items: Items, before: string, block: BlockKind): void {
  if (isOpening(before, block)) return items.words(before, block, ['step']);
  const detail = /,\s*([^,]*)$/.exec(before);
  if (detail !== null) return inDetail(items, detail[1] ?? '');
  const temperature = /\sat\s+(\S*)$/i.exec(before);
  if (temperature !== null) return items.temperatures(temperature[1] ?? '', '24 C');
  const degrees = /\sat\s+[\d.]+\s+(\p{L}*)$/iu.exec(before);
  if (degrees !== null) return items.units(degrees[1] ?? '', /fold|laminate/i.test(before) ? ['min', 'h'] : ['C', 'F', 'min', 'h']);
  const time = /\s[\d./]+\s+(\p{L}*)$/iu.exec(before);
  if (time !== null) return items.units(time[1] ?? '', ['min', 'h', 'd', 's']);
}

function inDetail(items: Items, typed: string): void {
  const added = /^add\s+(.*)$/i.exec(typed);
  if (added !== null) {
    const whole = added[1] ?? '';
    const of = /^(?:half|rest|[\d.]+\s*(?:%|\S+)|[½¼¾⅓⅔])\s+of\s+(.*)$/i.exec(whole);
    if (of === null) items.plain(whole, ['half of', 'rest of'], 'A portion; the portions must come to the whole.');
    return items.weighedIn(of?.[1] ?? whole);
  }
  const degrees = /^until core\s+[\d.]+\s+(\S*)$/i.exec(typed);
  if (degrees !== null) return items.units(degrees[1] ?? '', ['C', 'F']);
  const volume = /^until volume\s+[\d.]+\s+(\S*)$/i.exec(typed);
  if (volume !== null) return items.units(volume[1] ?? '', ['%']);
  if (/^[\p{L} ]*$/u.test(typed)) items.details(typed);
}

function inFormula(items: Items, before: string): void {
  const style = /^style\s+(?:.*,\s*)?([^,]*)$/i.exec(before);
  if (style !== null) return items.plain(style[1] ?? '', STYLES, 'A style that limits of the checks depend on.');
  const based = /^based on\s+(.*)$/i.exec(before);
  if (based !== null) return items.formulas(based[1] ?? '', false);
  const within = /\sin\s+([^,]*)$/i.exec(before);
  if (within !== null && /^(?:swap|set|add|drop)\s/i.test(before)) return items.baseParts(within[1] ?? '');
  const swapped = /^swap\s+.*\sfor\s+(.*)$/i.exec(before);
  if (swapped !== null) return items.ingredients(swapped[1] ?? '');
  const changed = /^(?:swap|set|drop)\s+(.*)$/i.exec(before);
  if (changed !== null) return items.baseLines(changed[1] ?? '');
  const added = /^add\s+(.*)$/i.exec(before);
  if (added !== null) {
    const rest = afterAmount(added[1] ?? '');
    if (rest !== undefined) return afterAnAmount(items, rest);
    const unit = afterNumber(added[1] ?? '');
    return unit === undefined ? undefined : items.units(unit, ['g', '%', 'kg', 'ml', 'tsp', 'tbsp']);
  }
  const where = /^loses\s+[\d.]+\s*%\s+(.*)$/i.exec(before);
  if (where !== null) return items.plain(where[1] ?? '', ['in the oven', 'at the bench'], 'Where the weight is lost.');
  const degrees = /^(?:room|fridge|flour|friction)\s+[\d.]+\s+(\S*)$/i.exec(before);
  if (degrees !== null) return items.units(degrees[1] ?? '', ['C', 'F']);
  if (isOpening(before, 'formula')) items.words(before, 'formula', ['property', 'line']);
}

function inDish(items: Items, cursor: Cursor): void {
  const { before } = cursor;
  const used = /^uses\s+.*\sof\s+(.*)$/i.exec(before);
  if (used !== null) return items.formulas(used[1] ?? '', false);
  if (isOpening(before, 'dish')) return items.words(before, 'dish', ['property', 'line']);
  if (/^[\d¼½¾⅓⅔⅛]/.test(before) || /^all\s/i.test(before)) inPart(items, cursor, 'part');
}

function inIngredient(items: Items, before: string): void {
  const like = /^like\s+(.*)$/i.exec(before);
  if (like !== null) return items.ingredients(like[1] ?? '');
  const role = /^role\s+(\S*)$/i.exec(before);
  if (role !== null) return items.plain(role[1] ?? '', ROLES, 'A role.');
  const allergen = /^contains\s+(?:.*,\s*)?([^,]*)$/i.exec(before);
  if (allergen !== null) return items.plain(allergen[1] ?? '', [...EU_ALLERGENS.map(known => known.label), 'nothing'], 'An allergen.');
  const share = /^(?:water|protein|fat|sugar|salt|fibre)\s+[\d.]+\s*$/i.exec(before);
  if (share !== null) return items.units('', ['%']);
  if (isOpening(before, 'ingredient')) items.words(before, 'ingredient', ['property']);
}

function inRecord(items: Items, before: string): void {
  const degrees = /^(?:room|dough|core)\s+[\d.]+\s+(\S*)$/i.exec(before);
  if (degrees !== null) return items.units(degrees[1] ?? '', ['C', 'F']);
  if (isOpening(before, 'record')) return items.words(before, 'record', ['property', 'step']);
  inSteps(items, before, 'record');
}

function inPlan(items: Items, before: string): void {
  const order = /^bake\s+.*\sof\s+(.*)$/i.exec(before);
  if (order !== null) return items.formulas(order[1] ?? '', false);
  if (isOpening(before, 'plan')) items.words(before, 'plan', ['property']);
}

