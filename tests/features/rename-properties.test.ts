/** Renames of whatever can be renamed, in the samples and in random workspaces, looked at afresh from their texts. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { highlightsAt } from '../../server/features/highlights';
import { definitionAt } from '../../server/features/definition';
import { referencesAt } from '../../server/features/references';
import { prepareRenameAt, renameAt } from '../../server/features/rename';
import { namesIn } from '../../server/features/shared/names';
import type { Occurrence } from '../../server/features/shared/names';
import type { ProjectFile } from '../../server/project/file';
import type { Project } from '../../server/project/project';
import { garbled } from '../grammar/arbitrary';
import { edited, marked, ROOT, uriOf } from './marked';

type Texts = Readonly<Record<string, string>>;

interface Workspace {
  readonly project: Project;
  readonly files: ReadonlyMap<string, ProjectFile>;
}

async function open(texts: Texts): Promise<Workspace> {
  const { project } = await marked(texts['main.bake'] ?? '', texts);
  const files = new Map<string, ProjectFile>();
  for (const name of Object.keys(texts)) files.set(name, (await project.prepare(uriOf(name)))!);
  return { project, files };
}

function rename({ project, files }: Workspace, at: string, offset: number, newName: string): Texts | string {
  const edit = renameAt(files.get(at)!, offset, newName, {
    others: [...files.values()], documentChanges: false, versionOf: () => null,
    suppose: texts => {
      const supposed = project.supposing(texts);
      return uri => supposed.get(uri);
    },
  });
  if ('refused' in edit) return edit.refused;
  return Object.fromEntries([...files].map(([name, file]) => [name, edited(file.text, edit.changes?.[uriOf(name)] ?? [])]));
}

const findings = ({ files }: Workspace): string[] => [...files].flatMap(([name, file]) => file.sections.flatMap(section => (
  section.analysis.findings.map(({ code, place }) => `${name}:${file.lineIndex.positionAt(section.offsetsOf(place).start).line + 1}: ${code}`)
))).sort();

const offsetIn = ({ start, end }: Occurrence): number => Math.floor((start + end) / 2);

/** What is asked of every rename. Answers whether there was one. */
async function holds(texts: Texts, at: string, index: number, newName: string): Promise<boolean> {
  const before = await open(texts);
  const file = before.files.get(at)!;
  const name = namesIn(file, file.environment)[index]!;
  const prepared = prepareRenameAt(file, offsetIn(name));
  const after = rename(before, at, offsetIn(name), newName);
  if ('refused' in prepared) expect(after).toBe(prepared.refused);
  if (typeof after === 'string' || 'refused' in prepared) return false;

  const then = await open(after);
  expect(findings(then), `${at}: ${name.text} -> ${newName}`).toEqual(findings(before));
  // A short word that was no longer understood is written in full, and stays so.
  const hasShortWords = [...before.files.values()].some(one => namesIn(one, one.environment).some(({ loose }) => loose));
  if (hasShortWords) return true;
  const names = namesIn(then.files.get(at)!, then.files.get(at)!.environment);
  expect(rename(then, at, offsetIn(names[index]!), prepared.placeholder), `${at}: ${name.text} -> ${newName} -> ${prepared.placeholder}`).toEqual(texts);
  return true;
}

describe('in the samples', () => {
  const folder = path.join(import.meta.dirname, '..', '..', 'samples');
  const texts = Object.fromEntries(readdirSync(folder).filter(name => name.endsWith('.bake')).map(name => [name, readFileSync(path.join(folder, name), 'utf8')]));

  it.each(Object.keys(texts))('a new name brings no finding, and the old one brings the old text: %s', async at => {
    const { files } = await open(texts);
    const file = files.get(at)!;
    const reaches = (one: ProjectFile, other: ProjectFile): boolean => one === other || one.visible.some(({ uri }) => uri === other.uri);
    const near = Object.fromEntries([...files].filter(([, one]) => reaches(file, one) || reaches(one, file)).map(([name, one]) => [name, one.text]));
    const names = namesIn(file, file.environment);
    const seen = new Set<string>();
    let done = 0;
    for (const [index, name] of names.entries()) {
      const key = `${name.section.firstBlock} ${name.named.kind} ${name.text} ${name.defines} ${name.loose}`;
      if (seen.has(key) || 'refused' in prepareRenameAt(file, offsetIn(name))) continue;
      seen.add(key);
      if (await holds(near, at, index, 'Quiet dawn')) done++;
    }
    expect(done).toBeGreaterThan(0);
  }, 120_000);
});

const FLOURS = ['hill flour', 'stall rye', 'quince paste', 'Mountain oat', '00 flour', 'ruis 漢', 'walnut crumb', 'salt'] as const;
const PARTS = ['fruit', 'night levain', 'quince', 'old one', 'figs & co', 'salt'] as const;
const FORMULAS = ['Loaf', 'Night loaf', 'Loaf 7', 'é 漢 👩‍🍳'] as const;
const quoted = (name: string): string => (/^\p{L}[\p{L}\s-]*$/u.test(name) ? name : `"${name}"`);

