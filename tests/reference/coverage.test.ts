/** Every example from outside is looked at by some test: nobody adds one to `checks.json` and forgets it. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { lookedAt, outside, outsideChecks, PUBLISHED, UNPUBLISHED, type Kind, type OutsideCheck } from './outside';

const texts = readdirSync(import.meta.dirname)
  .filter((name) => name.endsWith('.test.ts') && name !== 'coverage.test.ts')
  .map((name) => readFileSync(path.join(import.meta.dirname, name), 'utf8'));

/** By its id or its topic as a literal, or by the topic's last word where the file puts the first one before it. */
function isHandled({ id, topic }: OutsideCheck): boolean {
  const [area = '', name = ''] = topic.split('.');
  return texts.some((text) => text.includes(`'${id}'`) || text.includes(`'${topic}'`) || (text.includes(`\`${area}.\${`) && text.includes(`'${name}'`)));
}

describe('examples from outside', () => {
  it('are all handled by a test', () => {
    expect(outsideChecks.filter((check) => !isHandled(check)).map(({ id, topic }) => `${id} ${topic}`)).toEqual([]);
  });

  it('have an id each', () => {
    const ids = outsideChecks.map(({ id }) => id);
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
  });

  it('say where they come from, each by itself', () => {
    expect(outsideChecks.filter(({ source }) => source.trim() === '' || /^(as above|the same)/.test(source)).map(({ id }) => id)).toEqual([]);
    expect(outsideChecks.filter(({ kind }) => ![...PUBLISHED, ...UNPUBLISHED].includes(kind)).map(({ id }) => id)).toEqual([]);
  });
});

describe('a check against the outside', () => {
  /** Tests of this folder that check the folder itself, or a page, and nothing outside. */
  const HOUSEKEEPING = ['constants.test.ts', 'count.test.ts', 'coverage.test.ts'];

  /** Whether a text takes a test function from elsewhere than `outside.ts`, which wants a kind and a source. */
  const hasBareTests = (text: string): boolean => /import [^;]*\b(it|test)\b[^;]*from 'vitest'/.test(text) || /\bimport \* as \w+ from 'vitest'/.test(text);

  it('cannot be written without a kind and a source', () => {
    expect(() => outside('dataset', ' ')).toThrow('names its source');
    expect(() => outside('hearsay' as Kind, 'a neighbour')).toThrow('no kind of check');
    expect(hasBareTests("import { describe, expect, it } from 'vitest';")).toBe(true);
    expect(hasBareTests("import {\n  test,\n  expect,\n} from 'vitest';")).toBe(true);
    expect(hasBareTests("import { describe, expect } from 'vitest';\nimport { it } from './other';")).toBe(false);
  });

  it('notices a field of an example that nothing is compared with', () => {
    const { fields, unseen } = lookedAt({ flour_g: 100, water_g: 70 });
    expect(fields.flour_g).toBe(100);
    expect(unseen()).toEqual(['water_g']);
    expect(fields).toEqual({ flour_g: 100, water_g: 70 });
    expect(unseen()).toEqual([]);
  });

  it('is what every test of this folder is', () => {
    const bare = readdirSync(import.meta.dirname)
      .filter((name) => name.endsWith('.test.ts') && !HOUSEKEEPING.includes(name))
      .filter((name) => hasBareTests(readFileSync(path.join(import.meta.dirname, name), 'utf8')));
    expect(bare).toEqual([]);
  });
});
