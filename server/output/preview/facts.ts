/** Dough temperature, fermentation, food facts, allergens and cost under the formula, and the cautions beside the method. */
import { nutritionOf } from '../../core/facts';
import { allergenFacts } from '../facts/allergens';
import { cautionsOf, LOCAL_RULES } from '../facts/cautions';
import { costFacts } from '../facts/cost';
import { doughTemperatureFacts } from '../facts/dough-temperature';
import { declarationFacts } from '../facts/declaration';
import { fermentationFacts } from '../facts/fermentation';
import { lackingWords, nutritionShort, nutritionTable } from '../facts/nutrition';
import { sentence, type FactBlock } from '../facts/words';
import { bakeWords, latestFirst, paceWords, recordsView } from '../records';
import { html, type Markup, said, toLine } from './html';
import type { PreviewInput } from './preview';

export function doughTemperatureSection({ formula }: PreviewInput): Markup | undefined {
  return blockSection('temperature', doughTemperatureFacts(formula));
}

export function fermentationSection({ formula, totals }: PreviewInput): Markup | undefined {
  return blockSection('fermentation', fermentationFacts(formula, totals));
}

export function allergensSection({ formula, label = {} }: PreviewInput): Markup | undefined {
  return blockSection('allergens', allergenFacts(formula, label.allergens));
}

export function costSection({ formula }: PreviewInput): Markup | undefined {
  return blockSection('cost', costFacts(formula));
}

function blockSection(id: string, block: FactBlock | undefined): Markup | undefined {
  if (block === undefined) return undefined;
  return html`<section id="${id}" class="facts-of" aria-labelledby="${id}-name">${heading(id, block.title, block.about)}
<dl class="said">${block.facts.map(({ label, value }) => html`<div><dt>${label}</dt><dd>${value}</dd></div>`)}</dl>
${block.notes.length > 0 && html`<p class="quiet">${said(block.notes.join(' '))}</p>`}</section>`;
}

function heading(id: string, title: string, about: string | undefined): Markup {
  return html`<h2 id="${id}-name">${title}${about !== undefined && html` <small>${about}</small>`}</h2>`;
}

/** A table of words and numbers: it needs no other text in its place. */
export function foodFactsSection(input: PreviewInput): Markup | undefined {
  const found = nutritionOf(input.formula, input.totals, input.sheet);
  const table = nutritionTable(input, { rounding: input.label?.labelRounding ?? 'none' });
  if (found === null || table === undefined) return undefined;
  if (nutritionShort(found) === undefined) {
    return html`<section id="food" class="food" aria-labelledby="food-name">${heading('food', 'Food facts', undefined)}<p>${lackingWords(found).join(' ')}</p></section>`;
  }
  const { columns, figures, notes } = table;
  return html`<section id="food" class="food" aria-labelledby="food-name">${heading('food', 'Food facts', `${input.formula.kind === 'dish' ? '' : 'baked, '}estimated from composition tables`)}
<div class="scroller" tabindex="0" role="group" aria-labelledby="food-name"><table>
<thead><tr><td></td>${columns.map((column) => html`<th scope="col">${column}</th>`)}</tr></thead>
<tbody>${figures.map(
    ({ label, within, values }) =>
      html`<tr${within && html` class="within"`}><th scope="row">${within ? `of which ${label}` : label}</th>${values.map((value) => html`<td>${value}</td>`)}</tr>`,
  )}</tbody>
</table></div>
<p class="quiet">${notes.join(' ')}</p></section>`;
}

/** The ingredients as on a label, heaviest first; what the law wants set off stands in capitals and in bold. */
export function labelSection({ formula, label = {} }: PreviewInput): Markup | undefined {
  const block = declarationFacts(formula, label.allergens);
  if (block === undefined) return undefined;
  const [list, ...more] = block.facts;
  return html`<section id="label" aria-labelledby="label-name">${heading('label', block.title, block.about)}
<p class="list">${setOff(sentence(list?.value ?? ''))}</p>${more.map(({ label: what, value }) => html`<p class="quiet">${sentence(`${what}: ${value}`)}</p>`)}
<p class="quiet">${block.notes.join(' ')}</p></section>`;
}

/** Words in capitals in bold. */
function setOff(text: string): readonly Markup[] {
  return text.split(/(\b\p{Lu}{2,}(?: \p{Lu}{2,})*\b)/u).map((piece, at) => (at % 2 === 1 ? html`<b>${piece}</b>` : html`${piece}`));
}

/** How many bakes stand beside the plan; hovers and `sheet --records` have all. */
const MOST_BAKES = 3;

/** The last bakes beside the plan, and the pace of the kitchen fitted to all. Records are of the size written. */
export function recordsSection(input: PreviewInput): Markup | undefined {
  const view = recordsView(input);
  if (view.compared.length === 0) return undefined;
  const lineOf = input.lineAsWritten ?? input.lineOf;
  const items = latestFirst(view).slice(0, MOST_BAKES).map((bake) => html`<li>${toLine(lineOf(bake.record.place), bakeWords(bake))}</li>`);
  const more = view.compared.length - items.length;
  return html`<section id="records" class="records" aria-labelledby="records-name"><h2 id="records-name">Records</h2><ul>${items}</ul>
${more > 0 && html`<p class="quiet">and ${more} before</p>`}<p>${said(paceWords(view.pace))}</p></section>`;
}

/** In full, each with its public guidance; the words lead to the first line that it is about. */
export function cautionsSection({ formula, timeline, lineOf }: PreviewInput): Markup | undefined {
  const list = cautionsOf(formula, timeline);
  if (list.length === 0) return undefined;
  const items = list.map(({ text, source, places: [first] }) =>
    html`<li>${toLine(first && lineOf(first), said(text))} <small>${sentence(source)}</small></li>`);
  return html`<section id="cautions" class="cautions" aria-labelledby="cautions-name"><h2 id="cautions-name">Cautions</h2><ul>${items}</ul><p class="quiet">${LOCAL_RULES}</p></section>`;
}
