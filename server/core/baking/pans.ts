/** What a pan holds, and how much dough goes into it. Lengths in cm, volumes in ml. */
import { GRAMS_PER } from '../units/mass';

export const CM_PER_INCH = 2.54;
export const ML_PER_CUBIC_INCH = CM_PER_INCH ** 3;

/** Length and width of an opening. */
export interface Rectangle {
  readonly lengthCm: number;
  readonly widthCm: number;
}

/** A tapered rectangular pan, by the prismatoid rule: depth / 6 x (top + 4 x middle + bottom). */
export function taperedPanMl(top: Rectangle, bottom: Rectangle, depthCm: number): number {
  const middle = { lengthCm: (top.lengthCm + bottom.lengthCm) / 2, widthCm: (top.widthCm + bottom.widthCm) / 2 };
  return (depthCm / 6) * (area(top) + 4 * area(middle) + area(bottom));
}

/** A straight-sided one. */
export function boxPanMl(opening: Rectangle, depthCm: number): number {
  return area(opening) * depthCm;
}

/** A round pan, tapered or not: a cone cut off. */
export function roundPanMl(topDiameterCm: number, bottomDiameterCm: number, depthCm: number): number {
  const top = topDiameterCm / 2;
  const bottom = bottomDiameterCm / 2;
  return ((Math.PI * depthCm) / 3) * (top * top + top * bottom + bottom * bottom);
}

/** Pan factor, ml of pan for each g of dough. */
export function panFactor(panMl: number, doughGrams: number): number {
  return panMl / doughGrams;
}

/** The dough for a pan, g. */
export function doughForPan(panMl: number, factor: number): number {
  return panMl / factor;
}

/** The dough for another pan, from a pan and a dough that are known to go together. */
export function doughFromKnownPan(panMl: number, known: { readonly panMl: number; readonly doughGrams: number }): number {
  return doughForPan(panMl, panFactor(known.panMl, known.doughGrams));
}

/** Cubic inches an ounce, as American trade texts have it, in ml per g. */
export function factorFromInches(cubicInchesPerOunce: number): number {
  return (cubicInchesPerOunce * ML_PER_CUBIC_INCH) / GRAMS_PER.oz;
}

/** And back. */
export function factorInInches(mlPerGram: number): number {
  return (mlPerGram * GRAMS_PER.oz) / ML_PER_CUBIC_INCH;
}

function area({ lengthCm, widthCm }: Rectangle): number {
  return lengthCm * widthCm;
}
