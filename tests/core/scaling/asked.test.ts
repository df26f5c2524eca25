import { describe, expect, it } from 'vitest';
import { askedFor, stepIn, type Size } from '../../../server/core/scaling/asked';

describe('a size in words', () => {
  it.each<[Size, string, object]>([
    ['pieces', '6', { by: 'pieces', pieces: 6 }],
    ['factor', '.5', { by: 'factor', factor: 0.5 }],
    ['piece', '900', { by: 'piece', grams: 900 }],
    ['dough', '5 kg', { by: 'dough', grams: 5000 }],
    ['flour', '2lb', { by: 'flour', grams: 907.18474 }],
    ['tin', '1.8l', { by: 'tin', millilitres: 1800 }],
    ['tin', '750 ML', { by: 'tin', millilitres: 750 }],
    ['tin', '2 litres', { by: 'tin', millilitres: 2000 }],
    ['have', '180 g starter', { by: 'have', grams: 180, name: 'starter' }],
    ['have', '0.2kg of dark rye flour', { by: 'have', grams: 200, name: 'dark rye flour' }],
    ['have', '180 g "00 flour"', { by: 'have', grams: 180, name: '00 flour' }],
    ['have', '3 eggs', { by: 'have-count', count: 3, name: 'eggs' }],
    ['have', '5 garlic', { by: 'have-count', count: 5, name: 'garlic' }],
  ])('%s %s', (by, value, request) => {
    expect(askedFor(by, value)).toEqual({ kind: 'read', request });
  });

  it.each<[Size, string, RegExp]>([
    ['pieces', '', /a number above 0/], ['pieces', 'two', /a number above 0/], ['pieces', '-2', /a number above 0/], ['pieces', '1e9', /a number above 0/],
    ['factor', '0', /a number above 0/], ['factor', 'NaN', /a number above 0/], ['factor', 'Infinity', /a number above 0/], ['factor', '9999999999', /a number above 0/],
    ['dough', '5 stone', /a weight above 0/], ['dough', '1,5 kg', /a weight above 0/], ['flour', '0 kg', /a weight above 0/], ['piece', '5 constructor', /a weight above 0/],
    ['tin', '1.8', /a volume above 0/], ['tin', '1.8 kg', /a volume above 0/], ['tin', '0 l', /a volume above 0/], ['tin', '3 constructor', /a volume above 0/],
    ['have', 'starter', /a weight or a count and a name/], ['have', '180 g', /a weight or a count and a name/], ['have', '0 g starter', /a weight or a count and a name/],
    ['have', '1.2.3 g starter', /a weight or a count and a name/],
  ])('%s %j is none', (by, value, expected) => {
    const asked = askedFor(by, value);
    expect(asked).toMatchObject({ kind: 'not-read' });
    expect(asked.kind === 'not-read' && asked.expected).toMatch(expected);
  });

  it('a cup of tin is the cup of the settings', () => {
    expect(askedFor('tin', '8 cups', 'metric')).toEqual({ kind: 'read', request: { by: 'tin', millilitres: 2000 } });
  });

  it('what scales read to', () => {
    expect(stepIn('1g', '0.1 g')).toEqual({ kind: 'read', step: { grams: 1, smallGrams: 0.1 } });
    expect(stepIn(undefined, undefined)).toEqual({ kind: 'read', step: {} });
    expect(stepIn('0', undefined)).toMatchObject({ kind: 'not-read', of: 'step' });
    expect(stepIn('1g', 'tiny')).toMatchObject({ kind: 'not-read', of: 'small-step' });
  });
});
