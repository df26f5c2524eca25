import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planDraft } from '../../server/features/plan-draft';
import { previewAt, type PreviewOfFormula } from '../../server/features/preview';
import { scaleAt } from '../../server/features/scale';
import type { ViewSize } from '../../server/requests';
import { edited as editedPage } from '../../server/project/markdown';
import { Project } from '../../server/project/project';
import { edited, marked, ROOT, RYE } from './marked';

const USUAL = { anchor: { kind: 'ready', epochMs: Date.UTC(2026, 2, 14, 8) }, zone: 'Europe/Lisbon' } as const;
const NAME = 'Fig and walnut rye';

const BUNS = `formula "Milk buns"
  makes     12 buns of 80 g

dough
  500 g     bread flour
  230 g     milk
  3         eggs
  60 g      butter
  10 g      salt
  7 g       instant yeast
  90 g      raisins as inclusion

steps
  mix       8 min, add 40 g of raisins, add rest of raisins
  bulk      2 h at 25 C
  bake      18 min at 190 C
`;

interface Asked {
  readonly size?: ViewSize;
  readonly wanted?: ViewSize;
}

async function previewOf(source: string, { size, wanted }: Asked = {}): Promise<PreviewOfFormula> {
  const { file, offset } = await marked(source);
  const formula = file.sections.find(({ section }) => section.kind === 'formula' || section.kind === 'dish')!.section.name;
  return previewAt(file, offset, USUAL, undefined, { ...(size && { sizes: [{ formula, size }] }), ...(wanted && { wanted: { formula, size: wanted } }) })!;
}

