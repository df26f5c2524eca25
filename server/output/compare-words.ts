/** Changes in a baker's words: what each is about, what it was and is, and under which heading it stands. */
import type { Change, Fact, SectionChanges } from '../core/compare';
import { allergenLabels } from '../core/ingredients/allergens';
import { celsius, decimals, grams, percent, UNKNOWN, weight } from './numbers';
import { printable } from './width';

/** One change as a line of a list. */
export interface ToldChange {
  /** What it is about: an ingredient, a step, a property. */
  readonly name: string;
  readonly words: string;
}

/** Changes under one heading; of what is weighed and done in a part, the part's name. */
export interface ToldGroup {
  readonly title: string;
  readonly changes: readonly ToldChange[];
}

export interface ToldTotal {
  readonly name: string;
  readonly before: string;
  readonly after: string;
}

/** A formula, or another section, with everything that is told of it; plain text, safe to print. */
export interface ToldSection {
  /** `Country loaf`, `plan "Market"` */
  readonly title: string;
  /** `new`, `called "Rye" before`, `the same formula × 1.5`: what is told of the whole. */
  readonly whole: readonly string[];
  /** `gained: nuts (walnut), from walnuts` */
  readonly allergens: readonly string[];
  readonly totals: readonly ToldTotal[];
  readonly groups: readonly ToldGroup[];
  readonly findings: readonly { readonly came: boolean; readonly severity: 'error' | 'warning' | 'info'; readonly words: string }[];
  /** How many changes those are. */
  readonly count: number;
}

/** @param lists the allergens of which law are told */
export function toldSection(section: SectionChanges, lists: 'eu' | 'us' | 'both'): ToldSection {
  const { changes } = section;
  const of = (...whats: readonly Change['what'][]): readonly Change[] => changes.filter(({ what }) => whats.includes(what));
  const groups = new Map<string, ToldChange[]>();
  for (const change of changes) {
    const placed = placedWords(change, section.factor);
    if (placed === undefined) continue;
    const group = groups.get(placed.group);
    if (group === undefined) groups.set(placed.group, [placed]);
    else group.push(placed);
  }
  return {
    title: titleOf(section),
    whole: wholeWords(section),
    allergens: allergenWords(section, of('allergen'), lists),
    totals: of('total').map(totalWords),
    groups: [...groups].map(([title, told]) => ({ title: title === HEAD ? headTitle(section) : title, changes: told })),
    findings: of('finding').map(({ before, after }) => ({ came: after !== undefined, severity: (after ?? before)?.severity ?? 'info', words: findingWords(after ?? before) })),
    count: changes.length,
  };
}

function headTitle({ before, after }: SectionChanges): string {
  const kind = (after ?? before)?.kind;
  return kind === 'formula' || kind === 'dish' || kind === 'plan' || kind === 'ingredient' ? `the ${kind}` : 'lines';
}

function titleOf({ before, after }: SectionChanges): string {
  const side = after ?? before;
  const name = printable(side?.name ?? '');
  switch (side?.kind) {
    case 'formula':
    case undefined:
      return name === '' ? 'Formula without a name' : name;
    case 'dish':
      return name === '' ? 'Dish without a name' : name;
    case 'plan':
      return `plan "${name}"`;
    case 'ingredient':
      return `ingredient "${name}"`;
    case 'use':
      return `use "${name}"`;
    case 'stray':
      return 'Lines outside a formula';
  }
}

// --- the whole --------------------------------------------------------------------------------------------------------

function wholeWords({ changes, factor, after: is }: SectionChanges): readonly string[] {
  const isScaledOnly = changes.every(({ what, before, after }) => what === 'scaled' || what === 'property' && before?.name === 'makes' && after?.name === 'makes' || what === 'total' && before?.unit !== '%');
  return changes.flatMap(({ what, before, after }): readonly string[] => {
    switch (what) {
      case 'formula':
      case 'plan':
      case 'own-ingredient':
      case 'use':
      case 'other-lines':
        return [after === undefined ? 'dropped' : `new${after.grams === undefined || after.grams === null ? '' : `, ${weight(after.grams)} of dough`}`];
      case 'formula-name':
        return [`called "${printable(before?.name ?? '')}" before`];
      case 'formula-file':
        return [`moved from ${printable(before?.text ?? '')} to ${printable(after?.text ?? '')}`];
      case 'formula-kind':
        return [`a ${after?.text ?? ''} now, a ${before?.text ?? ''} before`];
      case 'base-missing':
        return [after === undefined
          ? `could not be built on "${printable(before?.name ?? '')}" before: what it held then, allergens too, is not known`
          : `cannot be built on "${printable(after.name)}" now: what it holds, allergens too, is not known`];
      case 'scaled':
        return [`${isScaledOnly ? `the same ${is?.kind === 'dish' ? 'dish' : 'formula'}` : 'everything not listed below'} × ${factorText(factor)}${doughWords(before, after)}`];
      case 'rewritten':
        return [`written another way, the same ${is?.kind === 'formula' || is?.kind === undefined ? 'dough' : is.kind}`];
      case 'layout':
        return ['only layout and comments'];
      default:
        return [];
    }
  });
}

