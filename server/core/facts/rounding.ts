/**
 * Label figures. US: 21 CFR 101.9(c), as tabled in FDA's Food Labeling Guide, Appendix H (2009); ties go up. EU: the
 * Commission's guidance on tolerances and rounding of December 2012, from memory.
 */

/** Calories: under 5 may be declared as 0 (5 is lawful too), to the nearest 5 up to 50, to the nearest 10 above. */
export function usCalories(kcal: number): number {
  if (kcal < 5) return 0;
  return nearest(kcal, kcal <= 50 ? 5 : 10);
}

/** Total, saturated and trans fat, g. */
export function usFat(grams: number): number {
  if (grams < 0.5) return 0;
  return nearest(grams, grams < 5 ? 0.5 : 1);
}

/** Cholesterol, mg. */
export function usCholesterol(mg: number): number | 'less than 5 mg' {
  if (mg < 2) return 0;
  return mg <= 5 ? 'less than 5 mg' : nearest(mg, 5);
}

/** Sodium, mg. */
export function usSodium(mg: number): number {
  if (mg < 5) return 0;
  return nearest(mg, mg <= 140 ? 5 : 10);
}

/** Total carbohydrate, fibre, sugars and protein, g. */
export function usGrams(grams: number): number | 'less than 1 g' {
  if (grams < 0.5) return 0;
  return grams < 1 ? 'less than 1 g' : nearest(grams, 1);
}

/** Energy in kJ or kcal. */
export function euEnergyRounded(value: number): number {
  return nearest(value, 1);
}

/** Fat, carbohydrate, sugars, protein and fibre, g. */
export function euGrams(grams: number): number | '<0.5' {
  if (grams <= 0.5) return '<0.5';
  return nearest(grams, grams >= 10 ? 1 : 0.1);
}

/** Saturates, g. */
export function euSaturates(grams: number): number | '<0.1' {
  if (grams <= 0.1) return '<0.1';
  return nearest(grams, grams >= 10 ? 1 : 0.1);
}

/** Salt, g. */
export function euSalt(grams: number): number | '<0.01' {
  if (grams <= 0.0125) return '<0.01';
  return nearest(grams, grams >= 1 ? 0.1 : 0.01);
}

/** To a multiple of the step, ties up, whatever binary fractions make of a tie. */
function nearest(value: number, step: number): number {
  const steps = Math.floor(value / step + 0.5 + 1e-9);
  return Number((steps * step).toFixed(2));
}
