/** Colours, hints and indents in a formula that stands on a Markdown page. */
import { expect, it } from 'vitest';
import { inlayHintsOf } from '../../server/features/inlay-hints';
import { indentOnNewLine } from '../../server/features/on-type';
import { LEGEND } from '../../server/features/shared/legend';
import { semanticTokensOf } from '../../server/features/semantic-tokens';
import { Project } from '../../server/project/project';
import { edited, ROOT, textIn } from './marked';

const PAGE = '# Loaves\n\n700 g of nothing\n\n- the day\n\n  ```bake\n  dough\n    1000 g bread flour\n    70 % water\n\n  ```\n\nThen 漢:\n\n```bake\nsteps\n  bulk 3 h\n```\n';

async function page(text: string) {
  const uri = `${ROOT}/page.md`;
  const project = new Project({ reader: { read: () => Promise.resolve(undefined) }, roots: [ROOT] });
  project.update(uri, text, true);
  return (await project.prepare(uri))!;
}

it('colours stand where the words stand on the page, and nowhere else', async () => {
  const data = semanticTokensOf(await page(PAGE));
  const found: string[] = [];
  let [line, character] = [0, 0];
  for (let at = 0; at < data.length; at += 5) {
    const [down = 0, along = 0, length = 0, type = 0] = data.slice(at, at + 4);
    character = down === 0 ? character + along : along;
    line += down;
    found.push(`${textIn(PAGE, { start: { line, character }, end: { line, character: character + length } })}: ${LEGEND.tokenTypes[type]}`);
  }
  expect(found).toEqual([
    'dough: keyword', '1000: number', 'g: unit', 'bread flour: ingredient', '70: number', '%: unit', 'water: ingredient', 'steps: keyword', 'bulk: function', '3: number', 'h: unit',
  ]);
});

it('a hint stands behind its name', async () => {
  const [hint] = inlayHintsOf(await page(PAGE), { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } });
  expect(hint).toMatchObject({ label: '700 g', position: { line: 9, character: 14 } });
});

it('a new line has the indent of the fence and that of its block', async () => {
  for (const written of ['', '  ']) {
    const source = PAGE.replace('water\n\n', `water\n${written}\n`);
    const edits = indentOnNewLine(await page(source), { line: 10, character: written.length }, { insertSpaces: true, tabSize: 2 });
    expect(edited(source, edits)).toBe(PAGE.replace('water\n\n', 'water\n    \n'));
  }
  // Above a fence and under one there is nothing to indent.
  for (const line of [1, 7, 13, 16]) expect(indentOnNewLine(await page(PAGE), { line, character: 0 }, { insertSpaces: true, tabSize: 2 })).toEqual([]);
});
