/** The formula sheet as a table: the total formula, each part and the final dough side by side; for a dish, its parts. */
import type { ResolvedLine } from '../../core/formula/model';
import { summedLines } from '../entry';
import { percent, roundedGrams, UNKNOWN, weight } from '../numbers';
import { AFTER_ROWS, roundColumn, sheetView, type Cell, type ViewColumn } from '../sheet-view';
import { html, type Markup, toLine } from './html';
import type { PreviewInput } from './preview';

export function formulaSheet(input: PreviewInput): Markup | undefined {
  const view = sheetView(input);
  const table = view.columns.length > 0 ? doughTable(input, view) : partsTable(input);
  const apart = besides(input);
  if (table === undefined && apart === undefined) return undefined;
  return html`<section id="sheet" class="sheet" aria-labelledby="sheet-name"><h2 id="sheet-name">${view.columns.length > 0 ? 'Formula' : 'Ingredients'}</h2>
${table}${apart}</section>`;
}

function doughTable(input: PreviewInput, { rows, columns }: ReturnType<typeof sheetView>): Markup {
  const { formula, lineOf } = input;
  const lineOfName = new Map<string, number>();
  for (const part of formula.parts) {
    for (const { name, place } of part.lines) if (!lineOfName.has(name)) lineOfName.set(name, lineOf(place));
  }
  const after = AFTER_ROWS.filter((name) => columns.some((column) => column.after.has(name)));
  const kept = after.some((name) => name !== 'for the dough') ? after : [];
  return scroller(html`<table${columns.length > MOST_AT_EASE && html` class="wide"`}>
<thead>
<tr><td rowspan="2"></td>${columns.map(({ kind, title }) => html`<th scope="colgroup" colspan="2" class="${kind}">${capital(title)}</th>`)}</tr>
<tr>${columns.map(({ kind }) => html`<th scope="col" class="${kind}">g</th><th scope="col">%</th>`)}</tr>
</thead>
<tbody>${rows.map(
    ({ name, isPart }, at) =>
      html`<tr${isPart && html` class="part-row"`}><th scope="row">${toLine(lineOfName.get(name), name)}</th>${columns.map((column) => cells(column, column.cells[at]))}</tr>`,
  )}</tbody>
<tfoot>
<tr class="sum"><th scope="row">together</th>${columns.map((column) => cells(column, column.total))}</tr>
${kept.map(
    (name) =>
      html`<tr class="after"><th scope="row">${name}</th>${columns.map((column) => {
        const value = column.after.get(name);
        return html`<td class="${column.kind}">${value === undefined ? '' : signed(value)}</td><td></td>`;
      })}</tr>`,
  )}</tfoot>
</table>`);
}

/** More columns than these are printed small, so that a sheet of paper has them all. */
const MOST_AT_EASE = 5;

function cells({ kind }: ViewColumn, cell: Cell | undefined): Markup {
  if (cell === undefined) return html`<td class="${kind}"></td><td></td>`;
  return html`<td class="${kind}">${cell.grams === null ? UNKNOWN : roundedGrams(cell.grams)}</td><td class="pct">${percent(cell.pct)}</td>`;
}

function signed(grams: number): string {
  return grams < 0 ? `−${roundedGrams(-grams)}` : roundedGrams(grams);
}

/** A dish, or a formula whose dough is not there yet: the lines of each part under its name. */
function partsTable({ formula, lineOf }: PreviewInput): Markup | undefined {
  const parts = formula.parts.filter(({ lines }) => lines.some(({ inDough }) => inDough));
  if (parts.length === 0) return undefined;
  return html`<div class="parts">${parts.map((part) => {
    const lines = summedLines(part);
    const { values, total } = roundColumn(lines.map(({ grams }) => grams));
    const placeOf = (name: string): number | undefined => {
      const line = part.lines.find((candidate) => candidate.name === name);
      return line && lineOf(line.place);
    };
    return html`<table>
<thead><tr><th scope="col">${toLine(lineOf(part.place), capital(part.name))}</th><th scope="col">g</th></tr></thead>
<tbody>${lines.map(({ name }, at) => html`<tr><th scope="row">${toLine(placeOf(name), name)}</th><td>${roundedOrDash(values[at])}</td></tr>`)}</tbody>
<tfoot><tr class="sum"><th scope="row">together</th><td>${roundedOrDash(total)}</td></tr></tfoot>
</table>`;
  })}</div>`;
}

function roundedOrDash(grams: number | null | undefined): string {
  return grams === null || grams === undefined ? UNKNOWN : roundedGrams(grams);
}

/** What is weighed out but kept out of the dough: `20 g rice flour for dusting`. */
function besides({ formula, sheet, lineOf }: PreviewInput): Markup | undefined {
  const lines: readonly ResolvedLine[] =
    sheet.besides.length > 0 ? sheet.besides : formula.parts.flatMap((part) => part.lines.filter(({ inDough }) => !inDough));
  if (lines.length === 0) return undefined;
  const items = lines.map(({ name, grams, purpose, place }) =>
    html`<li>${toLine(lineOf(place), `${weight(grams)} ${name}${purpose === undefined ? '' : ` ${purposeWords(purpose)}`}`)}</li>`);
  return html`<p class="besides-title">Besides</p><ul class="besides">${items}</ul>`;
}

function purposeWords(purpose: string): string {
  return /^for\s/i.test(purpose) ? purpose : `for ${purpose}`;
}

/** A wide table scrolls sideways by itself, also by keyboard. */
function scroller(table: Markup): Markup {
  return html`<div class="scroller" tabindex="0" role="group" aria-labelledby="sheet-name">${table}</div>`;
}

export function capital(text: string): string {
  const [first = ''] = text;
  return first.toUpperCase() + text.slice(first.length);
}
