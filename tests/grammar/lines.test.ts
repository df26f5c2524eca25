/** Every kind of line, and every kind of block. */
import { describe, expect, it } from 'vitest';
import { parse, parseBlock } from '../../grammar';
import { bare, blockOf, nodesUnder, read } from './helpers';

describe('ingredient lines', () => {
  it('temperature, role, purpose and note', () => {
    expect(read('dough', '80 g rolled oats at 90 C as inclusion for the top, soft, not wet')).toMatchObject({
      kind: 'ingredient',
      name: { text: 'rolled oats' },
      temperature: { kind: 'degrees', lowCelsius: 90 },
      role: { role: 'inclusion' },
      purpose: { text: 'the top' },
      note: { text: 'soft, not wet', quoted: false },
    });
  });

  it('in any order', () => {
    expect(read('dough', '80 g oats for dusting as other at room')).toMatchObject({ temperature: { kind: 'room' }, role: { role: 'other' }, purpose: { text: 'dusting' } });
  });

  it('the hydration of a starter', () => {
    expect(read('levain', '12 g starter at 60 % hydration')).toMatchObject({ name: { text: 'starter' }, hydrationPct: { value: 60 } });
  });

  it('the flour of a preferment in a total formula', () => {
    expect(read('total formula', '15 % of flour in levain')).toEqual({
      kind: 'flour-share', amount: { kind: 'share', quantity: { low: { value: 15, text: '15', comma: false } } }, part: { text: 'levain', quoted: false },
    });
  });

  it('what a dish takes from a formula', () => {
    expect(read('dish "x"', 'uses 8 slices of "Seed rye"')).toMatchObject({ kind: 'uses', amount: { kind: 'count' }, noun: { text: 'slices' }, formula: { text: 'Seed rye' } });
    expect(read('dish "x"', 'uses 300 g "Seed rye", dry')).toMatchObject({ kind: 'uses', amount: { kind: 'mass' }, formula: { text: 'Seed rye' }, note: { text: 'dry' } });
  });
});

describe('what a formula makes', () => {
  it.each([
    ['makes 2 loaves of 970 g', { pieces: { low: { value: 2 } }, noun: { text: 'loaves' }, each: { kind: 'mass', unit: 'g' } }],
    ['makes 2 loaves', { pieces: { low: { value: 2 } }, noun: { text: 'loaves' } }],
    ['makes 12', { pieces: { low: { value: 12 } } }],
    ['makes 1.8 kg', { each: { kind: 'mass', unit: 'kg' } }],
    ['makes 2 small tins of 1.8 l', { pieces: { low: { value: 2 } }, noun: { text: 'small tins' }, each: { kind: 'volume', unit: 'l' } }],
  ])('%s', (line, expected) => {
    expect(read('formula "x"', line)).toMatchObject({ kind: 'makes', ...expected });
  });

  it('a weight alone counts no pieces', () => {
    expect(read('formula "x"', 'makes 1.8 kg')).not.toHaveProperty('pieces');
  });
});

