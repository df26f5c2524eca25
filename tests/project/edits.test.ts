/** Whatever is edited in whatever order, the project ends where a fresh one would. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ProjectFile } from '../../server/project/file';
import { Project } from '../../server/project/project';

const ROOT = 'file:///stall';
const NAMES = ['a.bake', 'b.bake', 'shelf/c.bake', 'shelf/notes.md'] as const;
const SETTINGS_PLACES = ['proofsheet.json', 'shelf/proofsheet.json'] as const;
type FileName = (typeof NAMES)[number];
const uriOf = (name: string): string => `${ROOT}/${name}`;

/** Pieces that lean on one another, within a file and across files: ingredients, variants, dishes, plans, parts. */
const PIECES = [
  'use "b.bake"\n', 'use "shelf/c.bake"\n', 'use "../a.bake"\n', 'use "../b.bake"\n',
  'ingredient "mill flour"\n  like bread flour\n  protein 14 %\n', 'ingredient "mill flour"\n  role inclusion\n', 'ingredient "honey cake"\n  like mill flour\n  each 40 g\n',
  'formula "Loaf"\n  makes 1 loaf of 860 g\n', 'formula "Loaf"\n  style rye\n  based on "Knots"\n  swap salt for sea salt in levain\n', 'formula "Knots"\n  makes 9 knots of 90 g\n  style enriched\n',
  'formula "Seed knots"\n  based on "Knots"\n  set water to 80 %  # accept hydration-high: for the tin\n  drop salt\n  add 20 g sesame seeds\n', 'formula "Third"\n  based on "Seed knots"\n  makes 3 knots of 90 g\n  swap sesame seeds for poppy seeds\n',
  'dish "Pudding"\n  uses 8 slices of "Loaf"\n', 'plan "Saturday"\n  bake 6 loaves of "Loaf"\n  bake 9 knots of "knots"\n',
  'levain\n  50 g rye flour\n  50 g water\n  10 g starter\n', 'dough\n  500 g mill flour\n  350 g water\n  all levain\n  10 g salt\n', 'dough\n  100 % bread flour\n  72 % water\n  2,5 % salt\n',
  'steps\n  mix 8 min\n  bulk 3 h at 24 C\n    fold at 30 min, add half of walnuts\n  bake 25 min at 240 C\n', 'record 2026-03-14\n  room 21 C\n', '# accept salt-high: the sea\n', '\n', '  20 g walnuts\n', 'wibble\n',
  'ingredient "é 漢 👩‍🍳"\n', '  30 g é 漢 👩‍🍳\n',
];

/** A page keeps what it is given in fences: one that is open at its end goes on to the end of the page. */
const inFences = (name: string, content: string): string => (name.endsWith('.md') ? `# Notes\n\n\`\`\`bake\n${content}` : content);
const PAGE_PIECES = ['```\n', '\n```bake\n', '  ```bake\n', '> a word in between\n', '~~~\n'];

const SETTINGS = [
  '{}', '{ "measures": "metric" }', '{ "zone": "Europe/Lisbon" }', '{ "checks": { "salt-low": "off", "comma-decimal": "error" } }', '{ "checks": { "salt-low": "off" } ',
  '{ "limits": { "salt-low": { "leastPct": 2.4 } } }', '{ "tapCelsius": 8, "roomTodayCelsius": 30 }', 'wibble',
];
const FOLDERS = [[ROOT], [ROOT, `${ROOT}/shelf`], [`${ROOT}/shelf`], []];

type Act =
  | { readonly kind: 'insert'; readonly file: FileName; readonly at: number; readonly piece: string }
  | { readonly kind: 'cut'; readonly file: FileName; readonly at: number; readonly length: number }
  | { readonly kind: 'replace'; readonly file: FileName; readonly text: string }
  | { readonly kind: 'close'; readonly file: FileName }
  | { readonly kind: 'disk'; readonly file: FileName; readonly text: string | undefined }
  | { readonly kind: 'rename'; readonly file: FileName; readonly to: FileName }
  | { readonly kind: 'look'; readonly file: FileName }
  /** Loading is begun, and what comes next does not wait for it. */
  | { readonly kind: 'begin'; readonly file: FileName }
  | { readonly kind: 'settings'; readonly place: (typeof SETTINGS_PLACES)[number]; readonly text: string | undefined; readonly isOpen: boolean }
  | { readonly kind: 'folders'; readonly roots: readonly string[] }
  | { readonly kind: 'measures'; readonly measures: 'us' | 'metric' };