function doughWords(before: Fact | undefined, after: Fact | undefined): string {
  const [was, now] = [before?.grams ?? null, after?.grams ?? null];
  return was === null || now === null ? '' : `: ${weight(was)} → ${weight(now)} of dough`;
}

/** To three figures: `1.5`, `0.333`. */
export function factorText(factor: number): string {
  return String(Number(factor.toPrecision(3)));
}

// --- allergens --------------------------------------------------------------------------------------------------------

/** Those of both lists that are called alike in one line. */
function allergenWords({ before: was, after: is }: SectionChanges, changes: readonly Change[], lists: 'eu' | 'us' | 'both'): readonly string[] {
  // What is dropped as a whole takes its allergens along, and nobody has to know; what is new brings its own.
  if (is === undefined) return [];
  const gained = was === undefined ? 'with the allergens' : 'allergens gained';
  const told = new Map<string, { readonly start: string; readonly label: string; readonly from: string; readonly lists: string[] }>();
  for (const { before, after } of changes) {
    const fact = after ?? before;
    if (fact === undefined || (lists !== 'both' && fact.list !== 'check' && fact.list !== lists)) continue;
    const label = allergenLabels([fact.name], fact.list === 'us' ? 'us' : 'eu')[0] ?? fact.name;
    const start = fact.list === 'check' ? (after === undefined ? 'no longer to check on the label' : 'check the label for') : after === undefined ? 'allergens lost' : gained;
    const from = printable(fact.text ?? '');
    const key = `${start} ${label} ${from}`;
    const known = told.get(key);
    const list = fact.list === 'check' ? [] : [fact.list === 'us' ? 'US' : 'EU'];
    if (known === undefined) told.set(key, { start, label, from, lists: list });
    else known.lists.push(...list);
  }
  return [...told.values()].map(({ start, label, from, lists: on }) => `${start}: ${printable(label)}${on.length === 0 ? '' : ` (${on.join(' and ')} list)`}${from === '' ? '' : `, from ${from}`}`);
}

// --- totals -----------------------------------------------------------------------------------------------------------

const TOTAL_NAMES: Readonly<Record<string, string>> = {
  hydration_pct: 'hydration', salt_pct: 'salt', sugar_pct: 'sugar', fat_pct: 'fat', prefermented_flour_pct: 'prefermented flour', inoculation_pct: 'inoculation',
  inclusions_pct: 'inclusions', flour_g: 'flour in all', dough_g: 'dough', piece_g: 'one piece', pieces: 'pieces', dough_c: 'dough temperature', cost: 'cost',
  cost_per_piece: 'cost of a piece',
};

function totalWords({ before, after }: Change): ToldTotal {
  const [was, is] = apart(before?.value ?? null, after?.value ?? null, (value, digits) => inUnit(value, before ?? after, digits));
  return { name: TOTAL_NAMES[after?.name ?? ''] ?? after?.name ?? '', before: was, after: is };
}

function inUnit(value: number | null, fact: Fact | undefined, digits: number | undefined): string {
  if (value === null) return UNKNOWN;
  switch (fact?.unit) {
    case '%':
      return `${digits === undefined ? percent(value) : decimals(value, digits)} %`;
    case 'g':
      return digits === undefined ? weight(value) : `${decimals(value, digits)} g`;
    case 'C':
      return digits === undefined ? celsius(value) : `${decimals(value, digits)} °C`;
    case 'money':
      return `${value.toFixed(2)}${fact.currency === undefined ? '' : ` ${fact.currency}`}`;
    case 'pieces':
    case undefined:
      return decimals(value, digits ?? 2);
  }
}

