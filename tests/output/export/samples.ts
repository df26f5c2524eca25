/** The samples as they are exported: every formula and dish of a file, with the settings beside it. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseLocalInstant } from '../../../server/core/timeline/clock';
import { timelineOf } from '../../../server/core/timeline/timeline';
import type { ExportEntry } from '../../../server/output/export/forms';
import { Project } from '../../../server/project/project';
import { entriesOf } from '../from-text';

const folder = path.join(import.meta.dirname, '..', '..', '..', 'samples');
export const SAMPLES = ['apricot-hearth.bake', 'country-loaf.bake', 'knots.bake', 'leek-bake.bake', 'seeded-tin.bake', 'yogurt-flatbread.bake', 'notebook.md'] as const;

/** @param ready a time that is asked for, on the clock of Lisbon */
export async function sampleEntries(name: (typeof SAMPLES)[number] | 'mistakes.bake', ready?: string): Promise<readonly ExportEntry[]> {
  const root = pathToFileURL(folder).href;
  const names = readdirSync(folder);
  const project = new Project({
    roots: [root],
    reader: { read: (uri) => Promise.resolve(names.includes(path.basename(uri)) ? readFileSync(path.join(folder, path.basename(uri)), 'utf8') : undefined) },
  });
  const file = await project.prepare(`${root}/${name}`);
  if (!file) throw new Error(`${name} cannot be read`);
  return file.sections.flatMap((section): readonly ExportEntry[] => {
    const { formula, totals, sheet } = section.analysis;
    if (formula === undefined || totals === undefined || sheet === undefined) return [];
    const lineOf: ExportEntry['lineOf'] = (place) => file.lineIndex.positionAt(section.offsetsOf(place).start).line + 1;
    const entry = { section: section.section, formula, totals, sheet, lineOf, label: file.settings, settings: file.settings };
    return [{ ...entry, timeline: ready === undefined ? undefined : readyAt(entry, ready) }];
  });
}

/** Every formula and dish of a text, with no settings. */
export function exportsOf(text: string, ready?: string): readonly ExportEntry[] {
  return entriesOf(text).map((entry) => ({ ...entry, settings: {}, timeline: ready === undefined ? undefined : readyAt(entry, ready) }));
}

function readyAt({ formula }: Pick<ExportEntry, 'formula'>, ready: string): ExportEntry['timeline'] {
  const zone = 'Europe/Lisbon';
  const instant = parseLocalInstant(ready, zone);
  if (instant.kind === 'bad') throw new Error(instant.message);
  return timelineOf(formula, { anchor: { kind: 'ready', epochMs: instant.epochMs }, zone });
}

/** Whatever stands in a file, in every place that a card takes words from. */
export const NASTY = `formula "<script>alert(1)</script> & \`Co\` | *pão* ]]>"
  makes     2 <b>loaves</b> of 500 g
  style     hearth <i>&amp;, "quoted"
  author    "<img src=x onerror=alert(1)>"
  source    "javascript:alert(1) https://example.org www.example.org"
  version   "=1+1"
  note      "</style><script>alert(2)</script>"
  note      "# no heading, 1. no list, a@example.org"

part "<svg onload=alert(3)>"
  50 g      "a & b <c>"
  10 g      "=cmd|' /C calc'!A0"
  rest      1 h

dough
  600 g     bread flour, "onclick='x' |pipe| &quot;"
  400 g     water
  all       "<svg onload=alert(3)>"
  12 g      salt
  20 g      rice flour for <dusting> & "more"

steps
  mix       8 min, by hand, </li></ol>
  do        "<b>press</b> ** & __wait__" 5 min
  bake      40 min at 230 C, until "<i>golden</i>"
`;
