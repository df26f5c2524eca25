/** A plan in the editor: its preview as a bake day, at first as it is found and then as good as can be. */
import { describe, expect, it } from 'vitest';
import { firstDayAt, previewAt } from '../../server/features/preview';
import { schedulePlanAt } from '../../server/features/schedule-plan';
import { marked } from './marked';

const loaf = (name: string, bulk: string): string => `formula "${name}"
  makes 4 loaves of 850 g

dough
  100 % bread flour
  70 % water
  2 % salt
  0.3 % instant yeast

steps
  mix 10 min, by hand
  bulk ${bulk}
  shape 10 min
  proof 60 to 90 min
  preheat 45 min at 230 C
  bake 40 min at 230 C
  cool 1 h

`;
const MARKET = `${loaf('Country loaf', '4 h')}${loaf('Oat loaf', '3 h')}plan "Market"
  ready     2026-03-14 15:00 Europe/Lisbon
  asleep    22:30 to 05:00
  oven      holds 4 loaves
  ┆bake      8 loaves of "Country loaf"
  bake      4 loaves of "Oat loaf"
`;
const usual = { zone: 'Europe/Lisbon', anchor: { kind: 'ready', epochMs: 0 } } as const;
const words = (html: string): string => html.replace(/<title>[^<]*<\/title>/g, '').replace(/<[^>]*>/g, ' ').replace(/&[^;]+;/g, ' ').replace(/\s+/g, ' ');

describe('the preview of a plan', () => {
  it('has a lane for each dough and the oven, everything by the clock, the loads, and what to buy', async () => {
    const { file, offset } = await marked(MARKET);
    const { title, html } = previewAt(file, offset, usual)!;
    expect(title).toBe('Market');
    const lanes = [...html.matchAll(/<div class="lane-name">([^<]+)</g)].map(([, name]) => name);
    expect(lanes.filter(name => name!.startsWith('Country loaf')).length).toBeGreaterThan(0);
    expect(lanes).toContain('Oat loaf');
    expect(lanes).toContain('oven');
    expect(words(html)).toMatch(/Market Begun Sat 14 Mar [\d:]+, ready Sat 14 Mar [\d:]+/);
    expect(words(html)).toMatch(/By the clock Sat 14 Mar .*[\d:]+ mix, by hand 10 min Country loaf, dough \d of 2/);
    expect(words(html)).toMatch(/In the oven (Sat [\d:]+ – [\d:]+ oven: 4 loaves of [^,]+, [^S]*){3}/);
    expect(words(html)).toMatch(/To have in the house .* bread flour \d+ g/);
  });

  it('says of each of several levains which doughs it is for', async () => {
    const levain = (flour: string): string => `\nlevain\n  50 g ${flour}\n  50 g water\n  10 g starter\n  ripen 8 to 14 h\n\ndough`;
    const text = MARKET.replace('\ndough', levain('bread flour')).replace(/(Oat loaf"[^]*?)\ndough/, `$1${levain('rye flour')}`)
      .replaceAll('  2 % salt\n', '  2 % salt\n  all levain\n');
    const { file, offset } = await marked(text);
    const { html } = previewAt(file, offset, usual)!;
    const lanes = [...html.matchAll(/<div class="lane-name">([^<]+)</g)].map(([, name]) => name!);
    const levains = lanes.filter(name => name.startsWith('Levain'));
    expect(levains).toContain('Levain for Oat loaf');
    expect(levains.every(name => / for (Country|Oat) loaf/.test(name))).toBe(true);
    expect(levains.length).toBeGreaterThan(1);
  });

  it('leads from a bar to the line of its formula', async () => {
    const { file, offset } = await marked(MARKET);
    const { html } = previewAt(file, offset, usual)!;
    const lines = file.text.split('\n');
    const bars = [...html.matchAll(/<svg class="step[^>]*data-line="(\d+)"[^>]*aria-label="([^,"]*),/g)];
    expect(bars.length).toBeGreaterThan(10);
    for (const [, line, label = ''] of bars) expect(lines[Number(line) - 1]).toContain(label);
  });

  it('says why there is no day, with the lines that have to do with it', async () => {
    const { file, offset } = await marked(MARKET.replace('22:30 to 05:00', '22:30 to 14:30'));
    const { html } = previewAt(file, offset, usual)!;
    expect(html).toContain('class="conflict"');
    expect(html).toMatch(/<li><button[^>]*data-line="\d+"/);
  });

  it('of a file of its own is there with the cursor anywhere', async () => {
    const { file } = await marked(`use "loaves.bake"\n\n${MARKET.slice(MARKET.indexOf('plan '))}`, { 'loaves.bake': `${loaf('Country loaf', '4 h')}${loaf('Oat loaf', '3 h')}` });
    expect(previewAt(file, 0, usual)?.title).toBe('Market');
  });
});

describe('the first day of a long plan', () => {
  const long = MARKET.replaceAll('by hand', 'by mixer').replace('holds 4 loaves', 'holds 20 decks of 4 loaves').replace('bake      8 loaves', `hands 20\n${'  mixer holds 4 kg\n'.repeat(8)}  bake      160 loaves`);

  it('is looked for in turns, that whoever asked can end and go on with', async () => {
    const { file, offset } = await marked(long);
    expect(await firstDayAt(file, offset, () => false)).toBe(false);
    let [turns, others] = [0, 0];
    const beside = setInterval(() => others++, 0);
    expect(await firstDayAt(file, offset, () => ++turns > 0)).toBe(true);
    clearInterval(beside);
    expect(Math.min(turns, others)).toBeGreaterThan(1);
    const { html, isProvisional } = previewAt(file, offset, usual)!;
    expect(words(html)).toContain('Country loaf, dough 40 of 40');
    if (isProvisional) expect(words(html)).toContain('A better day is being looked for.');
  });

  it('is there at once for a formula', async () => {
    const { file } = await marked(MARKET);
    expect(await firstDayAt(file, 0, () => false)).toBe(true);
  });
});

describe('a better day', () => {
  it('is looked for until there is none, and then shown', async () => {
    const { file, offset } = await marked(MARKET);
    const first = previewAt(file, offset, usual)!;
    const shares: number[] = [];
    expect(await schedulePlanAt(file, offset, share => Promise.resolve(shares.push(share) > 0))).toEqual({ kind: 'scheduled' });
    const last = previewAt(file, offset, usual)!;
    expect(last.isProvisional).toBe(false);
    expect(words(last.html)).toMatch(/No better schedule exists|there may be a schedule/);
    expect(shares.length > 0).toBe(first.isProvisional);
    expect(shares.every(share => share > 0 && share < 1)).toBe(true);
  });

  it('is not looked for by who has seen enough', async () => {
    const { file, offset } = await marked(MARKET);
    previewAt(file, offset, usual);
    await schedulePlanAt(file, offset, () => Promise.resolve(false));
    expect(previewAt(file, offset, usual)!.isProvisional).toBe(false);
  });

  it('is there for plans only', async () => {
    const { file } = await marked(MARKET);
    expect(await schedulePlanAt(file, 0, () => Promise.resolve(true))).toBeUndefined();
  });
});
