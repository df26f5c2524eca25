import { describe, expect, test } from 'vitest';
import { proofsheet } from './program';

const LOAF = `formula "Market loaf"
  makes     2 loaves of 900 g
  room      22 C
  loses     15 % in the oven

dough at 25 C
  100 %     bread flour
  70 %      water
  1 %       instant yeast
  2 %       salt

steps
  mix       8 min, by hand
  bulk      2 h at 22 C, until volume 75 %
  bake      40 min at 240 C

record 2026-05-02
  room      22 C
  bulk      1 h 40 min, volume 75 %
  weighed   1494 g, 2 loaves, after 2 h
`;

interface Sheets { readonly formulas: readonly { readonly records?: readonly { readonly loss_pct: number }[]; readonly pace?: unknown }[] }

describe('sheet --records', () => {
  test('prints the bakes under the sheet', async () => {
    const { out, status } = await proofsheet(['sheet', '-', '--records'], { input: LOAF });
    expect(status).toBe(0);
    expect(out).toMatch(/^Market loaf$/m);
    expect(out).toMatch(/^2026-05-02 .* 1 h 40 min/m);
    expect(out).toContain('A pace of your own takes 3 bakes');
    expect((await proofsheet(['sheet', '-'], { input: LOAF })).out).not.toContain('2026-05-02');
  });

  test('are of the size written, at any size', async () => {
    // Loaves of another weight are sheeted; the loaves that were weighed stay those of 900 g of dough.
    const { out } = await proofsheet(['sheet', '-', '--records', '--json', '--piece', '450'], { input: LOAF });
    const { formulas: [sheet] } = JSON.parse(out) as Sheets;
    expect(sheet?.records?.[0]?.loss_pct).toBeCloseTo(17, 6);
    expect(sheet?.pace).toHaveProperty('reason');
    const plain = await proofsheet(['sheet', '-', '--json'], { input: LOAF });
    expect((JSON.parse(plain.out) as Sheets).formulas[0]).not.toHaveProperty('records');
  });
});
