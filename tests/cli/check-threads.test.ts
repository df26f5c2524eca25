/** However many threads look at the files, what is said is the same, in the same order. */
import { describe, expect, test } from 'vitest';
import { proofsheet, workspace } from './program';

const loaf = (name: string, more = ''): string => `formula "${name}"

dough
  1000 g    bread flour
  700 g     water
  20 g      salt
${more}`;

/** Files that use each other across the folder, some with a slip, one that cannot be read, settings with a mistake. */
function bakery(): string {
  const files: Record<string, string | Uint8Array> = {
    'proofsheet.json': '{ "limit": {} }',
    'shelf 3/proofsheet.json': '{ "limits": { "salt-high": { "mostPct": 1 } }, "zone": "Nowhere" }',
    'odd.bake': Uint8Array.from([0xe9, 0x0a]),
    'zz/pantry.bake': 'ingredient "river flour"\n  like      bread flour\n',
  };
  for (let i = 0; i < 120; i++) {
    const name = `shelf ${String(i % 5)}/loaf-${String(i)}.bake`;
    const uses = i % 3 === 0 ? 'use "../zz/pantry.bake"\n\n' : i % 3 === 1 ? `use "../shelf ${String((i + 4) % 5)}/loaf-${String(i - 1)}.bake"\n\n` : '';
    files[name] = uses + loaf(i % 10 < 2 ? `Twin ${String(Math.floor(i / 10))}` : `Loaf ${String(i)}`, i % 7 === 0 ? '  2,5 g     river flour\n' : i % 3 === 0 ? '  25 g      river flour\n' : '  3         "👩‍🍳 é 漢"\n');
  }
  return workspace(files);
}

describe('threads', () => {
  test.each(['text', 'json', 'sarif', 'github'])('make no difference to %s', async (format) => {
    const cwd = bakery();
    const one = await proofsheet(['check', '--format', format, '--threads', '1'], { cwd });
    expect(one.out.length).toBeGreaterThan(10_000);
    expect(one.out).toContain('formula-twice');
    expect(one.err).toBe('odd.bake is not in UTF-8. Save it in that encoding.\n');
    for (const threads of ['2', '5']) expect(await proofsheet(['check', '--format', format, '--threads', threads], { cwd })).toEqual(one);
  });

  test('are not asked for standard input', async () => {
    const cwd = bakery();
    const { out } = await proofsheet(['check', '-', 'shelf 1', '--json', '--threads', '2'], { cwd, input: loaf('From outside') });
    expect((JSON.parse(out) as { readonly files: readonly { readonly path: string }[] }).files.map(({ path }) => path).slice(0, 2)).toEqual(['proofsheet.json', '<stdin>']);
  });

  test('many files use them by themselves, and say the same', async () => {
    const cwd = workspace(Object.fromEntries(Array.from({ length: 420 }, (_, i) => [`${String(i)}.bake`, loaf(`Loaf ${String(i)}`, '  2,5 g     rye flour\n')])));
    const asked = await proofsheet(['check', '--threads', '1'], { cwd });
    expect(asked.out).toMatch(/in 420 files\n$/);
    expect(await proofsheet(['check'], { cwd })).toEqual(asked);
  });
});
