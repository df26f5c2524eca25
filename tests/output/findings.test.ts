import { describe, expect, test } from 'vitest';
import { atLeast, byPlace, hasAtLeast, NOTHING_YET, plus, type CheckedFile, type PlacedFinding } from '../../server/output/findings';
import { findingsJson } from '../../server/output/findings-json';
import { findingsText as textForm, type FindingsTextOptions } from '../../server/output/findings-text';
import type { Paint } from '../../server/output/paint';
import { written } from './written';

const findingsText = (files: readonly CheckedFile[], options?: FindingsTextOptions): string => written(textForm(options), files);

const fix = (title: string): PlacedFinding['fixes'][number] => ({ title, certain: true, edits: [] });

/** A file of one finding: `«…»` in the text marks its place. */
function fileWith(marked: string, more: Partial<PlacedFinding> = {}): CheckedFile {
  const before = marked.slice(0, marked.indexOf('«'));
  const line = before.split('\n').length;
  const column = before.length - before.lastIndexOf('\n');
  const length = marked.indexOf('»') - marked.indexOf('«') - 1;
  const lines = marked.replace(/[«»]/g, '').split('\n');
  const finding: PlacedFinding = {
    code: 'salt-high', severity: 'warning', message: 'Salt is 4 % of the flour; most doughs hold 1.8 to 2.2 %.',
    line, column, endLine: line, endColumn: column + length, fixes: [], related: [], lineText: lines[line - 1] ?? '', formula: '', ...more,
  };
  return { path: 'rye.bake', uri: 'file:///b/rye.bake', findings: [finding], accepted: [] };
}

const print = (...files: readonly CheckedFile[]): string => `\n${findingsText(files)}`;

describe('findings as text', () => {
  test('a link, what is wrong, its code; the line with its place marked; what can be done', () => {
    const file = fileWith('dough\n  500 g  bread flour\n  «20 g»   salt', {
      fixes: [fix('Make it 10 g')], related: [{ line: 2, column: 3, endLine: 2, endColumn: 8, message: 'the flour it is measured against' }],
    });
    expect(print(file)).toBe(`
rye.bake:3:3: warning: Salt is 4 % of the flour; most doughs hold 1.8 to 2.2 %. (salt-high)
  3 |   20 g   salt
    |   ^^^^
      line 2: the flour it is measured against
      fix: Make it 10 g

1 warning in 1 file
`);
  });

  test.each([
    ['é is one column', '  20 g  «crème»', '  20 g  crème', '        ^^^^^'],
    ['漢 is two', '  20 g  漢字 «麦»', '  20 g  漢字 麦', '             ^^'],
    ['a cook is two, of five UTF-16 units', '  👩‍🍳 «salt»', '  👩‍🍳 salt', '     ^^^^'],
    ['a tab is two', '\t20 g\t«salt»', '  20 g  salt', '        ^^^^'],
    ['an empty place is one', '  20 g «»', '  20 g', '       ^'],
    ['an escape character does nothing', '  20 g «\u001b[31msalt»', '  20 g \uFFFD[31msalt', '       ^^^^^^^^^'],
  ])('the mark stands under its place: %s', (_what, marked, source, carets) => {
    const [, line, mark] = findingsText([fileWith(marked)]).split('\n');
    expect(line).toBe(`  1 | ${source}`.trimEnd());
    expect(mark).toBe(`    | ${carets}`);
  });

  test('a long line is cut around the mark', () => {
    const [, line = '', mark = ''] = findingsText([fileWith(`  20 g  salt, ${'very '.repeat(40)}«fine» ${'grey '.repeat(40)}`)]).split('\n');
    expect(line.length).toBeLessThanOrEqual(100);
    expect(line.slice(mark.indexOf('^'), mark.lastIndexOf('^') + 1)).toBe('fine');
    expect(line).toMatch(/\| ….*…$/);
  });

  test('a finding over several lines is marked to the end of its first', () => {
    const file = fileWith('do«ugh\n  20 g salt»', { endLine: 2, endColumn: 12 });
    expect(findingsText([file])).toContain('  1 | dough\n    |   ^^^\n');
  });

  test('files without findings are counted', () => {
    const clean: CheckedFile = { path: 'a.bake', uri: 'file:///b/a.bake', findings: [], accepted: [] };
    expect(findingsText([clean, clean])).toBe('no findings in 2 files\n');
    expect(findingsText([clean, fileWith('«a»', { severity: 'error' }), fileWith('«a»', { severity: 'info' }), fileWith('«a»', { severity: 'error' })]))
      .toMatch(/^2 errors, 1 info in 4 files$/m);
  });

  test('colour adds nothing but colour', () => {
    const tagged: Paint = { strong: (text) => `<b>${text}</b>`, quiet: (text) => `<i>${text}</i>`, severity: (severity, text) => `<${severity}>${text}</${severity}>` };
    const file = fileWith('  «salt»');
    expect(findingsText([file], { width: 100, paint: tagged }).replace(/<\/?\w+>/g, '')).toBe(findingsText([file]));
  });
});

test('findings as JSON: the stable form', () => {
  const file = fileWith('  «20 g» salt', { fixes: [fix('Make it 10 g')] });
  expect(JSON.parse(written(findingsJson, [file, { ...file, path: 'b.bake', findings: [] }]))).toEqual({
    files: [
      {
        path: 'rye.bake',
        findings: [{
          code: 'salt-high', severity: 'warning', message: 'Salt is 4 % of the flour; most doughs hold 1.8 to 2.2 %.',
          line: 1, column: 3, end_line: 1, end_column: 7, fixes: [{ title: 'Make it 10 g' }],
        }],
      },
      { path: 'b.bake', findings: [] },
    ],
  });
});

test('findings as JSON are laid out as one value would be', () => {
  const files = [fileWith('  «20 g» salt', { fixes: [fix('Make it 10 g')] }), { ...fileWith('«a»'), path: 'b.bake', findings: [] }];
  for (const some of [[], files.slice(0, 1), files]) {
    const text = written(findingsJson, some);
    expect(text).toBe(`${JSON.stringify(JSON.parse(text), null, 2)}\n`);
  }
});

test('severities are ranked, and findings stand in the order of the text', () => {
  expect([atLeast('error', 'warning'), atLeast('warning', 'warning'), atLeast('info', 'warning')]).toEqual([true, true, false]);
  const tally = plus(NOTHING_YET, fileWith('«a»'));
  expect([hasAtLeast(tally, 'info'), hasAtLeast(tally, 'warning'), hasAtLeast(tally, 'error')]).toEqual([true, true, false]);
  const at = (line: number, column: number, severity: PlacedFinding['severity']): PlacedFinding => ({
    code: 'x', severity, message: '', line, column, endLine: line, endColumn: column, fixes: [], related: [], lineText: '', formula: '',
  });
  const sorted = [at(2, 1, 'error'), at(1, 9, 'info'), at(1, 3, 'info'), at(1, 3, 'error')].sort(byPlace);
  expect(sorted.map(({ line, column, severity }) => `${String(line)}:${String(column)} ${severity}`)).toEqual(['1:3 error', '1:3 info', '1:9 info', '2:1 error']);
});
