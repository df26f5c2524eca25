/** What could be written at the cursor. Nothing in comments, notes and names that are being made up. */
import type { CompletionItem } from 'vscode-languageserver';
import { BLOCK_WORDS, isPartWord, ROLES, VOCABULARY } from '../../grammar';
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
const ASKS = /(?:^|[\s\d])(?:all|as|at|of|like|role|contains|in|per|swap|set|drop|based on|add|accept|g|kg|mg|oz|lb|ml|l|tsp|tbsp|cups?|%|pinch)\s$|,\s$|^(?:ready|start)\s+\S+\s+\S+\s$|^(?:asleep|away)\s.*\son\s$/i;

export function completionsAt(file: ProjectFile, offset: number, options: CompletionOptions): CompletionItem[] {
  const cursor = cursorAt(file, offset);
  if (cursor === undefined || (options.trigger === ' ' && !ASKS.test(cursor.before))) return [];
  if (cursor.quoted !== undefined && opensName(openingOf(cursor.before, cursor.quoted))) {
    const named = new Items(file, cursor, options, true);
    if (cursor.block !== undefined && cursor.indented) inBlock(named, withoutQuote(cursor, cursor.quoted), cursor.block.block.head.node);
    return named.list();
  }
  const items = new Items(file, cursor, options);
  if (cursor.inComment) inComment(items, cursor.before);
  else if (cursor.quoted !== undefined) inQuotes(items, cursor);
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

/** Whether a quote behind this text begins the name of an ingredient or a part. */
function opensName(opening: string): boolean {
  return NAME_FOLLOWS.test(opening) || afterAmount(opening.replace(/^add\s+/i, '')) === '';
}

const NAME_FOLLOWS = /^(?:all|like|swap|set|drop)\s+$|^swap\s.*\sfor\s+$|^(?:swap|set|add|drop)\s.*\sin\s+$|,\s*add\s+(?:[^,]*\sof\s+)?$/i;

/** The line as if its open quote were not there. */
function withoutQuote(cursor: Cursor, quoted: string): Cursor {
  return { ...cursor, before: openingOf(cursor.before, quoted) + quoted, quoted: undefined };
}

/** In `# accept` the names of checks; in any other comment nothing. */
function inComment(items: Items, before: string): void {
  const accepted = /#\s*accept\s+(?:[a-z0-9-]+\s*,\s*)*([a-z0-9-]*)$/i.exec(before);
  if (accepted !== null) items.codes(accepted[1] ?? '');
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
  else if (/^based on\s*$/i.test(opening) || /^uses\s+[^",]*$/i.test(opening)) items.formulas(quoted, true);
  else if (/^(bake|make)\s+\S.*$/i.test(opening) && !opening.includes('"')) items.formulas(quoted, true, firstFor(opening));
}

function firstColumn(items: Items, { before }: Cursor): void {
  const desired = /^(\p{L}+(?: \p{L}+)?)\b.*\sat\s+(\S*)$/iu.exec(before);
  if (desired !== null && isPart(desired[1] ?? '')) return items.temperatures(desired[2] ?? '', '25 C');
  // Behind a whole word only what goes on with it: `old dough`, `total formula`.
  if (/^\p{L}*$/u.test(before) || BLOCK_WORDS.some(({ label }) => label.startsWith(before.toLowerCase()))) items.blocks(before);
}

/** `dough`, `old dough`; `levain at` begins with one. */
function isPart(words: string): boolean {
  const typed = words.toLowerCase();
  return isPartWord(typed) || isPartWord(typed.split(' ')[0] ?? '');
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
    if (of === null) items.portions(whole);
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
  const made = /^makes\s+[\d.]+\s+(\p{L}*)$/iu.exec(before);
  if (made !== null) {
    items.plain(made[1] ?? '', ['loaves', 'rolls', 'buns', 'pieces', 'tins'], 'How many pieces there are.');
    return items.units(made[1] ?? '', ['kg', 'g']);
  }
  const weight = /^makes\s+[\d.]+\s+\p{L}+\s+of\s+[\d.]+\s+(\S*)$/iu.exec(before);
  if (weight !== null) return items.units(weight[1] ?? '', ['g', 'kg', 'l', 'ml']);
  const height = /^altitude\s+[\d.]+\s+(\S*)$/i.exec(before);
  if (height !== null) return items.plain(height[1] ?? '', ['m', 'ft'], 'Above the sea.');
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
  if (/^(?:water|protein|fat|sugar|salt|fibre)\s+[\d.]+\s*$/i.test(before)) return items.units('', ['%']);
  const per = /^(costs|density)\s.*\sper\s+(\S*)$/i.exec(before);
  if (per !== null) return items.units(per[2] ?? '', per[1]?.toLowerCase() === 'costs' ? ['kg', 'g', 'l', 'ml', 'lb', 'oz'] : ['ml', 'l', 'cup', 'tbsp', 'tsp']);
  const unit = /^costs\s+[\d.]+\s+\p{Lu}{3}\s+(\p{L}*)$/iu.exec(before);
  if (unit !== null) return items.plain(unit[1] ?? '', ['per kg', 'per l', 'each'], 'How much that price buys.');
  const currency = /^costs\s+[\d.]+\s+(\p{L}*)$/iu.exec(before);
  if (currency !== null) return items.currencies(currency[1] ?? '');
  const weight = /^(?:each|density)\s+[\d.]+\s+(\p{L}*)$/iu.exec(before);
  if (weight !== null) return items.units(weight[1] ?? '', ['g', 'oz']);
  const times = /^absorbs\s+[\d.]+\s+([\p{L} ]*)$/iu.exec(before);
  if (times !== null) return items.plain(times[1] ?? '', ['times its weight'], 'Of water.');
  if (isOpening(before, 'ingredient')) items.words(before, 'ingredient', ['property']);
}

function inRecord(items: Items, before: string): void {
  const degrees = /^(?:room|dough|core)\s+[\d.]+\s+(\S*)$/i.exec(before);
  if (degrees !== null) return items.units(degrees[1] ?? '', ['C', 'F']);
  if (isOpening(before, 'record')) return items.words(before, 'record', ['property', 'step']);
  inSteps(items, before, 'record');
}

function inPlan(items: Items, before: string): void {
  const order = /^(?:bake|make)\s+[^,"]*\sof\s+(.*)$/i.exec(before);
  if (order !== null) return items.formulas(order[1] ?? '', false, firstFor(before));
  const counted = /^(?:bake|make)\s+[\d.]+\s+([^",]*)$/i.exec(before);
  if (counted !== null) return items.formulas(counted[1] ?? '', false, firstFor(before));
  const zone = /^(?:ready|start)\s+\S+\s+\d{1,2}:\d{2}\s+(\S*)$/i.exec(before);
  if (zone !== null) return items.zones(zone[1] ?? '');
  const day = /^(?:asleep|away)\s.*\s(?:on|to|and)\s+(?:.*,\s*)?(\p{L}*)$/iu.exec(before);
  if (day !== null && /\son\s/i.test(before)) return items.plain(day[1] ?? '', WEEK, 'A day on which it begins.');
  const degrees = /^room\s+[\d.]+\s+(\S*)$/i.exec(before);
  if (degrees !== null) return items.units(degrees[1] ?? '', ['C', 'F']);
  const holds = /^(?:oven|fridge|mixer)\s+(?:"[^"]*"\s+)?(\p{L}*)$/iu.exec(before);
  if (holds !== null) return items.plain(holds[1] ?? '', ['holds'], 'How much goes in at once.');
  if (isOpening(before, 'plan')) items.words(before, 'plan', ['property']);
}

const WEEK = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

/** What an order is likely for. */
function firstFor(before: string): 'formula' | 'dish' {
  return /^make/i.test(before) ? 'dish' : 'formula';
}
