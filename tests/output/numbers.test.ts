import { describe, expect, test } from 'vitest';
import { celsius, counted, grams, minutesRange, ovenCelsius, percent, weight } from '../../server/output/numbers';

describe('numbers for a reader', () => {
  test.each([
    [853.4, '853'], [10.04, '10'], [9.96, '10'], [9.94, '9.9'], [8.4, '8.4'], [9, '9'], [0.3, '0.3'], [0, '0'],
    [0.03, '0.03'], [0.004, '0.004'], [-12.6, '-13'],
  ])('%d g is %s', (value, text) => {
    expect(grams(value)).toBe(text);
  });

  test('what cannot be known is a dash, never a nought', () => {
    expect([grams(null), weight(null), percent(null), celsius(null)]).toEqual(['–', '–', '–', '–']);
  });

  test('large weights are in kilograms', () => {
    expect(weight(970)).toBe('970 g');
    expect(weight(9999)).toBe('9999 g');
    expect(weight(12_500)).toBe('12.5 kg');
  });

  test.each([
    [76.92, '76.9'], [100, '100.0'], [1.97, '2.0'], [2.15, '2.1'], [0.996, '1.0'], [0.68, '0.68'], [0.03, '0.03'], [0.004, '0.004'], [0, '0.0'], [0.5, '0.5'],
  ])('%d per cent is %s', (value, text) => {
    expect(percent(value)).toBe(text);
  });

  test('an oven reads in both scales', () => {
    expect(ovenCelsius(240)).toBe('240 °C (465 °F)');
    expect(celsius(24.55)).toBe('24.6 °C');
  });

  test.each([
    [8, 8, '8 min'], [210, 210, '3 h 30 min'], [600, 960, '10 to 16 h'], [18, 22, '18 to 22 min'], [90, 120, '1 h 30 min to 2 h'],
    [45, 60, '45 min to 1 h'],
  ])('from %d to %d minutes is %s', (low, high, text) => {
    expect(minutesRange(low, high)).toBe(text);
  });

  test('one and many', () => {
    expect([counted(0, 'error'), counted(1, 'error'), counted(2, 'error')]).toEqual(['0 errors', '1 error', '2 errors']);
  });
});
