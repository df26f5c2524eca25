import { describe, expect, it } from 'vitest';
import { renamedHead } from '../../client/renames';

describe('a formula that is given another name', () => {
  const after = (line: string, old: string, newText: string) => renamedHead(line, { start: line.indexOf(old), end: line.indexOf(old) + old.length, newText });

  it('is found by its head, before and after', () => {
    expect(after('formula "Country loaf"', 'Country loaf', 'Field loaf')).toEqual({ from: 'Country loaf', to: 'Field loaf' });
    expect(after('dish "Pudding" # warm', '"Pudding"', '"Crumbs"')).toEqual({ from: 'Pudding', to: 'Crumbs' });
    expect(after('   formula “Rye”', 'Rye', 'Rye, dark')).toEqual({ from: 'Rye', to: 'Rye, dark' });
  });

  it('where it is only named, nothing is', () => {
    expect(after('  bake 6 loaves of "Country loaf"', 'Country loaf', 'Field loaf')).toBeUndefined();
    expect(after('levain "night levain"', 'night levain', 'day levain')).toBeUndefined();
    expect(after('formula "Rye" # good', 'good', 'better')).toBeUndefined();
  });
});
