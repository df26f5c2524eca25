/** Temperature, fermentation, nutrition, allergens, cost and cautions in the JSON form of a sheet. Unrounded; what cannot be known is null. */
import { allergensOf, cautionsFor, costReport, declarationOf, nutritionOf, type Declared, type LawList, type Nutrients, type Nutrition } from '../../core/facts';
import type { Range } from '../../core/estimate';
import { bulkReport, levainReport, retardReport } from '../../core/fermentation';
import { doughTemperature } from '../../core/temperature';
import type { FormulaEntry } from '../entry';
import { isSliced } from './nutrition';

type Entry = Pick<FormulaEntry, 'formula' | 'totals' | 'sheet' | 'lineOf'>;

/** The fields of one formula or dish, by their names in the form. */
export function factsJson({ formula, totals, sheet, lineOf }: Entry, { sliceGrams, allergens = 'both' }: { readonly sliceGrams?: number | undefined; readonly allergens?: LawList | undefined } = {}): Readonly<Record<string, unknown>> {
  const temperature = doughTemperature(formula);
  const nutrition = nutritionOf(formula, totals, sheet, { ...(sliceGrams !== undefined && { sliceGrams }) });
  const { eu, us, checkLabel, unknown } = allergensOf(formula);
  const { amount, currency, perPiece, unpriced } = costReport(formula);
  return {
    temperature: {
      desired_c: temperature?.desiredCelsius ?? null,
      water_c: temperature?.waterCelsius ?? null,
      water_heat_balance_c: temperature?.waterHeatBalanceCelsius ?? null,
      ice_g: temperature?.iceGrams ?? null,
      liquid: temperature?.liquid ?? null,
      go_by: temperature?.method ?? null,
      expected_c: temperature?.expectedCelsius.factors ?? null,
      expected_heat_balance_c: temperature?.expectedCelsius.heatBalance ?? null,
      friction_c: temperature?.frictionCelsius ?? null,
      friction_measured: temperature?.frictionMeasured ?? null,
      assumptions: temperature?.assumptions ?? [],
    },
    fermentation: {
      preferments: levainReport(formula).map(({ part, place, ripeness, ripeningCelsius, peakHours, ripenedHours, unknown: why }) => ({
        part: formula.parts[part]?.name ?? null, line: lineOf(place), ripeness, ripening_c: ripeningCelsius, peak_h: hours(peakHours), ripened_h: hours(ripenedHours), unknown: why,
      })),
      bulks: bulkReport(formula, totals).map(({ place, claimedCelsius, claimedHours, startCelsius, equivalentHours, roomHours }) => ({
        line: lineOf(place), claimed_c: claimedCelsius, claimed_h: hours(claimedHours), start_c: startCelsius, equivalent_h: hours(equivalentHours), room_h: hours(roomHours),
      })),
      retards: retardReport(formula).map(({ place, fridgeCelsius, startCelsius, referenceCelsius, addedHours }) => ({
        line: lineOf(place), fridge_c: fridgeCelsius, start_c: startCelsius, reference_c: referenceCelsius, added_h: hours(addedHours),
      })),
    },
    nutrition_per_100g: nutrition === null ? null : nutrientsJson(nutrition.per100g),
    nutrition_per_slice: nutrition === null || (!isSliced(formula) && sliceGrams === undefined) ? null : { slice_g: nutrition.sliceGrams, ...nutrientsJson(nutrition.perSlice) },
    nutrition_per_piece: nutrition === null || nutrition.perPiece === null ? null : nutrientsJson(nutrition.perPiece),
    nutrition_lacking: nutrition === null ? null : lackingJson(nutrition.lacking),
    allergens: { eu, us, check_label: checkLabel, unknown },
    ingredients_list: declaredJson(declarationOf(formula, allergens)),
    cost: { amount, currency, per_piece: perPiece, unpriced },
    cautions: cautionsFor(formula).map(({ code, text, source, places }) => ({ code, text, source, lines: places.map(lineOf) })),
  };
}

/** Heaviest first, as a label has them; a draft. */
function declaredJson(declared: readonly Declared[]): readonly unknown[] {
  return declared.map(({ name, text, grams, allergens, inside }) => ({ name, text, grams, allergens, inside: declaredJson(inside) }));
}

function hours(range: Pick<Range, 'low' | 'high'> | null): unknown {
  return range === null ? null : { low: range.low, high: range.high };
}

/** Only the nutrients that are lacking, with the ingredients that do not tell them. */
function lackingJson({ saturated, ...others }: Nutrition['lacking']): Readonly<Record<string, readonly string[]>> {
  return Object.fromEntries(Object.entries({ ...others, saturates: saturated }).filter(([, names]) => names.length > 0));
}

/** The European order; `energy_kcal_us`, `carbohydrate_total_g` and `sodium_mg` are what a label of the United States is made from. */
function nutrientsJson(n: Nutrients): Readonly<Record<string, number | null>> {
  return {
    energy_kj: n.energyKj,
    energy_kcal: n.energyKcal,
    energy_kcal_us: n.energyKcalUs,
    fat_g: n.fat,
    saturates_g: n.saturated,
    carbohydrate_g: n.carbohydrate,
    carbohydrate_total_g: n.carbohydrateTotal,
    sugars_g: n.sugars,
    fibre_g: n.fibre,
    protein_g: n.protein,
    salt_g: n.salt,
    sodium_mg: n.sodiumMg,
  };
}
