/** Plans that cannot be meant, in the editor and from the command line: each is answered, in plain words, and soon. */
import { describe, expect, it } from 'vitest';
import { previewAt } from '../../server/features/preview';
import { ran } from '../cli/in-process';
import { marked } from './marked';

const ROLLS = `formula "Rolls"
  makes     20 rolls of 60 g

dough
  100 %     bread flour
  60 %      water
  2 %       salt
  1 %       instant yeast

steps
  mix       8 min, by mixer
  bulk      1 h at 24 C
  shape     15 min
  proof     50 to 60 min at 26 C
  preheat   30 min at 220 C
  bake      15 min at 220 C
  cool      20 min

`;
const READY = 'ready 2027-03-13 09:00 Europe/Lisbon';
const OVEN = 'oven holds 20 rolls';
const BAKE = 'bake 20 rolls of "Rolls"';
const usual = { zone: 'Europe/Lisbon', anchor: { kind: 'ready', epochMs: 0 } } as const;
const words = (html: string): string => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ').replace(/&#39;/g, '\'').replace(/&quot;/g, '"');

interface Odd {
  readonly what: string;
  readonly lines: readonly string[];
  readonly formula?: string;
  /** Of the plan or the formula, as one types; undefined when nothing is to be found. */
  readonly finding: RegExp | undefined;
  /** In the preview and from the command line alike. */
  readonly day: RegExp;
}

const ODD: readonly Odd[] = [
  {
    what: 'in an hour that the clocks skip', lines: ['ready 2027-03-28 01:30 Europe/Lisbon', OVEN, BAKE],
    finding: /There is no 01:30 on 2027-03-28 .* is 02:00\./, day: /There is no 01:30 on 2027-03-28/,
  },
  {
    what: 'in an hour that comes twice', lines: ['ready 2027-10-31 01:30 Europe/Lisbon', OVEN, BAKE],
    finding: /01:30 comes twice on 2027-10-31 .* The earlier one is taken/, day: /01:30 comes twice on 2027-10-31/,
  },
  {
    what: 'in a zone that there is not', lines: ['ready 2027-03-13 09:00 Europe/Lisboa', OVEN, BAKE],
    finding: /There is no time zone "Europe\/Lisboa"\. Did you mean Europe\/Lisbon\?/, day: /Did you mean Europe\/Lisbon\?/,
  },
  { what: 'with an oven that holds nothing', lines: [READY, 'oven holds 0 rolls', BAKE], finding: /comes to nothing: write a number above 0\. Until then this line is left out\./, day: /09:00/ },
  { what: 'with nobody to do it', lines: [READY, OVEN, 'hands 0', BAKE], finding: /nothing|above 0|at least 1/, day: /09:00/ },
  {
    what: 'with a loaf that fits no oven', lines: [READY, 'oven holds 3 kg', 'bake 1 loaf of "Rolls"'], formula: ROLLS.replace('20 rolls of 60 g', '1 loaf of 5 kg'),
    finding: /One piece of “Rolls” is 5000 g of dough, and no oven of this plan holds more than 3000 g\./, day: /Rolls is too much for one oven even by itself\./,
  },
  { what: 'of a formula that there is not', lines: [READY, OVEN, 'bake 20 rolls of "Rols"'], finding: /No formula called “Rols” .* Did you mean “rolls”\?/i, day: /Nothing to schedule|no formula that this plan bakes has steps/i },
  { what: 'with a bulk of no time', lines: [READY, OVEN, BAKE], formula: ROLLS.replace('bulk      1 h', 'bulk      0 min'), finding: /This bulk takes no time at all\./, day: /09:00/ },
  { what: 'with a bulk of years', lines: [READY, OVEN, BAKE], formula: ROLLS.replace('bulk      1 h', 'bulk      900 d'), finding: /too long for this bulk/, day: /24 Sep/ },
  { what: 'with a bulk of more years than there are', lines: [READY, OVEN, BAKE], formula: ROLLS.replace('bulk      1 h', 'bulk      900000000 d'), finding: /too long for this bulk/, day: /longer than ten years/ },
  { what: 'of two hundred doughs and one oven', lines: [READY, OVEN, 'hands 4', 'mixer holds 2 kg', 'bake 200 batches of "Rolls"'], finding: undefined, day: /No day was found that holds it all: Rolls, dough \d+ of 200/ },
  { what: 'of more loads than anybody plans', lines: [READY, OVEN, 'bake 9000 batches of "Rolls"'], finding: /more than 200|too many|9000/, day: /more than 200 loads/ },
];

describe('a plan that cannot be meant', { timeout: 60_000 }, () => {
  it.each(ODD)('$what', async ({ lines, formula = ROLLS, finding, day }) => {
    const text = `${formula}plan "P"\n${lines.map(line => `  ${line}\n`).join('')}`;
    const { file, offset } = await marked(`${text}┆`);
    const found = file.sections.flatMap(({ analysis }) => analysis.findings.map(({ message }) => message));
    if (finding === undefined) expect(found).toEqual([]);
    else expect(found.join('\n')).toMatch(finding);
    expect(words(previewAt(file, offset, usual)!.html)).toMatch(day);
    const { out, err, status } = await ran(['schedule', '-'], { input: text });
    expect(out.replace(/\s+/g, ' ')).toMatch(day);
    expect(status).toBeLessThan(2);
    expect(out + err).not.toMatch(/undefined|NaN|Infinity|\[object/);
  });

  it('with a time that has gone by says so, and is shown all the same', async () => {
    const text = `${ROLLS}plan "P"\n  ${READY}\n  ${OVEN}\n  ${BAKE}\n`;
    const { file, offset } = await marked(`${text}┆`);
    const shown = (nowMs: number): string => words(previewAt(file, offset, usual, nowMs)!.html);
    const late = Date.UTC(2027, 2, 14, 9);
    expect(shown(late)).toMatch(/2027-03-13 09:00 went by 24 h ago: change the date for the next bake day\. Begun Sat 13 Mar/);
    expect(shown(Date.UTC(2027, 2, 13, 8))).not.toContain('went by');
    const { out, err, status } = await ran(['schedule', '-'], { input: text, nowMs: late });
    expect({ err, status }).toEqual({ err: '"P": 2027-03-13 09:00 went by 24 h ago: change the date for the next bake day.\n', status: 0 });
    expect(out).toMatch(/ready {2}Sat 13 March 2027, 09:00/);
  });
});
