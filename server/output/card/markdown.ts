/** Cards as Markdown: CommonMark with the tables that most readers know. Everything from a file is escaped. */
import { NOT_KNOWN, type Card, type CardLine, type CardPart, type MethodStep } from './model';

/** Every card with a line across the page before the next. */
export function cardsMarkdown(cards: readonly Card[]): string {
  return cards.map((card) => `${cardMarkdown(card).join('\n\n')}\n`).join('\n---\n\n');
}

/** Blocks; an empty line goes between them. */
function cardMarkdown(card: Card): readonly string[] {
  return [
    `# ${escapeMarkdown(card.title)}`,
    ...[card.yield, card.size ?? '', card.unknown ?? ''].filter((text) => text !== '').map(escapeMarkdown),
    ...(card.figures.length === 0 ? [] : [card.figures.map(({ label, value }) => `${label} **${escapeMarkdown(value)}**`).join(' · ')]),
    ...weigh(card),
    ...(card.method.length === 0 ? [] : ['## Method', ...card.method.flatMap(({ name, steps }) => [
      ...(card.method.length > 1 ? [`### ${escapeMarkdown(name)}`] : []),
      steps.map((step, at) => stepItem(step, `${String(at + 1)}. `, '   ')).join('\n'),
    ])]),
    ...when(card),
    ...madeOf(card),
    ...(card.notes.length === 0 ? [] : ['## Notes', ...card.notes.map(escapeMarkdown)]),
    ...(card.cautions.length === 0 ? [] : ['## Take care', card.cautions.map((text) => `- ${escapeMarkdown(text)}`).join('\n'), escapeMarkdown(card.localRules)]),
    ...foodFacts(card),
    ...(card.credits.length === 0 ? [] : [card.credits.map(escapeMarkdown).join(' · ')]),
  ];
}

function weigh({ parts, total, besides, homeNote }: Card): readonly string[] {
  if (parts.length + besides.length === 0) return [];
  const hasPct = parts.some(({ lines }) => lines.some(({ pct }) => pct !== undefined));
  const hasHome = homeNote !== undefined;
  const row = ({ weight, name, remarks, pct, home, mustWeigh }: CardLine): readonly string[] => [
    mustWeigh ? `**${escapeMarkdown(weight)}**` : escapeMarkdown(weight),
    escapeMarkdown([name, ...remarks].join(', ')),
    ...(hasPct ? [escapeMarkdown(pct ?? '')] : []),
    ...(hasHome ? [escapeMarkdown(home ?? '')] : []),
  ];
  const sum = ({ lines, total: { grams, pct }, after }: CardPart): readonly (readonly string[])[] => (lines.length < 2 && after.length === 0 ? [] : [[
    escapeMarkdown(grams), `*${escapeMarkdown(['together', ...after].join(', '))}*`, ...(hasPct ? [escapeMarkdown(pct ?? '')] : []), ...(hasHome ? [''] : []),
  ]]);
  const table = (rows: readonly (readonly string[])[]): string => tableText(
    ['Weight', 'Ingredient', ...(hasPct ? ['baker’s %'] : []), ...(hasHome ? ['Spoons and cups'] : [])],
    ['right', 'left', ...(hasPct ? ['right' as const] : []), ...(hasHome ? ['left' as const] : [])], rows,
  );
  return [
    '## What to weigh',
    ...parts.flatMap((part) => [
      `### ${escapeMarkdown(part.wanted === undefined ? part.name : `${part.name} ${part.wanted}`)}`, table([...part.lines.map(row), ...sum(part)]),
    ]),
    ...(besides.length === 0 ? [] : ['### Besides the dough', table(besides.map(row))]),
    ...(parts.length > 1 && total.length > 0 ? [`**In all**, of all the flour: ${total.map(({ name, pct }) => escapeMarkdown(`${name} ${pct ?? NOT_KNOWN}`)).join(', ')}.`] : []),
    ...(hasPct ? ['Baker’s % are of the flour weighed into the same part; of a part without flour, of its own lines together.'] : []),
    ...(homeNote === undefined ? [] : [escapeMarkdown(homeNote)]),
  ];
}

/** @param indent of what stands under it */
function stepItem({ name, takes, words, clock, inside }: MethodStep, mark: string, indent: string): string {
  const text = [
    `**${escapeMarkdown(name)}**`, takes === '' ? '' : ` ${escapeMarkdown(takes)}`, words === '' ? '' : `${takes === '' ? '' : ','} ${escapeMarkdown(words)}`,
    clock === undefined ? '' : ` (${clock})`,
  ].join('');
  return [`${mark}${text}`, ...inside.map((step) => stepItem(step, `${indent}- `, `${indent}  `))].join('\n');
}

function when({ timeline }: Card): readonly string[] {
  if (timeline === undefined) return [];
  const days = timeline.days.map(({ name, stretches }) => (
    [`- **${escapeMarkdown(name)}**`, ...stretches.map(({ when: at, what }) => `  - ${escapeMarkdown(`${at}: ${what.join(', ')}`)}`)].join('\n')
  ));
  return ['## When', days.join('\n'), escapeMarkdown(timeline.about)];
}

function madeOf({ ingredients, allergens }: Card): readonly string[] {
  if (ingredients === undefined) return [];
  const list = ingredients.map(({ text, strong }) => (strong ? `**${escapeMarkdown(text)}**` : inner(text))).join('');
  return [
    '## Ingredients and allergens', `${list}.`,
    ...(allergens.length === 0 ? [] : [allergens.map(({ label, value }) => `- ${label}: ${escapeMarkdown(value)}`).join('\n')]),
    'Heaviest first; allergens in bold capitals. A draft: names are those of the formula, packets and local food law come first.',
  ];
}

function foodFacts({ nutrition }: Card): readonly string[] {
  if (nutrition === undefined) return [];
  const { columns, figures, notes } = nutrition;
  if (figures.length === 0) return ['## Food facts', escapeMarkdown(notes.join(' '))];
  const rows = figures.map(({ label, within, values }) => [within ? `of which ${label}` : label, ...values].map(escapeMarkdown));
  return ['## Food facts', tableText(['', ...columns.map(escapeMarkdown)], ['left', ...columns.map(() => 'right' as const)], rows), escapeMarkdown(notes.join(' '))];
}

// --- Markdown ---------------------------------------------------------------------------------------------------------

function tableText(head: readonly string[], align: readonly ('left' | 'right')[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [line(head), line(align.map((side) => (side === 'right' ? '---:' : '---'))), ...rows.map(line)].join('\n');
}

/** Signs that mean something inside a line. */
const SIGNS = /[\\`*_[\]<>&|~#@]/g;

/** One line of a text as it is to be read: no sign of it marks anything up, also at the start of a line, and no address becomes a link. */
export function escapeMarkdown(text: string): string {
  return inner(text.trim()).replace(/^([-+=])/, '\\$1').replace(/^(\d+)([.)])(?=\s|$)/, '$1\\$2');
}

/** The same for a text that others stand before and behind: its spaces stay. */
function inner(text: string): string {
  return text.replace(SIGNS, '\\$&').replace(/:\/\//g, '\\://').replace(/\bwww\./gi, (found) => `${found.slice(0, -1)}\\.`);
}
