import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { format } from '../../grammar';
import { recordAt } from '../../server/features/record';
import { edited as editedPage } from '../../server/project/markdown';
import { Project } from '../../server/project/project';
import type { RecordAnswer } from '../../server/requests';
import { someText, wholeText } from '../core/arbitrary';
import { analyseText } from '../core/bake';
import { edited, marked, ROOT } from './marked';

const LISBON = 'Europe/Lisbon';
const NOON = Date.UTC(2027, 2, 13, 12);

const LOAF = `formula "Stall loaf"
  makes     2 loaves of 926 g
  room      22 C
  loses     15 % in the oven

levain
  60 g      rye flour
  60 g      water
  12 g      starter
  ripen     8 h at 24 C

dough at 25 C
  1000 g    bread flour
  700 g     water
  all       levain
  20 g      salt

steps
  mix       8 min, by hand
  bu┆lk      4 h at 24 C, until volume 75 %
  retard    10 to 16 h at fridge
  bake      20 min at 240 C, lid on
  bake      18 to 22 min at 215 C, lid off, until core 97 C  # dark
`;

async function begun(source: string, epochMs = NOON, others?: Readonly<Record<string, string>>): Promise<{ readonly before: string; readonly after: string; readonly answer: RecordAnswer }> {
  const { file, offset } = await marked(source, others);
  const answer = recordAt(file, offset, { epochMs, zone: LISBON });
  if (answer === null) throw new Error('no formula there');
  return { before: file.text, after: answer.kind === 'begun' ? edited(file.text, [answer.edit]) : file.text, answer };
}

/** The text with the planned lines of the record made to count, dots filled in. */
const filledIn = (text: string): string => text.replace(/^ {2}# (?!As planned)(.*)$/gm, (line, said: string) => (/^\w+ {2}/.test(said) ? `  ${said.replaceAll('…', '1')}` : line));

describe('a record is begun', () => {
  it('under the formula, with what is planned in comments', async () => {
    const { before, after, answer } = await begun(LOAF);
    expect(after).toBe(`${before.trimEnd()}

record 2027-03-13
  # As planned. Take the # off a line and write what you measured.
  # room      22 C
  # dough     25 C
  # ripen     8 h at 24 C
  # bulk      4 h at 24 C, volume 75 %
  # retard    10 to 16 h at fridge
  # bake      38 to 42 min
  # core      97 C
  # weighed   1574 g, 2 loaves
  # note      "…"
`);
    expect(answer).toMatchObject({ kind: 'begun', title: 'Stall loaf', date: '2027-03-13', line: after.split('\n').indexOf('record 2027-03-13') });
  });

  it('with dots where nothing is planned, and no line for a step that there is not', async () => {
    const { after } = await begun('formula "Bare"\n\ndough\n  500 g     bread fl┆our\n  300 g     water\n\nsteps\n  bulk\n');
    expect(after).toContain(`
record 2027-03-13
  # As planned. Take the # off a line and write what you measured.
  # room      … C
  # dough     … C
  # bulk      … min, volume … %
  # core      … C
  # weighed   … g
  # note      "…"
`);
  });

  it('before the formula that follows, and after the records that there are', async () => {
    const { after } = await begun(`${LOAF}\nrecord 2027-03-06\n  room      21 C\n\n# The next one.\nformula "Buns"\n\ndough\n  500 g     bread flour\n  300 g     water\n`);
    expect(after).toMatch(/\nrecord 2027-03-06\n {2}room {6}21 C\n\nrecord 2027-03-13\n( {2}# .*\n)+\n# The next one\.\nformula "Buns"/);
  });

  it('with the line ends of the file, at an end without one, and behind a comment', async () => {
    const { after } = await begun(LOAF.trimEnd().replaceAll('\n', '\r\n'));
    expect(after).toContain('# dark\r\n\r\nrecord 2027-03-13\r\n  # As planned.');
    expect(after.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });

  it('is laid out as the formatter would have it, and nothing is found in it', async () => {
    const { before, after } = await begun(LOAF);
    expect(format(after)).toBe(after);
    const found = (text: string) => analyseText(text).flatMap(({ findings }) => findings.map(({ code }) => code));
    expect(found(after)).toEqual(found(before));
  });

  it('of the day on the clock of the settings, else of the editor', async () => {
    const midnight = Date.UTC(2027, 2, 13, 23, 30);
    expect((await begun(LOAF, midnight)).answer.date).toBe('2027-03-13');
    expect((await begun(LOAF, midnight, { 'proofsheet.json': '{ "zone": "Pacific/Auckland" }' })).answer.date).toBe('2027-03-14');
  });

  it('is shown where it stands, when there is one of that day', async () => {
    const first = await begun(LOAF);
    const again = await begun(first.after.replace('bulk ', 'bu┆lk '));
    expect(again.answer).toEqual({ kind: 'there', title: 'Stall loaf', date: '2027-03-13', line: first.after.split('\n').indexOf('record 2027-03-13') });
  });

  it('nowhere outside of a formula', async () => {
    const { file, offset } = await marked('ingredient "river┆ flour"\n  like      bread flour\n');
    expect(recordAt(file, offset, { epochMs: NOON, zone: LISBON })).toBeNull();
  });

  it('in the last fence of its formula on a Markdown page, with the indent of that', async () => {
    const [head = '', steps = ''] = LOAF.replace('┆', '').split('\nsteps\n');
    const fence = (text: string): string => `  \`\`\`bake\n${text.trimEnd().split('\n').map((line) => (line === '' ? '' : `  ${line}`)).join('\n')}\n  \`\`\`\n`;
    const page = `- The loaf:\n\n${fence(head)}\n  And the steps:\n\n${fence(`steps\n${steps}`)}\nTo be sold.\n`;
    const project = new Project({ reader: { read: () => Promise.resolve(undefined) }, roots: [ROOT] });
    project.update(`${ROOT}/page.md`, page, true);
    const file = (await project.prepare(`${ROOT}/page.md`))!;
    const answer = recordAt(file, file.text.indexOf('1000 g'), { epochMs: NOON, zone: LISBON });
    if (answer?.kind !== 'begun') throw new Error('not begun');
    const after = editedPage(page, [answer.edit]);
    expect(after).toMatch(/# dark\n\n {2}record 2027-03-13\n( {4}# .*\n)+ {2}```\n\nTo be sold\.\n$/);
    expect(after.split('\n')[answer.line]).toBe('  record 2027-03-13');
  });
});

describe('the planned lines', () => {
  it('are read without a fault once they count, and say what was planned', async () => {
    const { before, after } = await begun(LOAF);
    const { findings, formula } = analyseText(filledIn(after))[0]!;
    expect(findings).toEqual(analyseText(before)[0]!.findings);
    expect(formula!.records[0]!.lines.filter(({ node }) => node.kind === 'step' || node.kind === 'property')).toHaveLength(9);
  });

  it('never change a total, whether they count or not', async () => {
    await fc.assert(fc.asyncProperty(fc.oneof(someText, wholeText), async (text) => {
      const { after, answer } = await begun(text.replace('\n', '┆\n'));
      expect(answer.kind).toBe('begun');
      const totals = (source: string) => analyseText(source).map((analysis) => analysis.totals);
      expect(totals(after)).toEqual(totals(text));
      expect(totals(filledIn(after))).toEqual(totals(text));
      expect(after.replace(/\n\nrecord 2027-03-13\n( {2}# .*(\n|$))+/, '\n').trimEnd()).toBe(text.trimEnd());
    }), { numRuns: 60 });
  });
});