function words(html: string): string {
  const text = html.replace(/<title>[^<]*<\/title>/g, '').replace(/<[^>]*>/g, ' ');
  return text.replace(/&quot;/g, '"').replace(/&#39;/g, "'").replace(/&amp;/g, '&').replace(/\s+/g, ' ');
}

const section = (html: string, id: string): string => new RegExp(`<section id="${id}".*?</section>`, 's').exec(html)?.[0] ?? '';
const lines = (html: string): readonly number[] => [...html.matchAll(/data-line="(\d+)"/g)].map(([, line]) => Number(line));

describe('a preview at another size', () => {
  it('says so, with what the file says, and shows everything at that size', async () => {
    const { html, size } = await previewOf(`┆${RYE}`, { size: { by: 'pieces', value: '5' } });
    expect(words(html)).toContain('Shown at 5 loaves, the file says 2. Back to the file’s size Write this size into the file');
    expect(words(html)).toContain('5 loaves of 970 g');
    expect(words(section(html, 'sheet'))).toMatch(/bread flour 1750 .* 50 g rice flour for dusting/);
    expect(words(section(html, 'make-up'))).toContain('Inclusions, carried by it 675 g');
    expect(words(section(html, 'method'))).toContain('add half of walnuts');
    expect(section(html, 'timeline')).toContain('class="lanes"');
    expect(size).toEqual({ by: 'pieces', value: '5' });
  });

  it('weights that steps add are of that size', async () => {
    expect(words(section((await previewOf(`┆${BUNS}`, { size: { by: 'pieces', value: '24' } })).html, 'method'))).toContain('add 80 g of raisins');
  });

  it('whole eggs are told, by their lines', async () => {
    const { html } = await previewOf(`┆${BUNS}`, { size: { by: 'pieces', value: '18' } });
    expect(section(html, 'size')).toMatch(/data-line="7">eggs: 4\.5 is taken as 5\.</);
  });

  it('leads to the same lines as before', async () => {
    for (const text of [RYE, BUNS, RYE.replaceAll('\n', '\r\n')]) {
      const at = (size?: ViewSize) => previewOf(`┆${text}`, size && { size }).then(({ html }) => lines(html.slice(html.indexOf('id="sheet"'))));
      expect(await at({ by: 'factor', value: '10' })).toEqual(await at());
    }
  });

  it('at the file’s own size it is as if no size were asked for', async () => {
    const { html, size } = await previewOf(`┆${RYE}`, { wanted: { by: 'pieces', value: '2' } });
    expect(size).toBeUndefined();
    expect(html).toBe((await previewOf(`┆${RYE}`)).html);
  });

  it('a size that cannot be is said beside its field, and the size before stays', async () => {
    const size = { by: 'pieces', value: '5' };
    const { html, ...answer } = await previewOf(`┆${RYE}`, { size, wanted: { by: 'dough', value: '2,5 kg' } });
    expect(answer).toMatchObject({ size, isRefused: true });
    expect(html).toMatch(/<input id="size-dough"[^>]*value="2,5 kg"[^>]*aria-invalid="true" aria-describedby="size-dough-why"/);
    expect(html).toContain('<p class="why" id="size-dough-why" role="alert">Write a weight above 0, such as “900 g” or “5 kg”.</p>');
    expect(words(html)).toContain('Shown at 5 loaves');
  });

  it('a size that the formula can no longer have is said, and kept for when it can', async () => {
    const size = { by: 'pieces', value: '5' };
    const { html, ...answer } = await previewOf(`┆${RYE.replace('makes     2 loaves of 970 g', '')}`, { size });
    expect(answer.size).toEqual(size);
    expect(words(html)).toContain('Not shown at 5 pieces any more. The formula does not say how many pieces it makes: write, for example, “makes 2 loaves”. Stay at the file’s size');
    expect(words(section(html, 'sheet'))).toContain('bread flour 700');
    const broken = await previewOf(`┆${RYE.replace('  600 g     water\n', '  600 g\n')}`, { size });
    expect(words(broken.html)).toMatch(/Not shown at 5 pieces any more\. Line \d+: This line cannot be read/);
  });

  it('a size of another formula of the file is not this one’s', async () => {
    const { file } = await marked(`${RYE}\n${BUNS}`);
    const sizes = [{ formula: 'Milk buns', size: { by: 'factor', value: '2' } }];
    expect(words(previewAt(file, 0, USUAL, undefined, { sizes })!.html)).not.toContain('Shown at');
    expect(words(previewAt(file, file.text.length, USUAL, undefined, { sizes })!.html)).toContain('Shown at 24 buns, the file says 12');
  });

  it.each<readonly [ViewSize, string]>([
    [{ by: 'piece', value: '1200 g' }, 'Shown at loaves of 1200 g, the file says 970 g.'],
    [{ by: 'dough', value: '970 g' }, 'Shown at 1 loaf, the file says 2.'],
    [{ by: 'factor', value: '3' }, 'Shown at 6 loaves, the file says 2.'],
    [{ by: 'have', value: '24 g "starter"' }, 'Shown at 4 loaves, the file says 2.'],
  ])('says what differs: %j', async (size, said) => {
    expect(words((await previewOf(`┆${RYE}`, { size })).html)).toContain(said);
  });

  it('a dish by the people it serves, a dough that nobody divides by its weight', async () => {
    const dish = 'dish "Crumbs"\n  serves 4\n\ncustard\n  400 g milk\n  2 eggs\n';
    expect(words((await previewOf(dish, { size: { by: 'factor', value: '2' } })).html)).toContain('Shown at a size that serves 8, the file says 4.');
    const dough = 'formula "Focaccia"\n\ndough\n  500 g bread flour\n  400 g water\n';
    expect(words((await previewOf(dough, { size: { by: 'dough', value: '1.8 kg' } })).html)).toContain('Shown at 1800 g of dough, the file says 900 g.');
  });

  it('a variant is looked at in any size, and written where the weights are its own', async () => {
    const variant = (lines: string): string => `${RYE}\n┆formula "Wetter rye"\n  based on  "${NAME}"\n${lines}`;
    const at = (text: string, size: ViewSize) => marked(text).then(({ file, offset }) => previewAt(file, offset, USUAL, undefined, { sizes: [{ formula: 'Wetter rye', size }] })!.html);
    const html = await at(variant('  set       water to 640 g\n'), { by: 'pieces', value: '4' });
    expect(words(html)).toMatch(/Shown at 4 loaves, the file says 2\. Back to the file’s size This size can be looked at, not written\. Line \d+: Its weights stand in “Fig and walnut rye”/);
    expect(html).not.toContain('size-write');
    expect(words(section(html, 'sheet'))).toMatch(/bread flour 1400 .* water 1480/);
    expect(words(section(html, 'method'))).toContain('add half of walnuts');
    const last = variant('').slice(0, -1).split('\n').length;
    expect(Math.max(...lines(html))).toBeLessThanOrEqual(last + 1);
  });

  it('shows what would stand there once it is written', async () => {
    const sizes = fc.oneof(
      fc.record({ by: fc.constant('pieces'), value: fc.integer({ min: 1, max: 60 }).map(String) }),
      fc.record({ by: fc.constantFrom('dough', 'flour', 'piece'), value: fc.integer({ min: 100, max: 9000 }).map((grams) => `${grams} g`) }),
      fc.record({ by: fc.constant('factor'), value: fc.integer({ min: 1, max: 400 }).map((hundredths) => String(hundredths / 100)) }),
    );
    const rounding = fc.constantFrom({}, { step: '1 g', smallStep: '0.1 g' }, { step: '5 g', smallStep: '0.1 g' });
    const bare = (html: string): string => html.replace(section(html, 'size'), '');
    await fc.assert(fc.asyncProperty(fc.constantFrom(RYE, BUNS, RYE.replaceAll('\n', '\r\n')), sizes, rounding, async (text, asked, step) => {
      const size = { ...asked, ...step };
      const { file } = await marked(text);
      const answer = scaleAt(file, 0, { request: asked, ...step });
      if (answer?.kind !== 'edit') throw new Error('no edit');
      const written = await previewOf(`┆${edited(text, answer.edits)}`);
      expect(bare((await previewOf(`┆${text}`, { size })).html)).toBe(bare(written.html));
    }), { numRuns: 40 });
  });

  it('the fields say the size that is shown', async () => {
    const { html } = await previewOf(`┆${RYE}`, { size: { by: 'factor', value: '2.5', step: '5 g', smallStep: '0.1 g' } });
    const values = Object.fromEntries([...html.matchAll(/<input id="size-(\w+)"[^>]*value="([^"]*)"/g)].map(([, by, value]) => [by, value]));
    expect(values).toEqual({ pieces: '5', piece: '970', dough: '4850', flour: '2365', factor: '2.5', have: '30', tin: '' });
    expect(html).toContain('<option value="starter" data-amount="30" data-unit="g" selected>starter</option>');
    expect(html).toMatch(/<option value="5 g" data-small="0\.1 g" selected>/);
    expect((await previewOf(`┆${BUNS}`)).html).toContain('<option value="eggs" data-amount="3" data-unit="">eggs</option>');
  });
});

describe('a time written as a plan', () => {
  const anchor = { kind: 'ready', epochMs: Date.UTC(2026, 2, 14, 8), local: '2026-03-14T08:00' } as const;
  const asked = { uri: 'file:///stall/main.bake', formula: NAME, zone: 'Europe/Lisbon', anchor };
  const written = async (text: string, more: object = {}): Promise<string> => {
    const { file } = await marked(text);
    return edited(text, planDraft(file, { ...asked, ...more })!.edits);
  };

  it('stands below everything, and says when that formula is ready', async () => {
    const text = await written(RYE);
    expect(text).toBe(`${RYE.trimEnd()}\n\nplan "Sat 14 Mar"\n  ready     2026-03-14 08:00 Europe/Lisbon\n  bake      2 loaves of "${NAME}"\n`);
    expect(words((await previewOf(`┆${text}`)).html)).toContain('Ready by Sat 14 Mar 08:00, as the plan “Sat 14 Mar” has it.');
    const { file } = await marked(text);
    expect(file.sections.at(-1)!.analysis.findings.map(({ code, severity }) => [code, severity])).toEqual([['plan-no-oven', 'warning']]);
  });

  it('orders the size that is on show; by weight where the pieces are of another weight', async () => {
    expect(await written(RYE, { size: { by: 'pieces', value: '6' } })).toContain(`  bake      6 loaves of "${NAME}"`);
    expect(await written(RYE, { size: { by: 'piece', value: '500 g' } })).toContain(`  bake      1000 g of "${NAME}"`);
  });

  it('two plans of one day have two names', async () => {
    const twice = await written(await written(RYE));
    expect(twice.match(/^plan .*/gm)).toEqual(['plan "Sat 14 Mar"', 'plan "Sat 14 Mar, 2"']);
  });

  it('keeps line ends, and says begun where that was chosen', async () => {
    const text = await written(RYE.replaceAll('\n', '\r\n'), { anchor: { ...anchor, kind: 'start' } });
    expect(text).toContain('\r\n\r\nplan "Sat 14 Mar"\r\n  start     2026-03-14 08:00 Europe/Lisbon\r\n');
    expect(text.replaceAll('\r\n', '')).not.toContain('\n');
  });

  it('stays in its fence on a page', async () => {
    const page = `# Notes\n\n1. The rye:\n\n   \`\`\`bake\n${RYE.trimEnd().split('\n').map((line) => (line === '' ? '' : `   ${line}`)).join('\n')}\n   \`\`\`\n\nThat is all.\n`;
    const project = new Project({ reader: { read: () => Promise.resolve(undefined) }, roots: [ROOT] });
    const uri = `${ROOT}/notes.md`;
    project.update(uri, page);
    const file = (await project.prepare(uri))!;
    const text = editedPage(page, planDraft(file, { ...asked, uri })!.edits);
    expect(text).toContain(`\n\n   plan "Sat 14 Mar"\n     ready     2026-03-14 08:00 Europe/Lisbon\n     bake      2 loaves of "${NAME}"\n   \`\`\`\n`);
  });

  it('there is none for a formula that is not there', async () => {
    const { file } = await marked(RYE);
    expect(planDraft(file, { ...asked, formula: 'Another' })).toBeUndefined();
    expect(planDraft(file, { ...asked, formula: '' })).toBeUndefined();
  });
});
