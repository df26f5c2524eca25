/** Dough temperature, fermentation, food facts, allergens and cost under the formula, and the cautions beside the method. */
import { nutritionOf } from '../../core/facts';
import { allergenFacts } from '../facts/allergens';
import { cautionsOf, LOCAL_RULES } from '../facts/cautions';
import { costFacts } from '../facts/cost';
import { doughTemperatureFacts } from '../facts/dough-temperature';
import { fermentationFacts } from '../facts/fermentation';
import { lackingWords, nutritionShort, nutritionTable } from '../facts/nutrition';
import { sentence, type FactBlock } from '../facts/words';
import { html, type Markup, toLine } from './html';
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
${block.notes.length > 0 && html`<p class="quiet">${block.notes.join(' ').replace(/`([^`]*)`/g, '“$1”')}</p>`}</section>`;
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

/** In full, each with its public guidance; the words lead to the first line that it is about. */
export function cautionsSection({ formula, timeline, lineOf }: PreviewInput): Markup | undefined {
  const list = cautionsOf(formula, timeline);
  if (list.length === 0) return undefined;
  const items = list.map(({ text, source, places: [first] }) =>
    html`<li>${toLine(first && lineOf(first), text)} <small>${sentence(source)}</small></li>`);
  return html`<section id="cautions" class="cautions" aria-labelledby="cautions-name"><h2 id="cautions-name">Cautions</h2><ul>${items}</ul><p class="quiet">${LOCAL_RULES}</p></section>`;
}
