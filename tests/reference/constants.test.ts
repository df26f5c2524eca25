import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { constantsPage, figure, TABLES } from './constants';

const CORE = path.join(import.meta.dirname, '../../server/core');
const PAGE = path.join(CORE, 'constants.md');

describe('the page of constants', () => {
  it('is what the tables say (UPDATE=1 writes it)', () => {
    const page = constantsPage();
    if (process.env.UPDATE === '1') writeFileSync(PAGE, page);
    expect(readFileSync(PAGE, 'utf8')).toBe(page);
  });

  it('has every table, and for every number a unit and a source', () => {
    for (const { title, rows } of TABLES) {
      expect(rows.length, title).toBeGreaterThan(4);
      expect(new Set(rows.map(({ name }) => name)).size, title).toBe(rows.length);
      for (const { name, value, unit, source } of rows) {
        expect(unit, name).not.toBe('');
        expect(value, name).toMatch(/\d/);
        expect(value, name).not.toMatch(/NaN|undefined|Infinity/);
        expect(source.length, name).toBeGreaterThan(5);
      }
    }
  });

  it('leaves out no room that has constants', () => {
    const files = readdirSync(CORE).map((room) => `${room}/constants.ts`).filter((file) => existsSync(path.join(CORE, file)));
    expect(files.length).toBeGreaterThan(4);
    expect(files.filter((file) => !TABLES.some((table) => table.file === file))).toEqual([]);
  });

  it('has ranges that hold the value', () => {
    for (const { name, value, range } of TABLES.flatMap(({ rows }) => rows)) {
      if (range === '') continue;
      const [low = NaN, high = NaN] = range.split(' to ').map(Number);
      expect(low, name).toBeLessThanOrEqual(Number(value));
      expect(high, name).toBeGreaterThanOrEqual(Number(value));
    }
  });

  it('writes numbers to six figures', () => {
    expect([1, 0.0025, 2.255_77e-5, 236.588_236_5, 101_325].map(figure)).toEqual(['1', '0.0025', '0.0000225577', '236.588', '101325']);
  });
});
