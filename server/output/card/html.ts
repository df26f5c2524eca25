/**
 * Cards as one page of HTML that stands alone: its style is in it, there is no script, and its content policy lets nothing be
 * loaded. Everything from a file is escaped.
 */
import { named } from '../facts/words';
import { counted } from '../numbers';
import { html, type Markup } from '../preview/html';
import { NOT_KNOWN, type Card, type CardLine, type CardPart, type CardTimeline, type MethodStep, type Span } from './model';
import { STYLE, STYLE_HASH } from './style';

const POLICY = `default-src 'none'; style-src '${STYLE_HASH}'; base-uri 'none'; form-action 'none'`;

/** A whole document; several cards are headed by a list of them, which is not printed, and each is printed on a page of its own. */
export function cardsHtml(cards: readonly Card[]): string {
  const isOne = cards.length === 1;
  const page = html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${named(cards.map(({ title }) => title), 3)}</title>
<style>${{ markup: STYLE }}</style>
</head>
<body>
<main>
${!isOne && contents(cards)}${cards.map((card, index) => cardHtml(card, index + 1, isOne))}</main>
</body>
</html>
`;
  // No line ends between a number and its degrees.
  return page.markup.replace(/(\d) (?=°)/g, '$1\u00a0');
}

function contents(cards: readonly Card[]): Markup {
  return html`<header class="contents">
<h1 class="label">${counted(cards.length, 'formula')}</h1>
<nav aria-label="Formulas"><ul>${cards.map(({ title }, index) => html`<li><a href="#title-${index + 1}">${title}</a></li>`)}</ul></nav>
</header>
`;
}

/** The name of an only card heads the page; those of several stand one lower, and all that is in them. */
function cardHtml(card: Card, number: number, isOnly: boolean): Markup {
  const id = (name: string): string => `${name}-${String(number)}`;
  const title = isOnly ? html`<h1 class="title" id="${id('title')}">${card.title}</h1>` : html`<h2 class="title" id="${id('title')}">${card.title}</h2>`;
  const section: Section = (name, label, content) => html`<section class="${name}" aria-labelledby="${isOnly ? id(name) : `${id(name)} ${id('title')}`}">
${isOnly ? html`<h2 class="label" id="${id(name)}">${label}</h2>` : html`<h3 class="label" id="${id(name)}">${label}</h3>`}
${content}</section>
`;
  const minor = (text: string): Markup => (isOnly ? html`<h3 class="minor">${text}</h3>` : html`<h4 class="minor">${text}</h4>`);
  return html`<article class="card" aria-labelledby="${id('title')}">
<header>
${title}
${(card.yield !== '' || card.credits.length > 0) && html`<p class="yield">${card.yield}${card.credits.length > 0 && html` <small>${card.credits.join(' · ')}</small>`}</p>
`}${card.size !== undefined && html`<p class="small">${card.size}</p>
`}${card.unknown !== undefined && html`<p>${card.unknown}</p>
`}${card.figures.length > 0 && html`<dl class="figures">${card.figures.map(({ label, value }) => html`<div><dt>${label}</dt><dd>${value}</dd></div>`)}</dl>
`}</header>
<div class="body">
${columnsOf(card, section, minor).map((column) => html`<div class="column">
${column}</div>
`)}</div>
</article>
`;
}

type Section = (name: string, label: string, content: Markup) => Markup;

/** A section with about how many lines of text it is high. */
interface Placed {
  readonly markup: Markup;
  readonly lines: number;
}

/** About so many letters stand in a line of a column, and a row of a table is so many lines high. */
const LETTERS_IN_A_LINE = 58;
const ROW = 1.2;
const HEADING = 3;

/** What to weigh on the left, what to do on the right, and the rest so that the two columns come out about equally long. */
function columnsOf(card: Card, section: Section, minor: (text: string) => Markup): readonly (readonly Markup[])[] {
  const { parts, total, besides, homeNote, method, timeline: when, ingredients, notes, cautions, nutrition } = card;
  const placed = (name: string, label: string, content: Markup, lines: number): readonly Placed[] => [{ markup: section(name, label, content), lines: lines + HEADING }];
  const rows = parts.reduce((sum, { lines }) => sum + lines.length + 2.6, besides.length > 0 ? besides.length + 2 : 0);
  const inAll = total.map(({ name, pct }) => `${name} ${pct ?? NOT_KNOWN}`).join(', ');
  const left = rows === 0 ? [] : placed('weigh', 'What to weigh', weigh(card), ROW * rows + linesOf([inAll, homeNote ?? '']) + 3);
  const right = [
    ...(method.length === 0 ? [] : placed('method', 'Method', html`${method.map(({ name, steps }) => html`${method.length > 1 && minor(name)}<ol>${steps.map(stepItem)}</ol>
`)}`, method.reduce((sum, { steps }) => sum + 1.3 + stepLines(steps), 0))),
    ...(when === undefined ? [] : placed('when', 'When', timeline(when), linesOf([when.about, ...when.days.flatMap(({ name, stretches }) => [name, stretches.map((one) => `${one.when} ${one.what.join(', ')}`).join('; ')])]))),
  ];
  const others = [
    ...(notes.length === 0 ? [] : placed('notes', 'Notes', html`${notes.map((note) => html`<p>${note}</p>`)}
`, linesOf(notes))),
    ...(ingredients === undefined ? [] : placed('made-of', 'Ingredients and allergens', madeOf(ingredients, card), linesOf([ingredients.map(({ text }) => text).join('')]) + 2 * card.allergens.length + 2)),
    ...(cautions.length === 0 ? [] : placed('mind', 'Take care', html`<ul class="cautions">${cautions.map((text) => html`<li>${text}</li>`)}</ul>
<p class="small after">${card.localRules}</p>
`, linesOf(cautions) + 2)),
    ...(nutrition === undefined ? [] : placed('food', 'Food facts', foodFacts(nutrition), ROW * (1 + nutrition.figures.length) + linesOf([nutrition.notes.join(' ')]))),
  ];
  return balanced(left, right, others).filter((column) => column.length > 0).map((column) => column.map(({ markup }) => markup));
}

/** Of all ways to put the others under the two, the one whose longer column is the shortest. */
function balanced(left: readonly Placed[], right: readonly Placed[], others: readonly Placed[]): readonly [left: readonly Placed[], right: readonly Placed[]] {
  const height = (column: readonly Placed[]): number => column.reduce((sum, { lines }) => sum + lines, 0);
  let best: readonly [readonly Placed[], readonly Placed[]] = [left, [...right, ...others]];
  for (let way = 1; way < 2 ** others.length; way += 1) {
    const isLeft = (_: Placed, at: number): boolean => Math.floor(way / 2 ** at) % 2 === 1;
    const next = [[...left, ...others.filter(isLeft)], [...right, ...others.filter((one, at) => !isLeft(one, at))]] as const;
    if (Math.max(...next.map(height)) < Math.max(...best.map(height))) best = next;
  }
  return best;
}

function linesOf(texts: readonly string[]): number {
  return texts.reduce((sum, text) => sum + Math.ceil(text.length / LETTERS_IN_A_LINE), 0);
}

function stepLines(steps: readonly MethodStep[]): number {
  return steps.reduce((sum, { name, takes, words, inside }) => sum + linesOf([`${name} ${takes} ${words}`]) + stepLines(inside), 0);
}

function weigh({ parts, total, besides, homeNote }: Card): Markup {
  const hasPct = parts.some(({ lines }) => lines.some(({ pct }) => pct !== undefined));
  const hasHome = homeNote !== undefined;
  const columns = 2 + Number(hasPct) + Number(hasHome);
  const group = (name: string, wanted: string | undefined, rows: Markup): Markup => html`<tbody>
<tr class="part"><th colspan="${columns}" scope="rowgroup">${name}${wanted !== undefined && html` <small>${wanted}</small>`}</th></tr>
${rows}</tbody>
`;
  const row = (line: CardLine): Markup => html`<tr${line.mustWeigh && html` class="must"`}><td class="num">${line.weight}</td><th scope="row">${line.name}${line.remarks.length > 0 && html`<small>, ${line.remarks.join(', ')}</small>`}</th>${hasPct && html`<td class="num">${line.pct ?? ''}</td>`}${hasHome && html`<td class="home">${line.home ?? ''}</td>`}</tr>
`;
  const sum = ({ lines, total, after }: CardPart): Markup | undefined => {
    if (lines.length < 2 && after.length === 0) return undefined;
    return html`<tr class="sum"><td class="num">${total.grams}</td><th scope="row">${['together', ...after].join(', ')}</th>${hasPct && html`<td class="num">${total.pct ?? ''}</td>`}${hasHome && html`<td></td>`}</tr>
`;
  };
  return html`<table>
<thead><tr><th scope="col" class="num">Weight</th><th scope="col">Ingredient</th>${hasPct && html`<th scope="col" class="num">baker’s %</th>`}${hasHome && html`<th scope="col">Spoons and cups</th>`}</tr></thead>
${parts.map((part) => group(part.name, part.wanted, html`${part.lines.map(row)}${sum(part)}`))}${besides.length > 0 && group('Besides the dough', undefined, html`${besides.map(row)}`)}</table>
${parts.length > 1 && total.length > 0 && html`<p class="after"><b>In all</b>, of all the flour: ${total.map(({ name, pct }) => `${name} ${pct ?? NOT_KNOWN}`).join(', ')}.</p>
`}${hasPct && html`<p class="small after">Baker’s % are of the flour weighed into the same part; of a part without flour, of its own lines together.</p>
`}${homeNote !== undefined && html`<p class="small">${homeNote}</p>
`}`;
}

function stepItem({ name, takes, words, clock, inside }: MethodStep): Markup {
  return html`<li>${clock !== undefined && html`<span class="clock">${clock}</span>`}<b>${name}</b>${takes !== '' && html` ${takes}`}${words !== '' && html`${takes !== '' && ','} ${words}`}${inside.length > 0 && html`
<ul class="inside">${inside.map(stepItem)}</ul>`}</li>
`;
}

function timeline({ about, days }: CardTimeline): Markup {
  return html`<dl class="days">${days.map(({ name, stretches }) => html`<div><dt>${name}</dt><dd>${stretches.map(({ when, what }, at) => html`${at > 0 && '; '}<b>${when}</b> ${what.join(', ')}`)}</dd></div>`)}</dl>
<p class="small after">${about}</p>
`;
}

function madeOf(ingredients: readonly Span[], { allergens }: Card): Markup {
  return html`<p>${ingredients.map(({ text, strong }) => (strong ? html`<b>${text}</b>` : html`${text}`))}.</p>
<dl class="lists after">${allergens.map(({ label, value }) => html`<div><dt>${label}</dt><dd>${value}</dd></div>`)}</dl>
<p class="small">Heaviest first; allergens in bold capitals. A draft: names are those of the formula, packets and local food law come first.</p>
`;
}

function foodFacts({ columns, figures, notes }: NonNullable<Card['nutrition']>): Markup {
  if (figures.length === 0) return html`<p>${notes.join(' ')}</p>
`;
  return html`<table>
<thead><tr><td></td>${columns.map((column) => html`<th scope="col" class="num">${column}</th>`)}</tr></thead>
<tbody>${figures.map(({ label, within, values }) => html`<tr${within && html` class="within"`}><th scope="row">${within ? `of which ${label}` : label}</th>${values.map((value) => html`<td class="num">${value}</td>`)}</tr>
`)}</tbody>
</table>
<p class="small after">${notes.join(' ')}</p>
`;
}
