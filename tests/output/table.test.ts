import { expect, test } from 'vitest';
import { table, type Column } from '../../server/output/table';

const name: Column = { align: 'left', gap: 0 };
const number: Column = { align: 'decimal', gap: 2 };

test('numbers stand with their points under one another, names by what they take on the screen', () => {
  const lines = table([name, number, number], [
    ['', 'g', '%'],
    ['ライ麦粉', '853', '76.9'],
    ['Crème', '8.4', '–'],
    ['yeast', '0.03', '0.03'],
    ['salt', '', '2.0'],
  ]);
  expect(`\n${lines.join('\n')}\n`).toBe(`
               g      %
ライ麦粉  853     76.9
Crème       8.4    –
yeast       0.03   0.03
salt               2.0
`);
});

test('no line ends in a space, and a row may be short', () => {
  expect(table([name, number], [['a', '1'], ['bcd'], ['', '']])).toEqual(['a    1', 'bcd', '']);
});
