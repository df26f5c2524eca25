import { describe, expect, it } from 'vitest';
import type { Range } from 'vscode-languageserver';
import { inlayHintsOf, resolvedHint } from '../../server/features/inlay-hints';
import { marked, RYE, ROOT } from './marked';

const WHOLE: Range = { start: { line: 0, character: 0 }, end: { line: 9999, character: 0 } };

const SHARES = `formula "Loaf"
  makes     2 loaves of 900 g
  room      21 C

dough at 25 C
  100 %     bread flour
  70 %      water at 20 C
  2 %       salt, fine
  1 %       fresh yeast
  30 g      rice flour for dusting

steps
  bulk      3 h at room
    fold    at 30 min
  bake      40 min at 450 F
`;

/** The text with every hint in it, in ‹ ›. */
async function shown(text: string, hints: 'off' | 'quiet' | 'all' | undefined, range = WHOLE) {
  const { file, project } = await marked(text);
  if (hints !== undefined) project.configure({ hints });
  const now = project.get(file.uri)!;
  const found = inlayHintsOf(now, range);
  const lines = now.text.split('\n');
  for (const { position, label } of [...found].reverse()) {
    const line = lines[position.line]!;
    lines[position.line] = `${line.slice(0, position.character)}‹${label as string}›${line.slice(position.character)}`;
  }
  return { text: lines.join('\n'), found, file: now, project };
}

describe('hints', () => {
  it('say what a share comes to, behind the name, and no more unless asked', async () => {
    const { text } = await shown(SHARES, undefined);
    expect(text).toContain('  100 %     bread flour‹1040 g›\n  70 %      water‹728 g› at 20 C\n  2 %       salt‹20.8 g›, fine\n'.replace('20.8', '21'));
    expect(text).toContain('  30 g      rice flour for dusting\n');
    expect(text).toContain('  bulk      3 h at room\n');
  });

  it('in a total formula say what the list holds, and how much of a preferment goes in', async () => {
    const source = 'formula "T"\n  makes 1000 g\n\nlevain\n  100 % bread flour\n  100 % water\n\ntotal formula\n  100 % bread flour\n  70 % water\n  20 % of flour in levain\n';
    // 1000 g over 170 %: 588.2 g of flour; a fifth of it and as much water are the levain.
    expect((await shown(source, 'quiet')).text).toContain('  100 % bread flour‹588 g›\n  70 % water‹412 g›\n  20 % of flour in levain‹235 g of it›\n');
  });

  it('are off where they are off', async () => {
    expect((await shown(SHARES, 'off')).found).toEqual([]);
  });

  it('of all kinds: shares of grams, the other scale, how long after the first step', async () => {
    const { text } = await shown(SHARES, 'all');
    expect(text).toContain('dough at 25 C‹77 F›\n');
    expect(text).toContain('water‹728 g› at 20 C‹68 F›\n');
    expect(text).toContain('bulk      3 h at room‹21 C›‹first of all›\n');
    expect(text).toContain('fold    at 30 min‹after 30 min›\n');
    expect(text).toContain('bake      40 min at 450 F‹232 C›‹after 3 h›\n');
    const rye = (await shown(RYE, 'all')).text;
    expect(rye).toContain('  600 g     water‹68.2 %›\n');
    expect(rye).toContain('  all       levain‹132 g›\n');
    // A soaker has no flour to take a share of.
    expect(rye).toContain('  40 g      water at 90 C‹194 F›\n');
    expect(rye).toContain('  20 g      rice flour for dusting\n');
  });

  it('are clock times where a time is chosen', async () => {
    const plan = `${SHARES}\nplan "Saturday"\n  ready 2026-03-14 08:00 Europe/Lisbon\n  bake 2 loaves of "Loaf"\n`;
    expect((await shown(plan, 'all')).text).toContain('bake      40 min at 450 F‹232 C›‹Sat 07:20›\n');
  });

  it('never stand on a line with an error', async () => {
    const text = SHARES.replace('2 %       salt, fine', '2 %       wibble wobble (').replace('70 %  ', '70,5 %');
    const { found, file } = await shown(text, 'all');
    const broken = file.tree.blocks.flatMap(({ block, offset }) => block.problems.map(({ start }) => file.lineIndex.positionAt(offset + start).line));
    expect(broken.length).toBeGreaterThan(1);
    expect(found.filter(({ position }) => broken.includes(position.line))).toEqual([]);
    expect(found.length).toBeGreaterThan(3);
  });

  it('of a range are those in it', async () => {
    const { found } = await shown(SHARES, 'quiet', { start: { line: 6, character: 0 }, end: { line: 6, character: 99 } });
    expect(found.map(({ label }) => label)).toEqual(['728 g']);
  });

  it('say what they are of when they are looked at', async () => {
    const { found, file } = await shown(SHARES, 'all');
    const tooltips = found.map(hint => resolvedHint(file, hint).tooltip);
    expect(tooltips).toContainEqual(expect.objectContaining({ value: expect.stringContaining('70 % of the 1040 g of flour in dough') }));
    expect(tooltips).toContainEqual(expect.objectContaining({ value: expect.stringContaining('Counted from the first step') }));
    expect(tooltips.every(tooltip => tooltip !== undefined)).toBe(true);
    expect(found.filter(({ tooltip, data }) => tooltip !== undefined && data !== undefined)).toEqual([]);
    const old = { position: { line: 0, character: 0 }, label: 'x', data: { uri: `${ROOT}/main.bake`, offset: 3 } };
    expect(resolvedHint(file, old)).toBe(old);
  });
});
