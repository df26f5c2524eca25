/**
 * How much water dry things in a dough bind, grams per gram. One table, to be seen and argued with: the trade has ranges,
 * not values, and no published table for dough was found. `low` and `high` are the honest range, `value` its use here.
 */
export interface Absorber {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly source: string;
}

const COMMON = 'common practice, no source';

/** By ingredient key. */
export const ABSORBERS: Readonly<Record<string, Absorber>> = {
  'cocoa-powder-unsweetened': { value: 1, low: 0.8, high: 1.5, source: COMMON },
  'cocoa-powder-dutch': { value: 1, low: 0.8, high: 1.5, source: COMMON },
  'carob-flour': { value: 1, low: 0.8, high: 1.5, source: COMMON },
  'milk-powder': { value: 0.8, low: 0.5, high: 1, source: COMMON },
  'milk-powder-whole': { value: 0.6, low: 0.4, high: 1, source: COMMON },
  'whey-powder': { value: 0.3, low: 0.1, high: 0.5, source: COMMON },
  'wheat-bran': { value: 1.2, low: 1, high: 2, source: COMMON },
  'oat-bran': { value: 1.5, low: 1, high: 2.5, source: COMMON },
  'wheat-germ': { value: 0.7, low: 0.5, high: 1, source: COMMON },
  'oat-flakes': { value: 1, low: 0.5, high: 1.5, source: COMMON },
  'malt-flour': { value: 0.6, low: 0.5, high: 0.8, source: COMMON },
  'corn-starch': { value: 0.4, low: 0.3, high: 0.6, source: COMMON },
  'potato-starch': { value: 0.4, low: 0.3, high: 0.6, source: COMMON },
  'potato-flour': { value: 2, low: 1.5, high: 4, source: COMMON },
  'tapioca-pearl': { value: 1, low: 0.5, high: 2, source: COMMON },
  'almond-flour': { value: 0.3, low: 0.1, high: 0.5, source: COMMON },
  'bread-crumbs': { value: 1.2, low: 1, high: 2, source: COMMON },
  'potato-flakes': { value: 3, low: 2, high: 4, source: COMMON },
  'vital-gluten': { value: 1.5, low: 1, high: 2, source: COMMON },
  'coconut-flour': { value: 2, low: 1.5, high: 3, source: COMMON },
  'coconut-desiccated': { value: 0.5, low: 0.3, high: 1, source: COMMON },
  'sunflower-seeds': { value: 0.6, low: 0.5, high: 1, source: COMMON },
  'pumpkin-seeds': { value: 0.6, low: 0.5, high: 1, source: COMMON },
  'sesame-seeds': { value: 0.6, low: 0.5, high: 1, source: COMMON },
  'poppy-seeds': { value: 0.7, low: 0.5, high: 1, source: COMMON },
  'hemp-seeds': { value: 0.5, low: 0.3, high: 1, source: COMMON },
  'flax-seeds': { value: 1.8, low: 1, high: 3, source: COMMON },
  'chia-seeds': { value: 4, low: 2, high: 8, source: COMMON },
};
