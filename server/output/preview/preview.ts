/**
 * The preview of one formula or dish: a piece of HTML like a printed formula sheet. It has no style and no script of its
 * own; every element that stands for a line of the file carries `data-line`.
 */
import type { Severity } from '../../core/checks/check';
import type { Timeline, TimelineRequest } from '../../core/timeline/model';
import { titleOf, type FormulaEntry } from '../entry';
import { allergensSection, cautionsSection, costSection, doughTemperatureSection, fermentationSection, foodFactsSection } from './facts';
import { head } from './head';
import { html, type Markup, toLine } from './html';
import { makeUp } from './make-up';
import { method } from './method';
import { formulaSheet } from './sheet';
import { timelinePicture } from './timeline';

export interface PreviewInput extends FormulaEntry {
  /** Undefined when it was not asked for. */
  readonly timeline: Timeline | undefined;
  /** What the timeline was asked for: its anchor stands in the panel's date field. */
  readonly request: TimelineRequest;
  /** The plan that says the time, with the line that says it where that is in this file; undefined where the baker chooses one here. */
  readonly timeBy?: { readonly name: string; readonly line: number | undefined } | undefined;
  /** Worst first. `line` from 1. */
  readonly findings: readonly { readonly severity: Severity; readonly message: string; readonly line: number }[];
}

export interface Preview {
  /** Plain text: the name of the formula. */
  readonly title: string;
  /** For the body of a page; everything from the file is escaped. */
  readonly html: string;
}

/** The preview of a formula or dish. Numbers that cannot be known are dashes; never throws on an unfinished formula. */
export function renderPreview(input: PreviewInput): Preview {
  const page = html`${head(input)}${findingsList(input) ?? hidden('findings')}${formulaSheet(input) ?? hidden('sheet')}
${makeUp(input) ?? hidden('make-up')}<div class="pair">${doughTemperatureSection(input) ?? hidden('temperature')}${fermentationSection(input) ?? hidden('fermentation')}</div>
${timelinePicture(input) ?? hidden('timeline')}<div class="beside">${method(input) ?? hidden('method')}${cautionsSection(input) ?? hidden('cautions')}</div>
<div class="pair of-food">${foodFactsSection(input) ?? hidden('food')}<div>${allergensSection(input) ?? hidden('allergens')}${costSection(input) ?? hidden('cost')}</div></div>`;
  return { title: titleOf(input.formula), html: page.markup };
}

/**
 * A section with nothing in it keeps its place, so that one coming or going moves no other: a page that is patched in place
 * then keeps what is being read, and the focus, where they are.
 */
function hidden(id: string): Markup {
  return html`<section id="${id}" hidden></section>`;
}

const SEVERITY_WORDS: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', info: 'note' };

function findingsList({ findings }: PreviewInput): Markup | undefined {
  if (findings.length === 0) return undefined;
  const items = findings.map(
    ({ severity, message, line }) =>
      html`<li class="${severity}"><span class="severity">${SEVERITY_WORDS[severity]}</span> ${toLine(line, message)}</li>`,
  );
  return html`<section id="findings" class="findings" aria-labelledby="findings-name"><h2 id="findings-name">Worth a look</h2><ul>${items}</ul></section>`;
}
