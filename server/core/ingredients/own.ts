/** The baker's own ingredients: `ingredient` blocks as data. */
import { ROLES, type Block, type PropertyLine, type PropertyValue, type Role } from '../../../grammar';
import { gramsFrom, middleOf, toGrams } from '../units/mass';
import { volumeToMl, type MeasureSystem } from '../units/volume';
import { allergenClassesOf, containsOf, saysNothing, unknownAllergens } from './allergens';
import type { Composition, Ingredient } from './model';
import { slug } from './names';
import { gramsPerUnit } from './weigh';

const NOTHING_KNOWN: Composition = {
  water: null, protein: null, fat: null, saturated: null, carbohydrate: null, carbohydrateBasis: 'by-difference',
  sugars: null, fibre: null, salt: null, alcohol: null,
};

/** The name of an `ingredient` block; undefined for any other block and for one without a name. */
export function ownName(block: Block): string | undefined {
  const head = block.head.node;
  const name = head.kind === 'ingredient' ? head.name?.text.trim() : undefined;
  return name === '' ? undefined : name;
}

/** The last line of each property: what is written twice counts as it stands below. */
function propertiesOf(block: Block): ReadonlyMap<PropertyLine['key'], PropertyValue> {
  return new Map(block.lines.flatMap(({ node }) => (node.kind === 'property' ? [[node.key, node.value] as const] : [])));
}

/** The name after `like`. */
export function likeOf(block: Block): string | undefined {
  const value = propertiesOf(block).get('like');
  return value?.kind === 'name' ? value.name.text : undefined;
}

/** A share of its weight as grams in 100 g; undefined for anything that is no share between 0 and 100 %. */
function share(value: PropertyValue | undefined): number | undefined {
  if (value?.kind !== 'amount' || value.amount.kind !== 'share') return undefined;
  const percent = middleOf(value.amount.quantity);
  return percent >= 0 && percent <= 100 ? percent : undefined;
}

function compositionOf(said: ReadonlyMap<string, PropertyValue>, like: Composition): Composition {
  const fat = share(said.get('fat'));
  const saturated =
    fat === undefined || fat === like.fat
      ? like.saturated
      : // Another cream of the same milk: its fat is made up alike.
        like.saturated !== null && like.fat !== null && like.fat > 0 ? (like.saturated * fat) / like.fat : null;
  const composition = {
    ...like,
    water: share(said.get('water')) ?? like.water,
    protein: share(said.get('protein')) ?? like.protein,
    fat: fat ?? like.fat,
    saturated,
    sugars: share(said.get('sugar')) ?? like.sugars,
    salt: share(said.get('salt')) ?? like.salt,
    fibre: share(said.get('fibre')) ?? like.fibre,
  };
  return composition.carbohydrate === null ? { ...composition, ...byDifference(composition) } : composition;
}

/**
 * Carbohydrate as most tables have it: what is not water, protein, fat or salt. There is no word for ash, so that its one to
 * three grams are counted in. Unknown where one of water, protein and fat is.
 */
function byDifference({ water, protein, fat, salt }: Composition): Pick<Composition, 'carbohydrate' | 'carbohydrateBasis'> {
  const rest = water === null || protein === null || fat === null ? null : 100 - water - protein - fat - (salt ?? 0);
  return { carbohydrate: rest === null ? null : Math.max(0, rest), carbohydrateBasis: 'by-difference' };
}

/** Added to those of `like`, so that an allergen is never lost by writing another; `contains nothing` starts afresh. */
function allergensFrom(block: Block, like: Ingredient | undefined): Ingredient['allergens'] {
  const words = containsOf(block).map(({ text }) => text);
  const start = like === undefined || words.some(saysNothing) ? { eu: [], us: [], checkLabel: [] } : like.allergens;
  const classes = words.map(allergenClassesOf);
  const eu = new Set([...start.eu, ...classes.flatMap((found) => found?.eu ?? [])]);
  const us = new Set([...start.us, ...classes.flatMap((found) => found?.us ?? [])]);
  const checkLabel = new Set([...start.checkLabel, ...unknownAllergens(block).map(({ text }) => text.toLowerCase())]);
  return { eu: [...eu], us: [...us], checkLabel: [...checkLabel].filter((id) => !eu.has(id) && !us.has(id)) };
}

