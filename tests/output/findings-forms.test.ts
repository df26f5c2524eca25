/** Findings for other programs: places that hold in any script, fingerprints that survive moved lines, and what GitHub reads. */
import { describe, expect, test } from 'vitest';
import { findingsGithub } from '../../server/output/findings-github';
import { findingsSarif } from '../../server/output/findings-sarif';
import type { CheckedFile, PlacedFinding, Region } from '../../server/output/findings';
import type { Rule } from '../../server/output/rule';
import { allRules } from '../../server/output/rule';
import { findingsOfText } from '../cli/findings-of-text';
import { written } from './written';

const rules = allRules();
const BASE = 'file:///bakery/';

interface SarifRegion { readonly startLine: number; readonly startColumn: number; readonly endLine: number; readonly endColumn: number }
interface Place { readonly physicalLocation: { readonly artifactLocation: { readonly uri: string; readonly uriBaseId?: string }; readonly region: SarifRegion } }
interface Result {
  readonly ruleId: string;
  readonly level: string;
  readonly message: { readonly text: string };
  readonly locations: readonly (Place & { readonly logicalLocations?: readonly { readonly fullyQualifiedName: string }[] })[];
  readonly relatedLocations?: readonly Place[];
  readonly partialFingerprints: Readonly<Record<string, string>>;
  readonly fixes?: readonly {
    readonly description: { readonly text: string };
    readonly artifactChanges: readonly { readonly replacements: readonly { readonly deletedRegion: SarifRegion; readonly insertedContent: { readonly text: string } }[] }[];
  }[];
  readonly suppressions: readonly { readonly kind: string; readonly justification: string }[];
}

function resultsOf(files: readonly CheckedFile[]): readonly Result[] {
  const log = JSON.parse(written(findingsSarif({ version: '1.2.3', rules, base: BASE }), files)) as { readonly runs: readonly { readonly results: readonly Result[] }[] };
  return log.runs[0]!.results;
}

/** The text that a region covers; columns count UTF-16 units. */
function covered(text: string, { startLine, startColumn, endLine, endColumn }: SarifRegion): string {
  const lines = text.split(/\r?\n/);
  const offset = (line: number, column: number) => lines.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0) + column - 1;
  return lines.join('\n').slice(offset(startLine, startColumn), offset(endLine, endColumn));
}

const LOAF = `formula "Country loaf"

dough
  1000 g    bread flour
  700 g     water
  40 g      salt
  3 g       instant yeast
`;

