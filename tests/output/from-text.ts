/** From the text of a formula to what sheets and schedules are printed from. */
import { parse } from '../../grammar';
import { sectionsOf } from '../../server/core/formula/sections';
import { resolve } from '../../server/core/formula/resolve';
import { sheetOf } from '../../server/core/formula/sheet';
import { totalsOf } from '../../server/core/formula/totals';
import { builtInCatalogue, extend } from '../../server/core/ingredients/catalogue';
import { parseLocalInstant } from '../../server/core/timeline/clock';
import { timelineOf } from '../../server/core/timeline/timeline';
import type { FormulaEntry } from '../../server/output/entry';
import type { ScheduledEntry } from '../../server/output/schedule-json';

/** Every formula and dish of a text. They see each other by name. */
export function entriesOf(text: string): readonly FormulaEntry[] {
  const { blocks } = parse(text);
  const catalogue = extend(builtInCatalogue, blocks.map(({ block }) => block).filter(({ head }) => head.node.kind === 'ingredient'));
  const sections = sectionsOf(blocks.map(({ block }) => block));
  const formulas = new Map(sections.map(({ section }) => [section.name.trim().toLowerCase(), section]));
  return sections.flatMap(({ first, section }): readonly FormulaEntry[] => {
    if (section.kind !== 'formula' && section.kind !== 'dish') return [];
    const formula = resolve(section, { catalogue, measures: 'us', formulas });
    const lineOf: FormulaEntry['lineOf'] = ({ block, start }) => text.slice(0, (blocks[first + block]?.offset ?? 0) + start).split('\n').length;
    return [{ section, formula, totals: totalsOf(formula), sheet: sheetOf(formula), lineOf }];
  });
}

/** The one formula or dish of a text. */
export function entryOf(text: string): FormulaEntry {
  const entries = entriesOf(text);
  if (entries.length !== 1) throw new Error(`${String(entries.length)} formulas in the text`);
  return entries[0]!;
}

export function scheduledFor(text: string, kind: 'ready' | 'start', time: string, zone = 'Europe/Lisbon'): ScheduledEntry {
  const instant = parseLocalInstant(time, zone);
  if (instant.kind === 'bad') throw new Error(instant.message);
  const entry = entryOf(text);
  return { entry, timeline: timelineOf(entry.formula, { anchor: { kind, epochMs: instant.epochMs }, zone }) };
}
