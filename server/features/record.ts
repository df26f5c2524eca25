/** Begins a record of today's bake at the end of the formula at the cursor. */
import { formatInstant } from '../core/timeline/clock';
import { titleOf } from '../output/entry';
import { recordStart } from '../output/record-start';
import { offsetsOfSection, sectionAt, textEditIn } from '../project/file';
import type { PlacedSection, ProjectFile } from '../project/file';
import type { RecordAnswer, RecordParams } from '../requests';
import { zoneIn } from './shared/schedule';

/** One edit that puts the record under the formula; or where the record of that day stands already. Null where there is no formula or dish. */
export function recordAt(file: ProjectFile, offset: number, { epochMs, zone }: Pick<RecordParams, 'epochMs' | 'zone'>): RecordAnswer | null {
  const section = sectionAt(file, offset);
  const formula = section?.analysis.formula;
  if (section === undefined || formula === undefined) return null;
  const title = titleOf(formula);
  const { date } = formatInstant(epochMs, zoneIn(file, zone));
  const there = lineOfRecord(file, section, date);
  if (there !== undefined) return { kind: 'there', title, date, line: there };
  const at = endOfLine(file.text, offsetsOfSection(file, section).end);
  const lineEnd = file.text.includes('\r\n') ? '\r\n' : '\n';
  const edit = textEditIn(file, at, at, ['', '', ...recordStart(formula, date)].join(lineEnd));
  return { kind: 'begun', title, date, edit, line: edit.range.start.line + 2 };
}

/** Line from 0 of the formula's own record of a date. */
function lineOfRecord(file: ProjectFile, { section, firstBlock }: PlacedSection, date: string): number | undefined {
  const index = section.blocks.findIndex(({ head: { node } }) => node.kind === 'record' && node.date === date);
  const placed = index < 0 ? undefined : file.tree.blocks[firstBlock + index];
  return placed && file.lineIndex.positionAt(placed.offset + placed.block.head.start).line;
}

/** Behind a comment that ends the line, too. */
function endOfLine(text: string, offset: number): number {
  let end = offset;
  while (end < text.length && text[end] !== '\n' && text[end] !== '\r') end++;
  return end;
}