describe('SARIF', () => {
  test.each([
    ['é', 'café'], ['漢', '漢字粉'], ['a cook of five UTF-16 units', '👩‍🍳 seeds'], ['a combining accent', 'cafe\u0301'],
  ])('a place is right behind %s, with every line end', async (_what, name) => {
    for (const end of ['\n', '\r\n']) {
      const text = LOAF.replace('3 g       instant yeast', `2,5 g     "${name}"  # ${name}\n  3 g       "${name}" ,, `).replaceAll('\n', end);
      const results = resultsOf([await findingsOfText(text)]);
      const unknown = results.filter(({ ruleId }) => ruleId === 'unknown-ingredient');
      expect(unknown.length).toBeGreaterThan(0);
      for (const { locations: [place] } of unknown) expect(covered(text, place!.physicalLocation.region)).toContain(name);
      expect(results.map(({ ruleId, locations: [place] }) => [ruleId, covered(text, place!.physicalLocation.region)])).toContainEqual(['comma-decimal', '2,5']);
    }
  });

  test('a repair turns the text into what the editor’s would; a doubtful one is a question', async () => {
    const text = LOAF.replace('700 g', '700,5 g').replaceAll('\n', '\r\n');
    const [found] = resultsOf([await findingsOfText(text)]).filter(({ ruleId }) => ruleId === 'comma-decimal');
    const [fix] = found!.fixes!;
    const [replacement] = fix!.artifactChanges[0]!.replacements;
    expect(covered(text, replacement!.deletedRegion)).toBe('700,5');
    expect(replacement!.insertedContent.text).toBe('700.5');
    expect(fix!.description.text).not.toMatch(/\?$/);
    const doubtful = resultsOf([await findingsOfText(LOAF.replace('700 g', '700'))]).flatMap(({ fixes = [] }) => fixes).map(({ description }) => description.text);
    expect(doubtful).toEqual([expect.stringMatching(/\?$/)]);
  });

  test('of a Markdown page places and repairs are on the page, with the fence’s indent', async () => {
    const page = `- A loaf:\n\n  \`\`\`bake\n${LOAF.replace('700 g', '700,5 g').split('\n').map((line) => `  ${line}`).join('\n')}\n  \`\`\`\n`;
    const [found] = resultsOf([await findingsOfText(page, 'file:///bakery/notes.md')]).filter(({ ruleId }) => ruleId === 'comma-decimal');
    expect(found!.locations[0]!.physicalLocation.region.startLine).toBe(8);
    expect(covered(page, found!.fixes![0]!.artifactChanges[0]!.replacements[0]!.deletedRegion)).toBe('700,5');
  });

  test('what was accepted is suppressed, with the reason; what was not says so', async () => {
    const results = resultsOf([await findingsOfText(LOAF.replace('salt', 'salt  # accept salt-high: for the "brine"').replace('700 g', '700,5 g'))]);
    expect(results.map(({ ruleId, suppressions }) => [ruleId, suppressions])).toEqual([
      ['comma-decimal', []],
      ['salt-high', [{ kind: 'inSource', justification: 'for the "brine"' }]],
    ]);
  });

  test('a check that is off is not among what was accepted', async () => {
    const { findings, accepted } = await findingsOfText(LOAF.replace('salt', 'salt  # accept salt-high: for the brine'), undefined, {
      'file:///bakery/proofsheet.json': '{ "checks": { "salt-high": "off" } }',
    });
    expect({ findings, accepted }).toEqual({ findings: [], accepted: [] });
  });

  test('files are told from the top, every character escaped that a URI may not have; those outside of it in full', async () => {
    const at = async (uri: string) => resultsOf([await findingsOfText(LOAF, uri)])[0]!.locations[0]!.physicalLocation.artifactLocation;
    expect(await at('file:///bakery/p%C3%A3o%20%5B1%5D/a%3Ab.bake')).toEqual({ uri: 'p%C3%A3o%20%5B1%5D/a%3Ab.bake', uriBaseId: '%SRCROOT%' });
    expect(await at('file:///elsewhere/a.bake')).toEqual({ uri: 'file:///elsewhere/a.bake' });
  });

  test('another place that has to do with it, in this file or in another', async () => {
    const twice = resultsOf([await findingsOfText(`use "other.bake"\n\n${LOAF}`, undefined, { 'file:///bakery/other.bake': LOAF })])
      .filter(({ ruleId }) => ruleId === 'formula-twice');
    expect(twice.flatMap(({ relatedLocations = [] }) => relatedLocations.map(({ physicalLocation: { artifactLocation } }) => artifactLocation.uri))).toContain('other.bake');
  });

  test('the formula is named', async () => {
    const [found] = resultsOf([await findingsOfText(LOAF)]);
    expect(found!.locations[0]!.logicalLocations).toEqual([{ fullyQualifiedName: 'Country loaf' }]);
  });

  test('a fingerprint stays when lines move and spaces change, and goes when the line or its formula changes', async () => {
    const prints = async (text: string) => resultsOf([await findingsOfText(text)]).filter(({ ruleId }) => ruleId === 'salt-high').map(({ partialFingerprints }) => partialFingerprints.primaryLocationLineHash!);
    const [first] = await prints(LOAF);
    expect(first).toMatch(/^[0-9a-f]{16}:1$/);
    expect(await prints(`# A comment more.\n\n\n${LOAF}`)).toEqual([first]);
    expect(await prints(LOAF.replace('  40 g      salt', '    40 g  salt  '))).toEqual([first]);
    expect(await prints(LOAF.replaceAll('\n', '\r\n'))).toEqual([first]);
    expect(await prints(LOAF.replace('40 g', '41 g'))).not.toEqual([first]);
    expect(await prints(LOAF.replace('Country', 'Village'))).not.toEqual([first]);
  });

  test('is laid out as one value would be, however many files there are', async () => {
    const [some, none] = [await findingsOfText(LOAF.replace('700 g', '700,5 g')), await findingsOfText('')];
    for (const files of [[], [none], [some], [none, some, none, some]]) {
      const text = written(findingsSarif({ version: '1.2.3', rules, base: BASE }), files, ['There is no file a.bake.']);
      expect(text).toBe(`${JSON.stringify(JSON.parse(text), null, 2)}\n`);
    }
  });

  test('of several alike each has its own', async () => {
    const results = resultsOf([await findingsOfText(LOAF.replace('3 g       instant yeast', '5 g       saffron\n  5 g       saffron'))]).filter(({ ruleId }) => ruleId === 'unknown-ingredient');
    const prints = results.map(({ partialFingerprints }) => partialFingerprints.primaryLocationLineHash!);
    expect(prints.map((print) => print.slice(-2))).toEqual([':1', ':2']);
    expect(new Set(prints.map((print) => print.slice(0, 16))).size).toBe(1);
  });
});

