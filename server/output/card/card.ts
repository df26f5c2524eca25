/** From a formula and its timeline to its method card. */
import { declarationOf, LOCAL_RULES, nutritionOf, type Declared } from '../../core/facts';
import { LAW_WORDS } from '../../core/facts/law-words';
import type { PropertyKey } from '../../../grammar';
import type { HoursOff, Timeline } from '../../core/timeline/model';
import type { MeasureSystem } from '../../core/units/volume';
import { plural, singular } from '../../core/scaling/nouns';
import { titleOf, type FormulaEntry } from '../entry';
import { allergenFacts } from '../facts/allergens';
import { cautionsOf } from '../facts/cautions';
import { lackingWords, nutritionTable } from '../facts/nutrition';
import { whyUnknown } from '../facts/unknown';
import type { Fact } from '../facts/words';
import { decimals, percent, UNKNOWN, weight } from '../numbers';
import { tinWords } from '../tin';
import { printable } from '../width';
import { degrees, inBothScales } from './degrees';
import { homeMeasureNote } from './home-measure';
import { besidesOf, cardParts, totalFormula } from './ingredients';
import { methodOf } from './method';
import type { Card, Span } from './model';
import { partsAsMade } from './order';
import { timelineWords, usualDay } from './when';

export interface CardInput {
  readonly entry: FormulaEntry;
  /** The timeline by a time that somebody asked for; undefined where nobody did, and where none can be. */
  readonly timeline?: Extract<Timeline, { readonly kind: 'placed' }> | undefined;
  /** When nobody works, for the times of day where no time was asked for; the usual night where it is left out. */
  readonly hoursOff?: readonly HoursOff[] | undefined;
  /** Whose spoons and cups. */
  readonly measures: MeasureSystem;
}

/** Never throws on an unfinished formula: what cannot be known is left out, or said to be not known. */
export function cardOf({ entry, timeline: asked, hoursOff, measures }: CardInput): Card {
  const { formula, label = {} } = entry;
  const timeline = asked ?? usualDay(formula, hoursOff);
  const order = partsAsMade(formula, timeline);
  const parts = cardParts({ entry, measures }, order);
  const besides = besidesOf({ entry, measures });
  const declared = declarationOf(formula, label.allergens ?? 'both');
  return {
    title: printable(titleOf(formula)),
    yield: yieldWords(entry),
    size: entry.factor === undefined ? undefined : `${decimals(entry.factor, 3)} times the size written`,
    unknown: formula.parts.length === 0 ? undefined : printable(whyUnknown(entry) ?? '') || undefined,
    figures: figuresOf(entry),
    parts,
    total: totalFormula({ entry, measures }),
    besides,
    homeNote: [...parts.flatMap(({ lines }) => lines), ...besides].some(({ home }) => home !== undefined) ? homeMeasureNote(measures) : undefined,
    method: methodOf(entry, timeline, asked !== undefined, order),
    timeline: timelineWords(formula, timeline, asked !== undefined),
    ingredients: declared.length === 0 ? undefined : joined(declared),
    allergens: (allergenFacts(formula, label.allergens ?? 'both')?.facts ?? []).map((fact) => ({ label: ALLERGEN_LABELS[fact.label] ?? fact.label, value: printable(fact.value) })),
    cautions: cautionsOf(formula, asked).map(({ text }) => inBothScales(printable(text))),
    localRules: LOCAL_RULES,
    nutrition: foodFacts(entry),
    notes: textsOf(entry, 'note'),
    credits: [
      ...(entry.section.variant === undefined ? [] : [`A variant of ${printable(entry.section.variant.base.name)}`]),
      ...textsOf(entry, 'author').map((author) => `By ${author}`),
      ...textsOf(entry, 'source').map((source) => `From ${source}`),
      ...textsOf(entry, 'version').map((version) => `Version ${version}`),
    ],
  };
}

const ALLERGEN_LABELS: Readonly<Record<string, string>> = { EU: 'Allergens, EU list', US: 'Allergens, US list', 'check the label': 'Check the packet for', 'not known': 'Not known' };

/** Where nothing of it is known there is no table of dashes, and why is said. */
function foodFacts(entry: FormulaEntry): Card['nutrition'] {
  const table = nutritionTable(entry, { rounding: entry.label?.labelRounding ?? 'none' });
  if (table === undefined) return undefined;
  const { columns, figures, notes } = table;
  if (figures.some(({ values }) => values.some((value) => value !== UNKNOWN))) return { columns: columns.map(printable), figures, notes: notes.map(printable) };
  const found = nutritionOf(entry.formula, entry.totals, entry.sheet);
  return { columns: [], figures: [], notes: found === null ? [] : lackingWords(found).map(printable) };
}

