/** Numbers, amounts, times and temperatures, each in the line where a baker meets it. */
import { describe, expect, it } from 'vitest';
import { quantityMiddle } from '../../grammar';
import { blockOf, nodesUnder, problemsIn, read } from './helpers';

function amountOf(line: string): unknown {
  return (read('dough', line) as { amount: unknown }).amount;
}

const num = (value: number, text: string): unknown => ({ low: { value, text, comma: false } });

describe('numbers', () => {
  it.each([
    ['12', 12], ['0.5', 0.5], ['.5', 0.5], ['1/2', 0.5], ['1 1/2', 1.5], ['½', 0.5], ['1½', 1.5], ['1 ½', 1.5], ['¾', 0.75], ['2 2/3', 2 + 2 / 3], ['007', 7],
  ])('%s', (text, value) => {
    expect(amountOf(`${text} g salt`)).toEqual({ kind: 'mass', unit: 'g', quantity: num(value, text) });
  });

  it.each([['2,5', 2.5], ['1,000', 1000], ['12,500', 12500], ['0,125', 0.125], ['1,234.5', 1234.5], ['10,25', 10.25]])('%s with a comma is read as meant', (text, value) => {
    const [node] = nodesUnder('dough', `${text} g salt`);
    expect(node).toMatchObject({ kind: 'ingredient', amount: { quantity: { low: { value, text, comma: true } } } });
  });

  it.each(['1/0', '1.2.3', '9'.repeat(400), '1,2,3'])('%s is no number, yet its value stays finite', (text) => {
    const [node] = nodesUnder('dough', `${text} g salt`);
    expect(node).toMatchObject({ kind: 'ingredient', amount: { quantity: { low: { value: 0 } } } });
    expect(problemsIn(`dough\n  ${text} g salt\n`)[0]?.problem.message).toContain('is not a number');
  });

  it('a range has a middle', () => {
    const [node] = nodesUnder('dough', '4 to 5 g salt');
    if (node?.kind !== 'ingredient' || node.amount.kind !== 'mass') throw new Error('not a weight');
    expect(quantityMiddle(node.amount.quantity)).toBe(4.5);
  });
});

describe('amounts', () => {
  it.each([
    ['g', 'g'], ['G', 'g'], ['grams', 'g'], ['kilos', 'kg'], ['kilograms', 'kg'], ['mg', 'mg'], ['ounces', 'oz'], ['pounds', 'lb'], ['lbs', 'lb'],
  ])('a weight in %s', (typed, unit) => {
    expect(amountOf(`3 ${typed} salt`)).toEqual({ kind: 'mass', unit, quantity: num(3, '3') });
    expect(amountOf(`3${typed} salt`)).toEqual({ kind: 'mass', unit, quantity: num(3, '3') });
  });

  it.each([
    ['ml', 'ml'], ['litres', 'l'], ['L', 'l'], ['teaspoons', 'tsp'], ['tablespoon', 'tbsp'], ['Cups', 'cup'], ['fl oz', 'fl oz'], ['fluid ounces', 'fl oz'],
  ])('a volume in %s', (typed, unit) => {
    expect(amountOf(`2 ${typed} milk`)).toEqual({ kind: 'volume', unit, quantity: num(2, '2') });
  });

  it('a count, a share, all and a pinch', () => {
    expect(amountOf('4 eggs')).toEqual({ kind: 'count', quantity: num(4, '4') });
    expect(amountOf('72 % water')).toEqual({ kind: 'share', quantity: num(72, '72') });
    expect(amountOf('72% water')).toEqual({ kind: 'share', quantity: num(72, '72') });
    expect(amountOf('all levain')).toEqual({ kind: 'all' });
    expect(amountOf('pinch salt')).toEqual({ kind: 'pinch' });
    expect(amountOf('a pinch of salt')).toEqual({ kind: 'pinch' });
    expect(amountOf('2 pinches salt')).toEqual({ kind: 'pinch', quantity: num(2, '2') });
  });

  it('a weight in brackets, before the name or behind it', () => {
    const bracket = { kind: 'mass', unit: 'g', quantity: num(220, '220') };
    expect(amountOf('4 (220 g) eggs')).toEqual({ kind: 'count', quantity: num(4, '4'), bracket });
    expect(amountOf('4 eggs (220 g)')).toEqual({ kind: 'count', quantity: num(4, '4'), bracket });
    expect(amountOf('1 cup (220 g) milk')).toEqual({ kind: 'volume', unit: 'cup', quantity: num(1, '1'), bracket });
  });

  it('the little word of means nothing there', () => {
    expect(read('dough', '2 cups of milk')).toMatchObject({ amount: { kind: 'volume' }, name: { text: 'milk' } });
    expect(read('dough', '5 g cream of tartar')).toMatchObject({ name: { text: 'cream of tartar' } });
  });
});