describe('GitHub', () => {
  const finding = (more: Partial<PlacedFinding> & Partial<Region> = {}): PlacedFinding => ({
    code: 'salt-high', severity: 'warning', message: 'Salt is 4 % of the flour.', line: 6, column: 3, endLine: 6, endColumn: 7,
    fixes: [], related: [], lineText: '', formula: '', ...more,
  });
  const some: readonly Rule[] = [{ code: 'salt-high', severity: 'warning', title: 'Much salt, too much: really', why: '', helpText: '', helpMarkdown: '' }];
  const told = (findings: readonly PlacedFinding[], uri = 'file:///bakery/rye.bake') => (
    written(findingsGithub({ rules: some, base: BASE }), [{ path: 'rye.bake', uri, findings, accepted: [] }])
  );

  test('a command for each finding, and a line that counts them', () => {
    expect(told([
      finding({ severity: 'error' }),
      finding(),
      finding({ severity: 'info', code: 'other' }),
      finding({ line: 2, endLine: 4 }),
      finding({ endColumn: 3 }),
    ])).toBe(`::error file=rye.bake,line=6,endLine=6,col=3,endColumn=7,title=Much salt%2C too much%3A really (salt-high)::Salt is 4 %25 of the flour.
::warning file=rye.bake,line=6,endLine=6,col=3,endColumn=7,title=Much salt%2C too much%3A really (salt-high)::Salt is 4 %25 of the flour.
::notice file=rye.bake,line=6,endLine=6,col=3,endColumn=7,title=other (other)::Salt is 4 %25 of the flour.
::warning file=rye.bake,line=2,endLine=4,title=Much salt%2C too much%3A really (salt-high)::Salt is 4 %25 of the flour.
::warning file=rye.bake,line=6,endLine=6,col=3,title=Much salt%2C too much%3A really (salt-high)::Salt is 4 %25 of the flour.
1 error, 3 warnings, 1 info in 1 file
`);
  });

  test('nothing from a file begins a command of its own, or ends its property', () => {
    const [line, ...more] = told([finding({ message: 'one\r\n::set-env name=x::y %0A \u001b[31m, a: b' })], 'file:///bakery/a%2Cb%3A%3Ac%0A%25.bake').split('\n');
    expect(line).toContain('file=a%2Cb%3A%3Ac%0A%25.bake,line=6');
    expect(line).toMatch(/::one%0D%0A::set-env name=x::y %250A \uFFFD\[31m, a: b$/);
    expect(more).toEqual(['1 warning in 1 file', '']);
  });

  test('standard input has no file to show it at', () => {
    expect(told([finding()], '')).toMatch(/^::warning title=/);
  });
});
