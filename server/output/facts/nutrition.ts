/** Nutrition as a short line and as a table, as it is computed or rounded by the rules for labels. */
import {
  euEnergyRounded, euGrams, euSalt, euSaturates, nutritionOf, SLICE_GRAMS, usCalories, usFat, usGrams, usSodium, type Lacking, type Nutrients, type Nutrition,
} from '../../core/facts';
import type { ResolvedFormula, Sheet, Totals } from '../../core/formula/model';
import { decimals, UNKNOWN, weight } from '../numbers';
import { singular } from '../../core/scaling/nouns';
import { named } from './words';

/** By whose rules the figures of a table are rounded; `none`: as they are computed. */
export type LabelRounding = 'none' | 'eu' | 'us';

export interface Figure {
  readonly label: string;
  /** `of which sugars`: belongs to the row above. */
  readonly within: boolean;
  /** One for each column. */
  readonly values: readonly string[];
}

export interface NutritionTable {
  /** `100 g`, `a slice of 50 g`, `one loaf` */
  readonly columns: readonly string[];
  readonly figures: readonly Figure[];
  /** What was taken for granted, what is missing and why. */
  readonly notes: readonly string[];
}

/** Of a size that is worth slicing: lighter pieces are eaten whole. In slices. */
const LEAST_SLICES = 4;

interface Amounts {
  readonly title: string;
  readonly nutrients: Nutrients;
}

/** Undefined where a weight is not known. */
export function nutritionTable(
  { formula, totals, sheet }: { readonly formula: ResolvedFormula; readonly totals: Totals; readonly sheet: Sheet },
  { rounding = 'none', sliceGrams }: { readonly rounding?: LabelRounding; readonly sliceGrams?: number | undefined } = {},
): NutritionTable | undefined {
  const nutrition = nutritionOf(formula, totals, sheet, { ...(sliceGrams !== undefined && { sliceGrams }) });
  if (nutrition === null) return undefined;
  const { noun, pieces } = formula.yield;
  const amounts: readonly Amounts[] = [
    { title: '100 g', nutrients: nutrition.per100g },
    ...(isSliced(formula) ? [{ title: `a slice of ${weight(nutrition.sliceGrams)}`, nutrients: nutrition.perSlice }] : []),
    ...(nutrition.perPiece === null ? [] : [{ title: pieces === null ? 'one serving' : `one ${singular(noun)}`, nutrients: nutrition.perPiece }]),
  ];
  const rows = ROWS[rounding];
  return {
    columns: amounts.map(({ title }) => title),
    figures: rows.map(({ label, within = false, of }): Figure => ({ label, within, values: amounts.map(({ nutrients }) => of(nutrients)) })),
    notes: [...nutrition.assumptions, ...RULES[rounding], ...lackingWords(nutrition)],
  };
}

/** Whether a slice is a thing to speak of: a dish is served, a roll is eaten whole. */
export function isSliced(formula: ResolvedFormula): boolean {
  const { bakedPieceGrams, pieceGrams } = formula.yield;
  const piece = bakedPieceGrams ?? pieceGrams;
  return formula.kind === 'formula' && (piece === null || piece >= LEAST_SLICES * SLICE_GRAMS.value);
}

/** `1069 kJ (253 kcal)`, `fat 3.5 g, saturates 0.6 g`, …; undefined where nothing of it is known. */
export function nutritionShort(nutrition: Nutrition): readonly string[] | undefined {
  const { energyKj, energyKcal, ...n } = nutrition.per100g;
  const all = [energyKj, n.fat, n.carbohydrate, n.protein, n.salt];
  if (all.every((value) => value === null)) return undefined;
  const energy = energyKj === null || energyKcal === null ? `energy ${UNKNOWN}` : `${decimals(energyKj, 0)} kJ (${decimals(energyKcal, 0)} kcal)`;
  return [
    energy, `fat ${gram(n.fat)}, saturates ${gram(n.saturated)}`, `carbohydrate ${gram(n.carbohydrate)}, sugars ${gram(n.sugars)}`,
    `fibre ${gram(n.fibre)}`, `protein ${gram(n.protein)}`, `salt ${fineGram(n.salt)}`,
  ];
}

const NAMES: Readonly<Record<Lacking, string>> = {
  energy: 'energy', fat: 'fat', saturated: 'saturates', carbohydrate: 'carbohydrate', sugars: 'sugars', fibre: 'fibre', protein: 'protein', salt: 'salt',
};