/** Two numbers as they are printed elsewhere, or with as many digits more as it takes to see them apart. */
function apart(before: number | null, after: number | null, write: (value: number | null, digits: number | undefined) => string): readonly [string, string] {
  for (const digits of [undefined, 1, 2, 3]) {
    const [was, is] = [write(before, digits), write(after, digits)];
    if (was !== is) return [was, is];
  }
  return [write(before, undefined), write(after, undefined)];
}

// --- what is weighed and done -----------------------------------------------------------------------------------------

interface PlacedWords extends ToldChange {
  readonly group: string;
}

/** Between what was and what is. */
const ARROW = ' → ';
const METHOD = 'steps';
/** Stands for whatever the section is. */
const HEAD = ' ';

function placedWords({ what, before, after }: Change, factor: number): PlacedWords | undefined {
  const fact = after ?? before;
  if (fact === undefined) return undefined;
  const name = printable(fact.name);
  const part = fact.part === undefined ? undefined : printable(fact.part);
  const came = before === undefined;
  const gone = after === undefined;
  const inPart = (words: string, of = name): PlacedWords => ({ group: part ?? HEAD, name: of, words });
  const step = (words: string): PlacedWords => ({ group: part ?? METHOD, name, words });
  const [was, is] = [printable(before?.text ?? ''), printable(after?.text ?? '')];
  switch (what) {
    case 'part':
      return inPart(`${came ? 'added' : 'dropped'}, ${weight(fact.grams ?? null)}`, part ?? name);
    case 'part-name':
      return inPart(`called "${name}" now, "${printable(before?.name ?? '')}" before`, name);
    case 'part-kind':
      return inPart(`a ${is} now, a ${was} before`);
    case 'part-scaled':
      return inPart(`${bothGrams(before, after)}, all of it × ${factorText((after?.grams ?? 0) / (before?.grams ?? 1))}`);
    case 'ingredient':
      return inPart(came ? `added, ${amount(after)}` : `dropped, ${amount(before)} before`);
    case 'ingredient-swapped':
      return inPart(`in place of ${printable(before?.name ?? '')}, ${bothAmounts(before, after, factor)}${is === '' || is === was ? '' : `, ${is}`}`);
    case 'ingredient-name':
      return inPart(`called "${printable(before?.name ?? '')}" before`);
    case 'ingredient-moved':
      return inPart(`moved here from ${printable(before?.part ?? '')}, ${bothAmounts(before, after, factor)}`);
    case 'ingredient-detail':
      return inPart(fromTo(was, is));
    case 'amount':
      return inPart(bothAmounts(before, after, undefined));
    case 'amount-rounded': {
      const exact = (before?.grams ?? 0) * factor;
      const off = ((after?.grams ?? 0) / exact - 1) * 100;
      return inPart(`${grams(after?.grams ?? null)} g, rounded from ${decimals(exact, 2)} g: ${decimals(Math.abs(off), 1)} % ${off < 0 ? 'less' : 'more'}`);
    }
    case 'step':
      return step(came ? `added${is === '' ? '' : `, ${is}`}` : `dropped${was === '' ? '' : `, ${was} before`}`);
    case 'step-moved':
      return step(`${is} now, ${was} before`);
    case 'step-time':
    case 'step-temperature':
    case 'step-detail':
      return step(fromTo(was, is));
    case 'property':
      return inPart(came ? `added: ${is}` : gone ? `dropped: ${was}` : `${was}${ARROW}${is}`);
    case 'record': {
      const words = came ? 'added' : gone ? 'dropped' : `changed: ${fromTo(was, is)}`;
      return { group: 'records', name, words };
    }
    case 'scaled':
    case 'formula':
    case 'formula-name':
    case 'formula-file':
    case 'formula-kind':
    case 'base-missing':
    case 'allergen':
    case 'total':
    case 'plan':
    case 'own-ingredient':
    case 'use':
    case 'other-lines':
    case 'finding':
    case 'rewritten':
    case 'layout':
      return undefined;
  }
}

function fromTo(was: string, is: string): string {
  if (was === '') return `added: ${is}`;
  return is === '' ? `dropped: ${was}` : `${was}${ARROW}${is}`;
}

/** `120 g (12 %)`, or the words of an amount that has no weight. */
function amount(fact: Fact | undefined): string {
  if (fact === undefined) return UNKNOWN;
  if (fact.grams === null || fact.grams === undefined) return fact.text === undefined ? 'of unknown weight' : printable(fact.text);
  return `${weight(fact.grams)}${fact.pct === null || fact.pct === undefined ? '' : ` (${percent(fact.pct)} %)`}`;
}