type Weights = Pick<Ingredient, 'gramsPerMl' | 'gramsPerMeasure' | 'eachGrams'>;

/** A `costs` line; null when what it is by (a litre, a piece) has no known weight, undefined when there is no such line. */
function costOf(value: PropertyValue | undefined, weight: Weights, measures: MeasureSystem): Ingredient['cost'] | undefined {
  if (value?.kind !== 'cost') return undefined;
  const { unit, number, currency } = value;
  let perGrams: number | null;
  switch (unit) {
    case 'each':
      perGrams = weight.eachGrams;
      break;
    case 'g': case 'kg': case 'mg': case 'oz': case 'lb':
      perGrams = gramsFrom(1, unit);
      break;
    case 'ml': case 'l': case 'tsp': case 'tbsp': case 'cup': case 'fl oz':
      perGrams = gramsPerUnit(weight, unit, measures);
      break;
  }
  return perGrams === null || perGrams <= 0 ? null : { amount: number.value, currency, perGrams };
}

/** A measure of 0 weighs nothing and says nothing. */
const aboveNothing = (value: number): number | undefined => (value > 0 && Number.isFinite(value) ? value : undefined);

const roleNamed = (text: string): Role | undefined => ROLES.find((role) => role === text.trim().toLowerCase());

/**
 * An `ingredient` block as an ingredient: what it says, over what it is like; what neither says is null. Values that make no
 * sense (a share of 120 %, a role that is none) are passed over: a check speaks of them.
 */
export function ownIngredient(
  block: Block,
  name: string,
  like: Ingredient | undefined,
  measures: MeasureSystem,
): Ingredient {
  const said = propertiesOf(block);
  const composition = compositionOf(said, like?.composition ?? NOTHING_KNOWN);
  const density = said.get('density');
  const ownDensity = density?.kind === 'density' ? aboveNothing(toGrams(density.mass) / volumeToMl(density.volume, measures)) : undefined;
  const each = said.get('each');
  const ownEach = each?.kind === 'amount' && each.amount.kind === 'mass' ? aboveNothing(toGrams(each.amount)) : undefined;
  const absorbs = said.get('absorbs');
  const role = said.get('role');
  const ownRole = role?.kind === 'text' ? roleNamed(role.text.text) : undefined;
  const weight = {
    gramsPerMl: ownDensity ?? like?.gramsPerMl ?? null,
    gramsPerMeasure: ownDensity === undefined ? (like?.gramsPerMeasure ?? {}) : {},
    eachGrams: ownEach ?? like?.eachGrams ?? null,
  };
  const cost = costOf(said.get('costs'), weight, measures);
  return {
    key: slug(name),
    label: name,
    role: ownRole ?? like?.role ?? 'other',
    wholeGrain: like?.wholeGrain ?? false,
    isWater: like?.isWater === true && (composition.water ?? 0) >= 99,
    composition,
    ...weight,
    eachOf: ownEach === undefined ? (like?.eachOf ?? '') : 'piece',
    absorbs: absorbs?.kind === 'number' ? absorbs.number.value : (like?.absorbs ?? null),
    ...(like !== undefined && { absorbsAs: like.absorbsAs ?? like.key }),
    cost: cost === undefined ? (like?.cost ?? null) : cost,
    allergens: allergensFrom(block, like),
    source: like === undefined ? 'own ingredient' : `own ingredient, like ${like.label}`,
    note: like === undefined && containsOf(block).length === 0 ? 'its allergens are not stated' : (like?.note ?? ''),
  };
}