describe('properties', () => {
  it.each([
    ['formula "x"', 'style hearth, with seeds', { kind: 'list', items: [{ text: 'hearth' }, { text: 'with seeds' }] }],
    ['formula "x"', 'room 23 C', { kind: 'temperature', temperature: { lowCelsius: 23 } }],
    ['formula "x"', 'flour 20 C', { kind: 'temperature' }],
    ['formula "x"', 'loses 12 % in the oven', { kind: 'loss', percent: { value: 12 }, where: 'oven' }],
    ['formula "x"', 'loses 1.5 % at the bench', { kind: 'loss', where: 'bench' }],
    ['formula "x"', 'altitude 900 m', { kind: 'altitude', metres: 900 }],
    ['formula "x"', 'altitude 3000 ft', { kind: 'altitude', metres: 914.4 }],
    ['formula "x"', 'note "Keeps four days."', { kind: 'text', text: { text: 'Keeps four days.', quoted: true } }],
    ['formula "x"', 'version 2.1 (spring)', { kind: 'text', text: { text: '2.1 (spring)', quoted: false } }],
    ['dish "x"', 'serves 4', { kind: 'number', number: { value: 4 } }],
    ['dish "x"', 'serves 4 to 6', { kind: 'number', number: { value: 4 }, high: { value: 6 } }],
    ['levain', 'keep 40 g', { kind: 'amount', amount: { kind: 'mass' } }],
    ['scald', 'yields 140 g', { kind: 'amount', amount: { kind: 'mass' } }],
    ['ingredient "x"', 'like bread flour', { kind: 'name', name: { text: 'bread flour' } }],
    ['ingredient "x"', 'water 14 %', { kind: 'amount', amount: { kind: 'share' } }],
    ['ingredient "x"', 'absorbs 1.2 times its weight', { kind: 'number', number: { value: 1.2 } }],
    ['ingredient "x"', 'density 0.53 g per ml', { kind: 'density', mass: { quantity: { low: { value: 0.53 } } }, volume: 'ml' }],
    ['ingredient "x"', 'density 120 g per cup', { kind: 'density', volume: 'cup' }],
    ['ingredient "x"', 'each 58 g', { kind: 'amount', amount: { kind: 'mass' } }],
    ['ingredient "x"', 'costs 2.40 EUR per kg', { kind: 'cost', number: { value: 2.4 }, currency: 'EUR', unit: 'kg' }],
    ['ingredient "x"', 'costs 0.30 eur each', { kind: 'cost', currency: 'EUR', unit: 'each' }],
    ['ingredient "x"', 'contains milk, tree nuts', { kind: 'list', items: [{ text: 'milk' }, { text: 'tree nuts' }] }],
    ['ingredient "x"', 'role flour', { kind: 'text', text: { text: 'flour' } }],
    ['record 2026-03-14', 'dough 24.6 C', { kind: 'temperature' }],
    ['record 2026-03-14', 'core 97 C', { kind: 'temperature' }],
    ['record 2026-03-14', 'ph 4.1', { kind: 'number', number: { value: 4.1 } }],
    ['record 2026-03-14', 'weighed 1512 g, 2 loaves, after 3 h', { kind: 'weighed', pieces: { low: { value: 2 } }, noun: { text: 'loaves' }, after: { lowMinutes: 180 } }],
    ['record 2026-03-14', 'weighed 1512 g', { kind: 'weighed', mass: { unit: 'g' } }],
    ['plan "x"', 'ready 2026-03-14 8:00 Europe/Lisbon', { kind: 'instant', date: '2026-03-14', time: '08:00', zone: 'Europe/Lisbon' }],
    ['plan "x"', 'ready 2026-03-14 08:00 UTC', { kind: 'instant', zone: 'UTC' }],
    ['plan "x"', 'ready 2026-03-14', { kind: 'instant', date: '2026-03-14' }],
    ['plan "x"', 'asleep 22:30 to 5:30', { kind: 'clock-range', from: '22:30', to: '05:30' }],
    ['plan "x"', 'start 2026-03-13 18:00', { kind: 'instant', date: '2026-03-13', time: '18:00' }],
    ['plan "x"', 'asleep 22:00 to 6:00 on Saturday and Sun', { kind: 'clock-range', from: '22:00', to: '06:00', days: [{ from: 6, to: 6 }, { from: 7, to: 7 }] }],
    ['plan "x"', 'away 09:00 to 17:00 on Mon to Thurs, Fri', { kind: 'clock-range', days: [{ from: 1, to: 4 }, { from: 5, to: 5 }] }],
    ['plan "x"', 'room 21 C', { kind: 'temperature', temperature: { lowCelsius: 21 } }],
    ['plan "x"', 'oven holds 4 loaves', { kind: 'capacity', holds: [{ quantity: { low: { value: 4 } }, noun: { text: 'loaves' } }] }],
    ['plan "x"', 'oven holds 4 loaves or 24 small rolls', { kind: 'capacity', holds: [{ noun: { text: 'loaves' } }, { quantity: { low: { value: 24 } }, noun: { text: 'small rolls' } }] }],
    ['plan "x"', 'oven "deck" holds 3 decks of 4 loaves or 8', {
      kind: 'capacity', name: { text: 'deck' }, decks: { quantity: { low: { value: 3 } }, noun: { text: 'decks' } },
      holds: [{ quantity: { low: { value: 4 } } }, { quantity: { low: { value: 8 } } }],
    }],
    ['plan "x"', 'oven holds 4 tins of bread or so', { kind: 'capacity', holds: [{ noun: { text: 'tins of bread or so' } }] }],
    ['plan "x"', 'fridge holds 12 loaves', { kind: 'capacity' }],
    ['plan "x"', 'hands 2', { kind: 'capacity', holds: [{ quantity: { low: { value: 2 } } }] }],
    ['plan "x"', 'mixer holds 3 kg', { kind: 'capacity', holds: [{ unit: 'kg' }] }],
    ['plan "x"', 'mixer holds 2 kg of flour', { kind: 'capacity', holds: [{ unit: 'kg', noun: { text: 'flour' } }] }],
    ['plan "x"', 'bake 3 kg of "Seed rye"', { kind: 'order', unit: 'kg', formula: { text: 'Seed rye' } }],
    ['plan "x"', 'bake 12 rolls of "Seed rye", ready 7:00', { kind: 'order', noun: { text: 'rolls' }, ready: { time: '07:00' } }],
    ['plan "x"', 'make 2 "Leek bake", ready 2026-03-14 12:00', { kind: 'order', ready: { date: '2026-03-14', time: '12:00' } }],
    ['plan "x"', 'bake 6 loaves of "Seed rye"', { kind: 'order', quantity: { low: { value: 6 } }, noun: { text: 'loaves' }, formula: { text: 'Seed rye' } }],
    ['plan "x"', 'bake 6 "Seed rye"', { kind: 'order', formula: { text: 'Seed rye' } }],
  ])('in %s: %s', (head, line, value) => {
    expect(read(head, line)).toMatchObject({ kind: 'property', key: line.split(' ')[0], value });
  });
});