/** A pantry, and a file that uses it: ingredients, parts, variants, a dish, a plan. */
const workspace = fc.record({
  flours: fc.uniqueArray(fc.constantFrom(...FLOURS), { minLength: 1, maxLength: 3 }),
  parts: fc.uniqueArray(fc.constantFrom(...PARTS), { maxLength: 2 }),
  formulas: fc.uniqueArray(fc.constantFrom(...FORMULAS), { minLength: 2, maxLength: 3 }),
  levain: fc.boolean(), isCrlf: fc.boolean(), add: fc.constantFrom('', ', add rest', ', add salt', ', add levain'),
}).map(({ flours, parts, formulas, levain, isCrlf, add }): Texts => {
  const [main = '', second = '', third] = formulas;
  const [flour = ''] = flours;
  const pantry = [...flours.map(name => `ingredient "${name}"\n  like bread flour\n`), third === undefined ? '' : `formula "${third}"\n\ndough\n  500 g ${quoted(flour)}\n  300 g water\n  9 g salt\n`].join('\n');
  const text = [
    `use "pantry.bake"\n\nformula "${main}"\n  makes 1 loaf`,
    levain ? '\nlevain\n  50 g bread flour\n  50 g water\n  10 g starter\n' : '',
    ...parts.map(name => `\nsoaker "${name}"\n  100 g raisins\n  40 g water\n  ${flours.length > 1 ? `5 g ${quoted(flours[1]!)}` : '1 g honey'}\n`),
    `\ndough\n  700 g bread flour  # 👩‍🍳\n  100 g ${quoted(flour)}, sifted\n  480 g water\n  14 g salt`,
    ...(levain ? ['  all levain'] : []), ...parts.map(name => `  all ${quoted(name)}`),
    `\nsteps\n  mix 8 min${add}${parts.map(name => `, add ${quoted(name)}`).join('')}\n  bake 40 min at 230 C`,
    `\nformula "${second}"\n  based on "${main}"\n  swap ${quoted(flour)} for rye flour\n  ${parts.length > 0 ? `drop raisins in ${quoted(parts[0]!)}` : 'set water to 500 g'}`,
    `\ndish "Pudding"\n  uses 300 g "${main}"\n\nplan "Stall"\n  bake 2 loaves of "${third ?? main}"\n`,
  ].join('\n');
  const ended = (one: string): string => (isCrlf ? one.replaceAll('\n', '\r\n') : one);
  return { 'main.bake': ended(text), 'pantry.bake': ended(pantry) };
});

describe('in random workspaces', () => {
  it('a new name brings no finding, and the old one brings the old text', async () => {
    let done = 0;
    let asked = 0;
    await fc.assert(fc.asyncProperty(workspace, fc.nat(), fc.boolean(), fc.constantFrom('Tall tale', 'tale for two', '7 seas', 'salt', 'levain', 'x'), async (texts, pick, inPantry, newName) => {
      const { files } = await open(texts);
      const at = inPantry ? 'pantry.bake' : 'main.bake';
      const file = files.get(at)!;
      const names = namesIn(file, file.environment);
      const own = names.flatMap((name, index) => ('refused' in prepareRenameAt(file, offsetIn(name)) ? [] : [index]));
      if (own.length === 0) return;
      asked++;
      if (await holds(texts, at, own[pick % own.length]!, newName)) done++;
    }), { numRuns: 80 });
    // Most of the names are free.
    expect(done / asked).toBeGreaterThan(0.5);
  }, 240_000);

  it('references, highlights, definition and rename go to the same places', async () => {
    await fc.assert(fc.asyncProperty(workspace, fc.nat(), async (texts, pick) => {
      const { files, project } = await open(texts);
      const file = files.get('main.bake')!;
      const names = namesIn(file, file.environment);
      const offset = offsetIn(names[pick % names.length]!);
      const key = (uri: string, range: { start: unknown }): string => `${uri} ${JSON.stringify(range.start)}`;
      const all = referencesAt(file, offset, [...files.values()], true);
      const references = new Set(all.map(({ uri, range }) => key(uri, range)));
      expect(references.size).toBe(all.length);
      expect(new Set(highlightsAt(file, offset).map(({ range }) => key(file.uri, range)))).toEqual(new Set(all.filter(({ uri }) => uri === file.uri).map(({ uri, range }) => key(uri, range))));
      for (const { targetUri, targetSelectionRange } of definitionAt(file, offset)) {
        if (targetSelectionRange.end.line > 0 || !targetUri.startsWith(`${ROOT}/pantry`)) expect(references).toContain(key(targetUri, targetSelectionRange));
      }
      // From any of them the same set is found.
      for (const { uri, range } of all) {
        const other = project.get(uri)!;
        const again = referencesAt(other, other.lineIndex.offsetAt(range.start), [...files.values()], true);
        expect(new Set(again.map(one => key(one.uri, one.range)))).toEqual(references);
      }
    }), { numRuns: 60 });
  }, 240_000);
});

describe('in damaged files', () => {
  it('a name is refused, or changes and nothing else does', async () => {
    await fc.assert(fc.asyncProperty(garbled, fc.nat(), fc.constantFrom('Quiet dawn', '7 seas', 'x, y'), async (text, pick, newName) => {
      const before = await open({ 'main.bake': text });
      const file = before.files.get('main.bake')!;
      const names = namesIn(file, file.environment);
      const offset = names.length === 0 ? pick % (text.length + 1) : offsetIn(names[pick % names.length]!);
      const after = rename(before, 'main.bake', offset, newName);
      if (typeof after === 'string') {
        expect(after).toMatch(/^\S.*[.!?`]$/su);
        return;
      }
      const then = await open(after);
      // Some may go: of two formulas of one name, one has another now.
      const left = findings(before);
      for (const one of findings(then)) {
        expect(left).toContain(one);
        left.splice(left.indexOf(one), 1);
      }
      const kept = (one: ProjectFile) => one.tree.blocks.map(({ block }) => block.lines.map(({ node }) => node.kind));
      expect(kept(then.files.get('main.bake')!)).toEqual(kept(file));
    }), { numRuns: 150 });
  }, 240_000);
});
