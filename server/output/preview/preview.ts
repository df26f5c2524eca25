/**
 * The preview of one formula or dish: a piece of HTML like a printed formula sheet. It has no style and no script of its
 * own; every element that stands for a line of the file carries `data-line`.
 */
import type { Severity } from '../../core/checks/check';
import type { Timeline, TimelineRequest } from '../../core/timeline/model';
import { titleOf, type FormulaEntry } from '../entry';
import {
  allergensSection, cautionsSection, costSection, doughTemperatureSection, fermentationSection, foodFactsSection, labelSection, recordsSection,
} from './facts';
import { head } from './head';
import { html } from './html';
import { makeUp } from './make-up';
import { method } from './method';
import { findingsList, hidden, type Preview } from './page';
import { formulaSheet } from './sheet';
import { sizeSection, type SizeInput } from './size';
import { timelinePicture } from './timeline';

export interface PreviewInput extends FormulaEntry {
  /** Undefined when it was not asked for. */
  readonly timeline: Timeline | undefined;
  /** What the timeline was asked for: its anchor stands in the panel's date field. */
  readonly request: TimelineRequest;
  /** The plan that says the time, with the line that says it where that is in this file; undefined where the baker chooses one here. */
  readonly timeBy?: { readonly name: string; readonly line: number | undefined } | undefined;
  /** The time is one that the baker chose here, and can be forgotten. */
  readonly isChosen?: boolean;
  /** At which size it is shown, and the fields for another; left out where there are none. */
  readonly size?: SizeInput;
  /** Line of a place in the formula as it is written, where `asWritten` is another than `formula`. */
  readonly lineAsWritten?: FormulaEntry['lineOf'];
  /** Worst first. `line` from 1. */
  readonly findings: readonly { readonly severity: Severity; readonly message: string; readonly line: number }[];
}

/** The preview of a formula or dish. Numbers that cannot be known are dashes; never throws on an unfinished formula. */
export function renderPreview(input: PreviewInput): Preview {
  const page = html`${head(input)}${sizeSection(input) ?? hidden('size')}${findingsList(input.findings) ?? hidden('findings')}${formulaSheet(input) ?? hidden('sheet')}
${makeUp(input) ?? hidden('make-up')}<div class="pair">${doughTemperatureSection(input) ?? hidden('temperature')}${fermentationSection(input) ?? hidden('fermentation')}</div>
${timelinePicture(input) ?? hidden('timeline')}<div class="beside">${method(input) ?? hidden('method')}${cautionsSection(input) ?? hidden('cautions')}</div>
${recordsSection(input) ?? hidden('records')}<div class="pair of-food">${foodFactsSection(input) ?? hidden('food')}<div>${allergensSection(input) ?? hidden('allergens')}${costSection(input) ?? hidden('cost')}${labelSection(input) ?? hidden('label')}</div></div>`;
  return { title: titleOf(input.formula), html: page.markup };
}