function durationOf(text: string): unknown {
  const { lowMinutes, highMinutes, vague } = (read('steps', `rest ${text}`) as { duration: Record<string, unknown> }).duration;
  return vague === true ? [lowMinutes, highMinutes, 'vague'] : [lowMinutes, highMinutes];
}

describe('times', () => {
  it.each([
    ['30 min', 30, 30], ['30min', 30, 30], ['45 s', 0.75, 0.75], ['1 h 30 min', 90, 90], ['1h30min', 90, 90], ['2 d', 2880, 2880], ['1/2 h', 30, 30],
    ['10 to 16 h', 600, 960], ['18 to 22 min', 18, 22], ['1 h to 1 h 30 min', 60, 90], ['30 min to 2 h', 30, 120], ['1.5 hours', 90, 90], ['20 Mins', 20, 20],
  ])('%s', (text, low, high) => {
    expect(durationOf(text)).toEqual([low, high]);
  });

  it('overnight is vague', () => {
    expect(durationOf('overnight')).toEqual([480, 840, 'vague']);
  });
});

function temperatureOf(text: string): unknown {
  return (read('steps', `rest at ${text}`) as { temperature: unknown }).temperature;
}

describe('temperatures', () => {
  it.each([
    ['24 C', 24, 24, 'C'], ['24C', 24, 24, 'C'], ['24 °C', 24, 24, 'C'], ['24°C', 24, 24, 'C'], ['24 c', 24, 24, 'C'], ['24 ℃', 24, 24, 'C'],
    ['24 degrees Celsius', 24, 24, 'C'], ['-18 C', -18, -18, 'C'], ['−18 C', -18, -18, 'C'], ['240 to 250 C', 240, 250, 'C'], ['240 C to 250 C', 240, 250, 'C'],
    ['75 F', 23.89, 23.89, 'F'], ['75°F', 23.89, 23.89, 'F'], ['212 to 230 F', 100, 110, 'F'],
  ])('%s', (text, lowCelsius, highCelsius, unit) => {
    expect(temperatureOf(text)).toEqual({ kind: 'degrees', lowCelsius, highCelsius, unit });
  });

  it('room and fridge', () => {
    expect(temperatureOf('room')).toEqual({ kind: 'room' });
    expect(temperatureOf('room temperature')).toEqual({ kind: 'room' });
    expect(temperatureOf('Fridge')).toEqual({ kind: 'fridge' });
  });

  it('friction is a difference', () => {
    expect(read('formula "x"', 'friction 22 F')).toMatchObject({ value: { kind: 'difference', celsius: 12.22 } });
    expect(read('formula "x"', 'friction 4 to 8 C')).toMatchObject({ value: { kind: 'difference', celsius: 6 } });
  });
});

describe('names', () => {
  it.each([
    ["700 g baker's flour", "baker's flour"], ['700 g baker’s flour', 'baker’s flour'], ['700 g semi-whole   spelt', 'semi-whole spelt'], ['700 g 小麦粉', '小麦粉'],
    ['700 g crème fraîche', 'crème fraîche'], ['700 g "00  flour"', '00 flour'], ['700 g “00 flour”', '00 flour'], ['700 g „Roggen“', 'Roggen'], ['700 g half and half', 'half and half'],
    ['20 g flour at hand', 'flour at hand'], ['700 g मैदा', 'मैदा'], ['700 g 𠮷粉', '𠮷粉'],
  ])('%s', (line, text) => {
    expect(read('dough', line)).toMatchObject({ name: { text } });
  });

  it('a comment may not start inside quotes', () => {
    const block = blockOf('dough', '20 g "flour # 2" # the fine one');
    expect(block.lines[0]).toMatchObject({ node: { name: { text: 'flour # 2' } }, comment: { text: 'the fine one' } });
  });
});