/** `700 g → 720 g (70 → 72 %)`. With a factor, one amount where nothing but the factor lies between them. */
function bothAmounts(before: Fact | undefined, after: Fact | undefined, factor: number | undefined): string {
  const [was, is] = [before?.grams ?? null, after?.grams ?? null];
  if (was === null || is === null) return amount(before) === amount(after) ? amount(after) : `${amount(before)}${ARROW}${amount(after)}`;
  if (factor !== undefined && Math.abs(is - was * factor) < 0.05) return amount(after);
  const [pctBefore, pctAfter] = [before?.pct ?? null, after?.pct ?? null];
  if (pctBefore === null || pctAfter === null) return bothGrams(before, after);
  const [from, to] = apart(pctBefore, pctAfter, (value, digits) => (digits === undefined ? percent(value) : decimals(value ?? 0, digits)));
  return `${bothGrams(before, after)} (${from === to ? from : `${from}${ARROW}${to}`} %)`;
}

function bothGrams(before: Fact | undefined, after: Fact | undefined): string {
  return apart(before?.grams ?? null, after?.grams ?? null, (value, digits) => (digits === undefined || value === null ? weight(value) : `${decimals(value, digits)} g`)).join(ARROW);
}

function findingWords(fact: Fact | undefined): string {
  return printable(`${fact?.text ?? ''} (${fact?.name ?? ''})`);
}

// --- all of it --------------------------------------------------------------------------------------------------------

/** `1 formula changed, 1 new. Allergens gained: walnuts.` */
export function summaryWords(sections: readonly SectionChanges[], lists: 'eu' | 'us' | 'both'): string {
  if (sections.length === 0) return 'No change.';
  const count = (holds: (section: SectionChanges) => boolean): number => sections.filter(holds).length;
  const isQuiet = ({ changes }: SectionChanges): boolean => changes.every(({ what }) => what === 'layout' || what === 'rewritten');
  const quiet = count(isQuiet);
  if (quiet === sections.length) {
    return sections.some(({ changes }) => changes.some(({ what }) => what === 'rewritten')) ? 'Written another way, the same dough.' : 'Only layout and comments differ.';
  }
  const isFormula = ({ before, after }: SectionChanges): boolean => ['formula', 'dish'].includes((after ?? before)?.kind ?? '');
  const both = (section: SectionChanges): boolean => section.before !== undefined && section.after !== undefined && !isQuiet(section);
  const parts = [
    numbered(count((one) => isFormula(one) && both(one)), 'formula changed', 'formulas changed'),
    numbered(count((one) => isFormula(one) && one.before === undefined), 'formula is new', 'formulas are new'),
    numbered(count((one) => isFormula(one) && one.after === undefined), 'formula was dropped', 'formulas were dropped'),
    numbered(count((one) => !isFormula(one) && !isQuiet(one)), 'other block differs', 'other blocks differ'),
    numbered(quiet, 'differs in layout and wording only', 'differ in layout and wording only'),
  ].filter((words) => words !== '');
  return [`${parts.join(', ')}.`, ...allergenSentences(sections.filter(both), lists)].join(' ');
}

/** `Allergens gained: nuts (walnut).` Of formulas that were there before and still are. */
function allergenSentences(sections: readonly SectionChanges[], lists: 'eu' | 'us' | 'both'): readonly string[] {
  const told = new Map<string, Set<string>>();
  for (const { before, after } of sections.flatMap(({ changes }) => changes.filter(({ what }) => what === 'allergen'))) {
    const fact = after ?? before;
    if (fact === undefined || fact.list === 'check' || (lists !== 'both' && fact.list !== lists)) continue;
    const start = after === undefined ? 'Allergens lost' : 'Allergens gained';
    const labels = told.get(start) ?? new Set<string>();
    labels.add(printable(allergenLabels([fact.name], fact.list === 'us' ? 'us' : 'eu')[0] ?? fact.name));
    told.set(start, labels);
  }
  return [...told].map(([start, labels]) => `${start}: ${[...labels].join(', ')}.`);
}

function numbered(count: number, one: string, many: string): string {
  return count === 0 ? '' : `${String(count)} ${count === 1 ? one : many}`;
}

