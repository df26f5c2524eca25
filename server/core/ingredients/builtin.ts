/** The ingredients that ship: the rows of table.ts and derived.ts, with their names. */
import { DERIVED, type Derived } from './derived';
import type { Ingredient } from './model';
import { DOUGH_NAMES } from './names/dough';
import { FILLING_NAMES } from './names/filling';
import { TABLE, type TableRow } from './table';

/** Salt that holds one gram of sodium: the ratio of the molar masses of NaCl and Na, 58.443 / 22.990. */
export const SALT_PER_SODIUM = 2.5421;

export interface NamedIngredient {
  readonly ingredient: Ingredient;
  /** As listed; the first is the one to write. */
  readonly names: readonly string[];
}

const SOURCES: Readonly<Record<string, string>> = {
  SR28: 'USDA Standard Reference 28',
  Foundation: 'USDA Foundation Foods, October 2024',
  Swiss: 'Swiss Food Composition Database 5.3',
  CIQUAL: 'ANSES-CIQUAL 2017',
};

const list = (text: string | undefined): readonly string[] => (text === undefined ? [] : text.split(';'));

function sourceOf(cell: string): string {
  const [name = '', ...id] = cell.split(' ');
  return `${SOURCES[name] ?? name}, ${id.join(' ')}`;
}

/** A row of the table as an ingredient. */
function ingredientOf([key, label, role, source, cells, extras = {}]: TableRow): Ingredient {
  const [water, protein, fat, saturated, carbohydrate, sugars, fibre, sodiumMg, alcohol] = cells;
  return {
    key,
    label,
    role,
    wholeGrain: extras.whole === true,
    isWater: key === 'water',
    composition: {
      water, protein, fat, saturated, carbohydrate, sugars, fibre, alcohol,
      carbohydrateBasis: extras.available === true ? 'available' : 'by-difference',
      salt: sodiumMg === null ? null : (sodiumMg * SALT_PER_SODIUM) / 1000,
    },
    gramsPerMl: extras.density ?? null,
    gramsPerMeasure: {
      ...(extras.tsp !== undefined && { tsp: extras.tsp }),
      ...(extras.tbsp !== undefined && { tbsp: extras.tbsp }),
      ...(extras.cup !== undefined && { cup: extras.cup }),
      ...(extras.flOz !== undefined && { 'fl oz': extras.flOz }),
    },
    eachGrams: extras.each ?? null,
    eachOf: extras.of ?? '',
    absorbs: null,
    cost: null,
    allergens: { eu: list(extras.eu), us: list(extras.us), checkLabel: list(extras.check) },
    source: sourceOf(source),
    note: [extras.note, extras.measured].filter((text) => text !== undefined).join('; '),
  };
}

function namesOf(key: string): readonly string[] {
  return (DOUGH_NAMES[key] ?? FILLING_NAMES[key] ?? '').split(', ').filter(Boolean);
}

function measuresOf(form: Derived, base: Ingredient): Ingredient['gramsPerMeasure'] {
  if (form.gramsPerTsp !== undefined) return { tsp: form.gramsPerTsp, tbsp: 3 * form.gramsPerTsp };
  return form.keepsMeasures === true ? base.gramsPerMeasure : {};
}

function build(): readonly NamedIngredient[] {
  const rows = new Map(TABLE.map((row) => [row[0], ingredientOf(row)]));
  const derived = DERIVED.flatMap((form) => {
    const base = rows.get(form.from);
    if (base === undefined) return [];
    const ingredient: Ingredient = {
      ...base,
      key: form.same === true ? base.key : form.key,
      label: form.label,
      role: form.role ?? base.role,
      wholeGrain: form.wholeGrain ?? false,
      gramsPerMl: form.keepsMeasures === true ? base.gramsPerMl : null,
      gramsPerMeasure: measuresOf(form, base),
      eachGrams: form.eachGrams ?? null,
      eachOf: form.eachOf ?? '',
      ...(form.absorbsAs !== undefined && { absorbsAs: form.absorbsAs }),
      allergens: { ...base.allergens, checkLabel: form.checkLabel ?? base.allergens.checkLabel },
      note: form.note,
    };
    return [{ ingredient, names: namesOf(form.key) }];
  });
  return [...[...rows.values()].map((ingredient) => ({ ingredient, names: namesOf(ingredient.key) })), ...derived];
}

export const BUILT_IN: readonly NamedIngredient[] = build();
