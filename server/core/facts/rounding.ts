/** Label figures, by the steps of `LABEL_STEPS`. Ties go up. */
import { LABEL_STEPS as STEPS } from './constants';

/** Calories; under 5 may be declared as 0 (5 is lawful too). */
export function usCalories(kcal: number): number {
  return kcal < STEPS.usCalories.noneBelow ? 0 : stepped(kcal, STEPS.usCalories);
}

/** Total, saturated and trans fat, g. */
export function usFat(grams: number): number {
  return grams < STEPS.usFat.noneBelow ? 0 : stepped(grams, STEPS.usFat);
}

/** Cholesterol, mg. */
export function usCholesterol(mg: number): number | 'less than 5 mg' {
  if (mg < STEPS.usCholesterol.noneBelow) return 0;
  return mg <= STEPS.usCholesterol.lessThan ? 'less than 5 mg' : nearest(mg, STEPS.usCholesterol.to);
}

/** Sodium, mg. */
export function usSodium(mg: number): number {
  return mg < STEPS.usSodium.noneBelow ? 0 : stepped(mg, STEPS.usSodium);
}

/** Total carbohydrate, fibre, sugars and protein, g. */
export function usGrams(grams: number): number | 'less than 1 g' {
  if (grams < STEPS.usGrams.noneBelow) return 0;
  return grams < STEPS.usGrams.lessThan ? 'less than 1 g' : nearest(grams, STEPS.usGrams.to);
}

/** Energy in kJ or kcal. */
export function euEnergyRounded(value: number): number {
  return nearest(value, STEPS.euEnergy.to);
}

/** Fat, carbohydrate, sugars, protein and fibre, g. */
export function euGrams(grams: number): number | '<0.5' {
  return grams <= STEPS.euGrams.noneUpTo ? '<0.5' : stepped(grams, STEPS.euGrams);
}

/** Saturates, g. */
export function euSaturates(grams: number): number | '<0.1' {
  return grams <= STEPS.euSaturates.noneUpTo ? '<0.1' : stepped(grams, STEPS.euSaturates);
}

/** Salt, g. */
export function euSalt(grams: number): number | '<0.01' {
  return grams <= STEPS.euSalt.noneUpTo ? '<0.01' : stepped(grams, STEPS.euSalt);
}

interface Steps {
  readonly to: number;
  readonly upTo: number;
  readonly thenTo: number;
}

/** `upTo` is a multiple of both steps, so that it does not matter which of them takes it. */
function stepped(value: number, { to, upTo, thenTo }: Steps): number {
  return nearest(value, value <= upTo ? to : thenTo);
}

/** To a multiple of the step, ties up, whatever binary fractions make of a tie. */
function nearest(value: number, step: number): number {
  const steps = Math.floor(value / step + 0.5 + 1e-9);
  return Number((steps * step).toFixed(2));
}
