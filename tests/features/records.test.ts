/** Hovers on records of bakes. */
import { describe, expect, it } from 'vitest';
import { hoverAt } from '../../server/features/hover';
import { MARK, marked, textIn } from './marked';

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
  bake      40 min at 240 C, until core 97 C

record 2026-05-02
  room      22 C
  dough     25 C
  bulk      1 h 40 min, volume 75 %
  core      92 C
  weighed   1494 g, 2 loaves, after 2 h
  note      "Pale."

record 2026-05-09
  room      20 C
  bulk      1 h 50 min, volume 75 %

record 2026-05-16
  room      24 C
  bulk      1 h 35 min, volume 75 %
`;

async function hover(at: string) {
  const plain = at.replace(MARK, '');
  expect(LOAF).toContain(plain);
  const { file, offset } = await marked(LOAF.replace(plain, at));
  const found = hoverAt(file, offset);
  if (found === undefined) return undefined;
  const { contents, range } = found;
  if (typeof contents !== 'object' || !('value' in contents)) throw new Error('a hover is Markdown');
  return { text: contents.value.replaceAll('\\', ''), over: textIn(file.text, range!) };
}

describe('hover on a record', () => {
  it('sets a figure against its plan and says what it means', async () => {
    const core = await hover('co┆re      92 C');
    expect(core?.over).toBe('core');
    expect(core?.text).toContain('Planned 97 C, was 92 C (5 C less). 5 C under the plan: a moist, perhaps gummy crumb; bake it on next time.');
    expect((await hover('weigh┆ed   1494'))?.text).toContain('Planned 15 %, was 17 % (2 % more).');
    expect((await hover('room      22 C\n  dough     2┆5 C'))?.text).toContain('Planned 25 C, was 25 C. As planned.');
  });

  it('says each figure of a line that has several', async () => {
    const bulk = await hover('bu┆lk      1 h 40 min');
    expect(bulk?.text).toContain('Length: planned 2 h, was 1 h 40 min (20 min less). In that room and with that dough the formula\'s pace gives 2 h: this dough was quicker, or was shaped younger.');
    expect(bulk?.text).toContain('Volume: planned 75 %, was 75 %. The rise that was asked for.');
    expect((await hover('1 h 40┆ min'))?.text).toContain('this dough was quicker');
  });

  it('on its head, and on the name of the formula, tells all bakes and the pace', async () => {
    for (const at of ['rec┆ord 2026-05-02', 'Market l┆oaf']) {
      const text = (await hover(at))?.text ?? '';
      expect(text).toContain('**Records**');
      expect(text.indexOf('2026-05-16: bulk planned 2 h, was 1 h 35 min (25 min less)')).toBeGreaterThan(0);
      expect(text.indexOf('2026-05-02: bulk planned')).toBeGreaterThan(text.indexOf('2026-05-16: bulk planned'));
      expect(text).toMatch(/Your own pace is 1\.\d+ times the formula's, by 3 bakes/);
    }
  });

  it('leaves a note as it is', async () => {
    expect(await hover('"Pa┆le."')).toBeUndefined();
  });
});