/** The texts of all lines of a key: `note`, `author`, … Records have notes of their own, of one bake. */
export function textsOf({ section: { blocks } }: Pick<FormulaEntry, 'section'>, key: PropertyKey): readonly string[] {
  return blocks.filter(({ head }) => head.node.kind !== 'record').flatMap(({ lines }) => lines).flatMap(({ node }) => (
    node.kind === 'property' && node.key === key && node.value.kind === 'text' ? [printable(node.value.text.text).trim()] : []
  )).filter((text) => text !== '');
}

/** `4 loaves of 855 g` */
export function piecesWords({ formula: { yield: made }, factor }: FormulaEntry): string | undefined {
  const tin = tinWords(made);
  if (made.pieces === null) return tin === undefined ? undefined : `a tin of ${tin}`;
  const word = factor === undefined ? made.noun : made.pieces === 1 ? singular(made.noun) : plural(made.noun);
  const each = tin ?? (made.pieceGrams === null ? undefined : weight(made.pieceGrams));
  return printable(`${decimals(made.pieces, 2)} ${word}${each === undefined ? '' : ` of ${each}`}`);
}

function yieldWords(entry: FormulaEntry): string {
  const { formula, totals } = entry;
  const baked = formula.yield.bakedPieceGrams;
  const isBaked = formula.kind === 'formula' && formula.yield.pieces !== null && baked !== null && formula.ovenLossSaid;
  return [
    piecesWords(entry) ?? (formula.kind === 'formula' && totals.dough_g !== null ? `${weight(totals.dough_g)} of dough` : ''),
    isBaked ? `about ${weight(baked)} each once baked` : '',
    formula.serves === null ? '' : `serves ${decimals(formula.serves, 1)}`,
    printable(formula.styles.map(({ text }) => text).join(', ')),
  ].filter((words) => words !== '').join(' · ');
}

function figuresOf({ formula, totals }: FormulaEntry): readonly Fact[] {
  if (formula.kind === 'dish') return [];
  const wanted = formula.dough === undefined ? null : (formula.parts[formula.dough]?.desiredCelsius ?? null);
  // Of a dough that milk, eggs and butter make wet, or that dry things drink from.
  const differs = (a: number | null, b: number | null): boolean => a !== null && b !== null && Math.abs(a - b) >= 2;
  const share = (label: string, value: number | null): readonly Fact[] => (value === null || value < 0.05 ? [] : [{ label, value: `${percent(value)} %` }]);
  return [
    ...(totals.flour_g === null ? [] : [{ label: 'Flour in all', value: weight(totals.flour_g) }]),
    ...(totals.dough_g === null ? [] : [{ label: 'Dough', value: weight(totals.dough_g) }]),
    ...share('Hydration', totals.hydration_pct),
    ...(differs(totals.effective_hydration_pct, totals.hydration_pct) ? share('Effective hydration', totals.effective_hydration_pct) : []),
    ...share('Salt', totals.salt_pct),
    ...share('Fermented ahead', totals.prefermented_flour_pct),
    ...share('Inclusions', totals.inclusions_pct),
    ...(wanted === null ? [] : [{ label: 'Dough out of the mixer', value: degrees(wanted) }]),
  ];
}

// --- the ingredients in the order of a label --------------------------------------------------------------------------

function joined(list: readonly Declared[]): readonly Span[] {
  return list.flatMap((one, at) => [...(at === 0 ? [] : [{ text: ', ', strong: false }]), ...spansOf(one)]);
}

function spansOf({ name, text, allergens, inside }: Declared): readonly Span[] {
  if (inside.length === 0) return setOff(printable(text), allergens);
  return [{ text: `${printable(name)} (`, strong: false }, ...joined(inside), { text: ')', strong: false }];
}

/** The words that the law wants set off, which stand in capitals already; what else its author wrote in capitals is left alone. */
function setOff(text: string, allergens: readonly string[]): readonly Span[] {
  const strong = allergens.flatMap((word) => {
    const said = Object.values(LAW_WORDS).find((law) => law.word === word)?.said.source ?? '(?!)';
    // In full where it stands so, as behind a name; else the word of the name that says it.
    const inFull = matches(text, `\\b${word.replace(/[^\p{L}\p{N}\s]/gu, '\\$&')}\\b`);
    return inFull.length > 0 ? inFull : matches(text, said);
  });
  const spans: Span[] = [];
  let at = 0;
  for (const [start, end] of [...strong].sort((a, b) => a[0] - b[0] || b[1] - a[1])) {
    if (start < at) continue;
    if (start > at) spans.push({ text: text.slice(at, start), strong: false });
    spans.push({ text: text.slice(start, end), strong: true });
    at = end;
  }
  return at < text.length ? [...spans, { text: text.slice(at), strong: false }] : spans;
}

function matches(text: string, pattern: string): readonly (readonly [start: number, end: number])[] {
  return [...text.matchAll(new RegExp(pattern, 'gi'))].filter(([found]) => found === found.toUpperCase())
    .map((match) => [match.index, match.index + match[0].length] as const);
}
