import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gramsFrom } from '../../server/core/units/mass';
import { celsius, celsiusDegrees, fahrenheit, fahrenheitDegrees } from '../../server/core/units/temperature';
import { volumeToMl } from '../../server/core/units/volume';

describe('mass', () => {
  it('is exact by definition', () => {
    expect(gramsFrom(16, 'oz')).toBeCloseTo(gramsFrom(1, 'lb'), 12);
    expect(gramsFrom(1.5, 'kg')).toBe(1500);
    expect(gramsFrom(250, 'mg')).toBe(0.25);
  });
});

describe('volume', () => {
  it.each(['us', 'metric', 'imperial'] as const)('has three teaspoons to a tablespoon, and litres are litres (%s)', (system) => {
    expect(volumeToMl('tbsp', system)).toBeCloseTo(3 * volumeToMl('tsp', system), 12);
    expect(volumeToMl('l', system)).toBe(1000);
    expect(volumeToMl('ml', system)).toBe(1);
  });

  it('has 16 tablespoons and 8 fluid ounces to a US cup', () => {
    expect(volumeToMl('cup', 'us')).toBeCloseTo(16 * volumeToMl('tbsp', 'us'), 12);
    expect(volumeToMl('cup', 'us')).toBeCloseTo(8 * volumeToMl('fl oz', 'us'), 12);
  });

  it('has ten imperial fluid ounces to the half-pint cup', () => {
    expect(volumeToMl('cup', 'imperial')).toBeCloseTo(10 * volumeToMl('fl oz', 'imperial'), 12);
  });
});

describe('temperature', () => {
  it('converts readings and differences each in their way', () => {
    expect(celsius(32)).toBe(0);
    expect(celsius(212)).toBe(100);
    expect(fahrenheit(-40)).toBe(-40);
    expect(celsiusDegrees(22)).toBeCloseTo(12.2, 1);
    expect(fahrenheitDegrees(10)).toBe(18);
  });

  it('comes back where it was', () => {
    const degrees = fc.double({ min: -300, max: 600, noNaN: true });
    fc.assert(
      fc.property(degrees, (value) => {
        expect(celsius(fahrenheit(value))).toBeCloseTo(value, 9);
        expect(celsiusDegrees(fahrenheitDegrees(value))).toBeCloseTo(value, 9);
      }),
    );
  });
});
