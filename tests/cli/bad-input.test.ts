/** Nonsense in a file, seen from a terminal: one line of a finding, null in JSON, a dash on the sheet, and why. */
import { describe, expect, test } from 'vitest';
import { proofsheet, workspace } from './program';

const loaf = (makes: string) => `formula "Stall loaf"\n  makes     ${makes}\n\ndough\n  100 %     bread flour\n  70 %      water\n  2 %       salt\n`;

describe('a formula of no pieces', () => {
  test('check tells it once, as an error', async () => {
    const { status, out } = await proofsheet(['check', '-'], { input: loaf('0 loaves of 900 g') });
    expect(status).toBe(1);
    expect(out).toMatch(/2:13.*error.*makes no pieces at all/s);
    expect(out.match(/makes-nothing/g)).toHaveLength(1);
    expect(out).toContain('1 error');
  });

  test('the sheet has dashes and says why', async () => {
    const { out } = await proofsheet(['sheet', '-'], { input: loaf('0 loaves of 900 g') });
    expect(out).toMatch(/bread flour\s+–/);
    expect(out).toContain('Not known: makes says no pieces.');
    expect(out).not.toMatch(/NaN|Infinity|null|undefined/);
  });

  test('JSON has null for every total, never 0', async () => {
    const { out } = await proofsheet(['sheet', '-', '--json'], { input: loaf('1/0 loaves of 900 g') });
    const { totals } = (JSON.parse(out) as { formulas: readonly { totals: Record<string, number | null> }[] }).formulas[0]!;
    expect(Object.keys(totals).length).toBeGreaterThan(15);
    expect(new Set(Object.values(totals))).toEqual(new Set([null]));
  });
});

test('no number of any length or kind breaks the sheet', async () => {
  for (const makes of [`${'9'.repeat(400)} loaves of 900 g`, '2 loaves of 0 g', '2 tins of 0 l', '-3 loaves of 900 g', '1/0 loaves of 900 g']) {
    const { status, out, err } = await proofsheet(['sheet', '-'], { input: loaf(makes) });
    expect({ makes, status }).toEqual({ makes, status: 1 });
    expect(err).toContain('1 error in "Stall loaf"');
    expect(out, makes).not.toMatch(/NaN|Infinity|null|undefined/);
    expect(out, makes).toContain('Not known:');
  }
});

describe('files that use each other', () => {
  const flour = 'ingredient "Stall flour"\n  like bread flour\n';
  const dough = 'formula "Stall loaf"\n\ndough\n  1000 g stall flour\n  700 g water\n  20 g salt\n';

  test('both are read, and each brings what it has', async () => {
    const cwd = workspace({ 'loaf.bake': `use "flours.bake"\n\n${dough}`, 'flours.bake': `use "loaf.bake"\n\n${flour}` });
    const { status, out } = await proofsheet(['check', '.'], { cwd });
    expect(status).toBe(0);
    expect(out).not.toMatch(/error|warning/);
  });

  test('a file that uses itself is told', async () => {
    const cwd = workspace({ 'loaf.bake': `use "loaf.bake"\n\n${dough.replace('stall', 'bread')}` });
    const { status, out } = await proofsheet(['check', '.'], { cwd });
    expect(status).toBe(1);
    expect(out).toContain('use-itself');
  });
});