describe('lines of a variant', () => {
  it.each([
    ['based on "Seed rye"', { kind: 'based-on', base: { text: 'Seed rye' } }],
    ['swap walnuts for pistachios', { kind: 'swap', from: { text: 'walnuts' }, to: { text: 'pistachios' } }],
    ['swap dried figs for dried pears in figs', { kind: 'swap', from: { text: 'dried figs' }, to: { text: 'dried pears' }, part: { text: 'figs' } }],
    ['set water to 620 g', { kind: 'set', name: { text: 'water' }, amount: { kind: 'mass' } }],
    ['set eggs to 4 in custard', { kind: 'set', amount: { kind: 'count' }, part: { text: 'custard' } }],
    ['set water to 74 %', { kind: 'set', amount: { kind: 'share' } }],
    ['add 10 g orange zest', { kind: 'add', line: { kind: 'ingredient', name: { text: 'orange zest' } } }],
    ['add 10 g zest as spice in old dough', { kind: 'add', line: { role: { role: 'spice' } }, part: { text: 'old dough' } }],
    ['add 10 g zest, put in late', { kind: 'add', line: { note: { text: 'put in late' } } }],
    ['drop rice flour in dough', { kind: 'drop', name: { text: 'rice flour' }, part: { text: 'dough' } }],
  ])('%s', (line, expected) => {
    expect(read('formula "x"', line)).toMatchObject(expected);
  });
});

describe('heads', () => {
  it.each([
    ['use "pantry.bake"', { kind: 'use', path: { text: 'pantry.bake' } }],
    ['formula "Seed rye"', { kind: 'formula', name: { text: 'Seed rye' } }],
    ['FORMULA “Seed rye”', { kind: 'formula', name: { text: 'Seed rye' } }],
    ['dish "Pudding"', { kind: 'dish' }],
    ['levain', { kind: 'part', part: 'levain' }],
    ['old dough', { kind: 'part', part: 'old dough' }],
    ['Total  Formula', { kind: 'part', part: 'total formula' }],
    ['soaker "figs" at 90 C', { kind: 'part', part: 'soaker', name: { text: 'figs' }, temperature: { lowCelsius: 90 } }],
    ['part "crumble"', { kind: 'part', part: 'part', name: { text: 'crumble' } }],
    ['dough at 25 C', { kind: 'part', part: 'dough', temperature: { lowCelsius: 25 } }],
    ['steps', { kind: 'steps' }],
    ['ingredient "Mill rye"', { kind: 'ingredient', name: { text: 'Mill rye' } }],
    ['ingredient mill rye', { kind: 'ingredient', name: { text: 'mill rye', quoted: false } }],
    ['record 2026-03-14', { kind: 'record', date: '2026-03-14' }],
    ['plan "Saturday"', { kind: 'plan', name: { text: 'Saturday' } }],
  ])('%s', (head, expected) => {
    const block = parseBlock(`${head}\n`);
    expect(block.problems).toEqual([]);
    expect(bare(block.head.node)).toMatchObject(expected);
  });
});

