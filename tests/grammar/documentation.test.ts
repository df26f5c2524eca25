/** The examples in the language reference are read as any other file. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { format, STEP_KINDS, PART_KINDS, ROLES } from '../../grammar';
import { problemsIn } from './helpers';

const page = readFileSync(new URL('../../grammar/README.md', import.meta.url), 'utf8');
const examples = [...page.matchAll(/^```(bake[^\n]*)\n([\s\S]*?)^```$/gm)].map(([, info = '', text = '']) => ({ info, text }));

describe('the language reference', () => {
  it.each(examples.filter(({ info }) => info === 'bake'))('$text', ({ text }) => {
    expect(problemsIn(text).map(({ problem }) => problem.message)).toEqual([]);
    expect(format(text)).toBe(text);
  });

  it.each(examples.filter(({ info }) => info !== 'bake'))('$text', ({ info, text }) => {
    expect(info).toBe('bake with mistakes');
    expect(problemsIn(text).map(({ problem }) => problem.code).sort()).toEqual(['comma-decimal', 'incomplete', 'incomplete']);
  });

  it('names every step, part and role', () => {
    for (const word of [...STEP_KINDS, ...PART_KINDS, ...ROLES]) expect(page, word).toMatch(new RegExp(`\`${word}[ \`]`));
  });
});