/** Why a figure is a dash: `Not known: saturates, since stall seed mix does not tell them.` */
export function lackingWords({ lacking }: Nutrition): readonly string[] {
  const kinds: readonly Lacking[] = ['energy', 'fat', 'saturated', 'carbohydrate', 'sugars', 'fibre', 'protein', 'salt'];
  const byCause = new Map<string, string[]>();
  for (const kind of kinds) {
    if (lacking[kind].length === 0) continue;
    const cause = named(lacking[kind]);
    byCause.set(cause, [...(byCause.get(cause) ?? []), NAMES[kind]]);
  }
  return [...byCause].map(([cause, what]) => `Not known: ${what.length === kinds.length ? 'any of it' : named(what, kinds.length)}, for want of the composition of ${cause}.`);
}

// --- rows -------------------------------------------------------------------------------------------------------------

interface Row {
  readonly label: string;
  readonly within?: boolean;
  readonly of: (nutrients: Nutrients) => string;
}

function gram(value: number | null): string {
  return value === null ? UNKNOWN : `${decimals(value, 1)} g`;
}

function fineGram(value: number | null): string {
  return value === null ? UNKNOWN : `${decimals(value, 2)} g`;
}

function said(value: number | null, rule: (value: number) => number | string, unit: string): string {
  if (value === null) return UNKNOWN;
  const rounded = rule(value);
  return typeof rounded === 'number' ? `${decimals(rounded, 2)} ${unit}` : rounded.endsWith('g') ? rounded : `${rounded} ${unit}`;
}

const ENERGY: readonly Row[] = [
  { label: 'energy in kJ', of: (n) => said(n.energyKj, euEnergyRounded, 'kJ') },
  { label: 'energy in kcal', of: (n) => said(n.energyKcal, euEnergyRounded, 'kcal') },
];

/** In the order of the law; `none` in that of the European one. */
const ROWS: Readonly<Record<LabelRounding, readonly Row[]>> = {
  none: [
    ...ENERGY,
    { label: 'fat', of: (n) => gram(n.fat) },
    { label: 'saturates', within: true, of: (n) => gram(n.saturated) },
    { label: 'carbohydrate', of: (n) => gram(n.carbohydrate) },
    { label: 'sugars', within: true, of: (n) => gram(n.sugars) },
    { label: 'fibre', of: (n) => gram(n.fibre) },
    { label: 'protein', of: (n) => gram(n.protein) },
    { label: 'salt', of: (n) => fineGram(n.salt) },
  ],
  eu: [
    ...ENERGY,
    { label: 'fat', of: (n) => said(n.fat, euGrams, 'g') },
    { label: 'saturates', within: true, of: (n) => said(n.saturated, euSaturates, 'g') },
    { label: 'carbohydrate', of: (n) => said(n.carbohydrate, euGrams, 'g') },
    { label: 'sugars', within: true, of: (n) => said(n.sugars, euGrams, 'g') },
    { label: 'fibre', of: (n) => said(n.fibre, euGrams, 'g') },
    { label: 'protein', of: (n) => said(n.protein, euGrams, 'g') },
    { label: 'salt', of: (n) => said(n.salt, euSalt, 'g') },
  ],
  us: [
    { label: 'calories', of: (n) => (n.energyKcalUs === null ? UNKNOWN : decimals(usCalories(n.energyKcalUs), 0)) },
    { label: 'total fat', of: (n) => said(n.fat, usFat, 'g') },
    { label: 'saturated fat', within: true, of: (n) => said(n.saturated, usFat, 'g') },
    { label: 'sodium', of: (n) => said(n.sodiumMg, usSodium, 'mg') },
    { label: 'total carbohydrate', of: (n) => said(n.carbohydrateTotal, usGrams, 'g') },
    { label: 'dietary fiber', within: true, of: (n) => said(n.fibre, usGrams, 'g') },
    { label: 'total sugars', within: true, of: (n) => said(n.sugars, usGrams, 'g') },
    { label: 'protein', of: (n) => said(n.protein, usGrams, 'g') },
  ],
};

const RULES: Readonly<Record<LabelRounding, readonly string[]>> = {
  none: [],
  eu: ['Rounded by the guidance of the European Commission for nutrition declarations, December 2012. No finished label: have one checked.'],
  us: ['Rounded by 21 CFR 101.9(c), calories by the general factors 4, 4 and 9. No finished label: have one checked.'],
};
