/** What the checks on records leave alone, and what they say. */
import { describe, expect, it } from 'vitest';
import { findingsIn } from '../bake';

const loaf = (head: string, records: string, steps = '') => `formula "Country loaf"
  makes     2 loaves of 860 g
${head}
dough
  1000 g    bread flour
  700 g     water
  20 g      salt

${steps === '' ? '' : `steps\n${steps}\n`}
${records}`;
const said = (text: string, code: string) => findingsIn(text).filter((found) => found.code === code);

describe('a core that was too low', () => {
  it('goes by the style, the height, and a core that the formula asks for', () => {
    const record = 'record 2026-05-02\n  core 92 C\n';
    expect(said(loaf('  style hearth\n', record), 'record-core-low')[0]?.message).toBe(
      'The core was 92 C on 2026-05-02, under 93 C, the least for this style: the crumb is moist and sinks. Bake the next one on.',
    );
    expect(said(loaf('  style enriched\n', record), 'record-core-low')).toEqual([]);
    expect(said(loaf('  style hearth\n  altitude 1500 m\n', record), 'record-core-low')).toEqual([]);
    // What the formula asks for is told at the formula.
    expect(said(loaf('  style hearth\n', record, '  bake 40 min at 240 C, until core 92 C'), 'record-core-low')).toEqual([]);
  });

  it('is found on the line of a bake, too', () => {
    const [found] = said(loaf('  style hearth\n', 'record 2026-05-02\n  bake 30 min at 240 C, core 84 C\n'), 'record-core-low');
    expect(found?.text).toBe('bake 30 min at 240 C, core 84 C');
  });
});

describe('a loss that bakes do not bear out', () => {
  const weighed = (...grams: readonly number[]) => grams.map((one, at) => `record 2026-05-0${at + 1}\n  weighed ${one} g, 2 loaves\n`).join('\n');
  const LOSES = '  loses 12 % in the oven\n';

  it('takes three bakes, and two points', () => {
    expect(said(loaf(LOSES, weighed(1428, 1410)), 'record-loss-differs')).toEqual([]);
    // 13.9 % on average.
    expect(said(loaf(LOSES, weighed(1480, 1482, 1481)), 'record-loss-differs')).toEqual([]);
    expect(said(loaf(LOSES, weighed(1428, 1410, 1393)), 'record-loss-differs')[0]?.message).toBe(
      'The formula says that 12 % is lost in the oven; 3 bakes lost 18 % on average (17 to 19 %). '
      + 'The weights of baked loaves on the sheet are that far off. Write 18 % if these bakes are how you bake.',
    );
  });

  it('leaves out what was weighed wrong, and formulas that say no loss', () => {
    expect(said(loaf(LOSES, weighed(1428, 1410, 705)), 'record-loss-differs')).toEqual([]);
    expect(said(loaf(LOSES, weighed(1428, 1410, 3000)), 'record-loss-differs')).toEqual([]);
    expect(said(loaf('', weighed(1428, 1410, 1393)), 'record-loss-differs')).toEqual([]);
  });
});

describe('dates', () => {
  it('that are no day of the calendar are told where they stand, and count as none', () => {
    const found = findingsIn(loaf('', 'record 2026-02-30\n  core 97 C\n\nrecord 2026-02-30\n  core 97 C\n'));
    expect(found.map(({ message }) => message).filter((message) => message.includes('2026-02-30'))).toHaveLength(2);
    expect(found.filter(({ code }) => code === 'record-date-twice')).toEqual([]);
  });

  it('that come twice are told at each but the first', () => {
    const day = 'record 2026-05-02\n  core 97 C\n';
    const found = said(loaf('', [day, day, day].join('\n')), 'record-date-twice');
    expect(found).toHaveLength(2);
    expect(found[0]?.finding.related).toHaveLength(1);
  });
});

describe('a figure that cannot be', () => {
  const message = (line: string, head = '') => said(loaf(head, `record 2026-05-02\n  ${line}\n`), 'record-odd')[0]?.message;

  it('is told with what is possible', () => {
    expect(message('room 72 C')).toBe('A room of 72 C cannot be (-5 C to 45 C is possible). Is it meant in Fahrenheit?');
    expect(message('dough 246 C')).toBe('A dough of 246 C cannot be (-5 C to 45 C is possible). Correct it, or this bake is compared with something that never was.');
    expect(message('core 207 C')).toBe('A core of 207 C cannot be (40 C to 100 C is possible). Is it meant in Fahrenheit?');
    expect(message('ph 41')).toBe('A pH of 41 is none that dough has (3 to 9.5). Correct it.');
  });

  it('is one where water boils sooner', () => {
    expect(message('core 98 C')).toBeUndefined();
    expect(message('core 98 C', '  altitude 1500 m\n')).toContain('40 C to 95 C is possible');
  });

  it('is none in what is usual', () => {
    for (const line of ['room 31 C', 'dough 75 F', 'core 97 C', 'ph 4.1', 'ph 3.6', 'fridge 4 C']) expect(message(line)).toBeUndefined();
  });
});