const file = fc.constantFrom(...NAMES);
const text = fc.array(fc.constantFrom(...PIECES), { maxLength: 9 }).map(pieces => pieces.join(''));
const act: fc.Arbitrary<Act> = fc.oneof(
  { weight: 5, arbitrary: fc.record({ kind: fc.constant('insert'), file, at: fc.nat(400), piece: fc.constantFrom(...PIECES, ...PAGE_PIECES) }) },
  { weight: 5, arbitrary: fc.record({ kind: fc.constant('cut'), file, at: fc.nat(400), length: fc.integer({ min: 1, max: 60 }) }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('replace'), file, text }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('close'), file }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('disk'), file, text: fc.option(text, { nil: undefined }) }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('rename'), file, to: file }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('settings'), place: fc.constantFrom(...SETTINGS_PLACES), text: fc.option(fc.constantFrom(...SETTINGS), { nil: undefined }), isOpen: fc.boolean() }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('folders'), roots: fc.constantFrom(...FOLDERS) }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant('begin'), file }) },
  // Looking in between is what fills the caches.
  { weight: 6, arbitrary: fc.record({ kind: fc.constant('look'), file }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('measures'), measures: fc.constantFrom('us', 'metric') }) },
);

/** Everything a reader of the file could see, with places as offsets in the file. */
function seen(found: ProjectFile | undefined): unknown {
  return found && {
    text: found.text,
    settings: found.settings,
    zone: found.zone,
    tree: found.tree,
    uses: found.uses,
    visible: found.visible.map(v => v.uri),
    sections: found.sections.map(section => ({
      kind: section.section.kind,
      name: section.section.name,
      firstBlock: section.firstBlock,
      findings: section.analysis.findings.map(finding => ({ ...finding, place: section.offsetsOf(finding.place) })),
      totals: section.analysis.totals,
      formula: section.analysis.formula,
    })),
  };
}

describe('any sequence of edits', () => {
  it('ends in exactly what a fresh project finds', async () => {
    await fc.assert(fc.asyncProperty(fc.record({ 'a.bake': text, 'b.bake': text, 'shelf/c.bake': text, 'shelf/notes.md': text }), fc.array(act, { maxLength: 25 }), async (start, acts) => {
      const disk = new Map<string, string>(Object.entries(start).map(([name, content]) => [uriOf(name), inFences(name, content)]));
      const open = new Map<string, string>();
      const reader = { read: (uri: string) => Promise.resolve(disk.get(uri)) };
      const onFault = (code: string, fault: unknown): never => {
        throw new Error(code, { cause: fault });
      };
      const project = new Project({ reader, roots: [ROOT], onFault, measures: 'us' });
      let measures: 'us' | 'metric' = 'us';
      let roots: readonly string[] = [ROOT];
      const begun: Promise<unknown>[] = [];
      const edit = (uri: string, after: string): void => {
        open.set(uri, after);
        project.update(uri, after);
      };
      const close = (uri: string): void => {
        if (!open.delete(uri)) return;
        project.close(uri);
      };
      const write = (uri: string, content: string | undefined): void => {
        if (content === undefined) disk.delete(uri);
        else disk.set(uri, content);
        project.invalidate(uri);
      };
      for (const one of acts) {
        const uri = 'file' in one ? uriOf(one.file) : '';
        const now = open.get(uri) ?? disk.get(uri) ?? '';
        switch (one.kind) {
          case 'insert': edit(uri, now.slice(0, one.at) + one.piece + now.slice(one.at)); break;
          case 'cut': edit(uri, now.slice(0, one.at) + now.slice(one.at + one.length)); break;
          case 'replace': edit(uri, inFences(one.file, one.text)); break;
          case 'close': close(uri); break;
          case 'disk': write(uri, one.text === undefined ? undefined : inFences(one.file, one.text)); break;
          case 'rename': {
            const wasOpen = open.get(uri);
            const held = disk.get(uri);
            const to = uriOf(one.to);
            if (to === uri) break;
            close(uri);
            close(to);
            write(uri, undefined);
            write(to, held);
            if (wasOpen !== undefined) edit(to, wasOpen);
            break;
          }
          case 'settings': {
            const place = uriOf(one.place);
            if (one.isOpen && one.text !== undefined) edit(place, one.text);
            else {
              close(place);
              write(place, one.text);
            }
            break;
          }
          case 'folders':
            ({ roots } = one);
            project.configure({ roots });
            break;
          case 'look': seen(await project.prepare(uri)); break;
          case 'begin': begun.push(project.prepare(uri)); break;
          case 'measures':
            ({ measures } = one);
            project.configure({ measures });
            break;
        }
      }
      await Promise.all(begun);
      const fresh = new Project({ reader, roots, onFault, measures });
      for (const [uri, content] of open) fresh.update(uri, content);
      for (const name of NAMES) {
        const expected = seen(await fresh.prepare(uriOf(name)));
        expect(seen(await project.prepare(uriOf(name)))).toEqual(expected);
        // and what is there without waiting is the same
        expect(seen(project.get(uriOf(name)))).toEqual(expected);
      }
    }), { numRuns: 120 });
  });
});