describe('blocks of a file', () => {
  const headsOf = (text: string): readonly string[] => parse(text).blocks.map(({ block }) => block.head.node.kind);

  it('an empty file has none', () => {
    expect(parse('').blocks).toEqual([]);
  });

  it('comments and blank lines above a head are its own, and at the end they stay with the last block', () => {
    const { blocks } = parse('# bakery\n\nuse "a.bake"\n\n# the rye\nformula "x"\n  room 23 C\n\n# end\n');
    expect(blocks.map(({ block }) => block.text)).toEqual(['# bakery\n\nuse "a.bake"\n', '\n# the rye\nformula "x"\n  room 23 C\n\n# end\n']);
    expect(blocks[1]?.block.leading.map(({ node }) => node.kind)).toEqual(['blank', 'comment']);
    expect(blocks[1]?.block.lines.map(({ node }) => node.kind)).toEqual(['property', 'blank', 'comment']);
  });

  it('a comment in the first column does not end a block', () => {
    expect(nodesUnder('dough', '700 g flour').length).toBe(1);
    expect(headsOf('dough\n  700 g flour\n# 20 g bran\n  14 g salt\n')).toEqual(['part']);
  });

  it('lines before the first head are a block without one', () => {
    expect(headsOf('  700 g flour\ndough\n')).toEqual(['none', 'part']);
    expect(headsOf('# only this\n\n')).toEqual(['none']);
  });

  it.each(['\n', '\r\n', '\r'])('line ends of %j', (end) => {
    const tree = parse(['formula "x"', '  room 23 C', 'dough', '  700 g flour'].join(end));
    expect(tree.blocks.map(({ block }) => [block.head.node.kind, block.lines.length, block.problems.length])).toEqual([['formula', 1, 0], ['part', 1, 0]]);
  });

  it('a byte-order mark is no text', () => {
    expect(parse('\ufeffdough\n').blocks[0]).toMatchObject({ offset: 0, block: { head: { node: { kind: 'part', start: 1 } }, problems: [] } });
  });

  it('a half-written block does not swallow the next one', () => {
    expect(headsOf('formula "Seed\nlevain\n  60 g\ndough\n  700 g flour\n')).toEqual(['formula', 'part', 'part']);
  });
});

describe('indents', () => {
  it.each(['    ', '\t', ' ', '\u00a0\u00a0'])('of %j', (indent) => {
    const block = parseBlock(`steps\n${indent}bulk 3 h\n${indent}${indent}fold at 30 min\n${indent}shape\n`);
    expect(block.problems).toEqual([]);
    expect(block.lines.map(({ children }) => children.length)).toEqual([1, 0]);
  });

  it('an ingredient that slipped to the right is still one of the block', () => {
    const block = parseBlock('dough\n  700 g flour\n     14 g salt\n  500 g water\n');
    expect(block.lines.length).toBe(3);
  });

  it('a comment between two folds does not part them', () => {
    const block = parseBlock('steps\n  bulk 3 h\n    fold at 30 min\n  # wet hands\n    fold at 60 min\n  # then\n  shape\n');
    expect(block.lines.map(({ node, children }) => [node.kind, children.map((child) => child.node.kind)])).toEqual([
      ['step', ['step', 'comment', 'step']], ['comment', []], ['step', []],
    ]);
  });

  it('folds under a mistyped bulk stay under it', () => {
    const block = blockOf('steps', 'bluk 3 h', '  fold at 30 min');
    expect(block.lines.map(({ node, children }) => [node.kind, children.length])).toEqual([['bad', 1]]);
  });
});

describe('accept comments', () => {
  it('behind a line, and above it', () => {
    const block = blockOf('dough', '20 g salt # accept salt-range: for the crackers', '# Accept high-yeast, salt-range: a trial', '20 g yeast');
    expect(block.lines[0]?.comment?.accept).toMatchObject({ codes: [{ code: 'salt-range' }], reason: 'for the crackers' });
    expect(block.lines[1]?.comment?.accept).toMatchObject({ codes: [{ code: 'high-yeast' }, { code: 'salt-range' }], reason: 'a trial' });
    const code = block.lines[1]?.comment?.accept?.codes[1];
    expect(block.text.slice(code?.start, code?.end)).toBe('salt-range');
  });

  it('other comments are only comments', () => {
    expect(blockOf('dough', '20 g salt # accepted by all').problems).toEqual([]);
  });
});
