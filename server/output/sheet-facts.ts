/**
 * What stands under a printed sheet: dough temperature, fermentation, food facts, allergens, cost and cautions. Short, so
 * that the sheet stays a sheet; in full where it is asked for.
 */
import { nutritionOf } from '../core/facts';
import type { FormulaEntry } from './entry';
import { allergenFacts, type AllergenLists } from './facts/allergens';
import { cautionsOf, LOCAL_RULES, shortly } from './facts/cautions';
import { costFacts } from './facts/cost';
import { declarationFacts } from './facts/declaration';
import { doughTemperatureFacts } from './facts/dough-temperature';
import { fermentationFacts } from './facts/fermentation';
import { lackingWords, nutritionShort, nutritionTable, type LabelRounding } from './facts/nutrition';
import { whyUnknown } from './facts/unknown';
import { sentence, type FactBlock } from './facts/words';
import type { Paint } from './paint';
import { table, type Cells } from './table';
import { padEnd, printable, widthOf, wrap } from './width';

export interface FactsOptions {
  /** The table of nutrition, the ingredients in the order of a label, what was taken for granted, cautions with their sources. */
  readonly full?: boolean;
  readonly rounding?: LabelRounding;
  readonly allergens?: AllergenLists;
  /** What a slice weighs, g; a usual one where it is left out. */
  readonly sliceGrams?: number;
}

interface Page {
  readonly width: number;
  readonly paint: Paint;
}

/** Blocks of lines; each stands apart from the next. */
export function sheetFacts(entry: FormulaEntry, asked: FactsOptions, page: Page): readonly (readonly string[])[] {
  const { formula, label = {} } = entry;
  // What is asked for on the spot goes before what the settings say.
  const options: FactsOptions = {
    ...asked, rounding: asked.rounding ?? label.labelRounding ?? 'none', allergens: asked.allergens ?? label.allergens ?? 'both',
  };
  const why = whyUnknown(entry);
  const blocks = [
    ...(why === undefined || formula.parts.length === 0 ? [] : [wrap(printable(why), page.width)]),
    ...[doughTemperatureFacts(formula), fermentationFacts(formula, entry.totals)].map((block) => blockLines(block, options, page)),
    nutrition(entry, options, page),
    ...[allergenFacts(formula, options.allergens), options.full === true ? declarationFacts(formula, options.allergens) : undefined, costFacts(formula)]
      .map((block) => blockLines(block, options, page)),
    cautions(entry, options, page),
  ];
  return blocks.filter((lines) => lines.length > 0);
}

function title(text: string, about: string | undefined, { paint }: Page): string {
  return about === undefined ? paint.strong(text) : `${paint.strong(text)} ${paint.quiet(`(${about})`)}`;
}

function blockLines(block: FactBlock | undefined, { full = false }: FactsOptions, page: Page): readonly string[] {
  if (block === undefined) return [];
  const labels = block.facts.map(({ label }) => printable(label));
  const width = Math.min(24, Math.max(...labels.map(widthOf)));
  const facts = block.facts.flatMap(({ label, value }) => entryLines(printable(label), width, value, page));
  const notes = full ? block.notes.flatMap((note) => indented(note, 2 + width + 3, page)) : shortNote(block, 2 + width + 3, page);
  return [title(block.title, block.about, page), ...facts, ...notes.map(page.paint.quiet)];
}

/** The assumptions of a block in one quiet paragraph. Where the pace of fermentation comes from is for those who ask. */
function shortNote({ title: name, notes }: FactBlock, indent: number, page: Page): readonly string[] {
  return name === 'Dough temperature' && notes.length > 0 ? indented(notes.map((text) => shortly({ text }, 0)).join(' '), indent, page) : [];
}

function entryLines(label: string, labelWidth: number, value: string, page: Page): readonly string[] {
  const indent = 2 + labelWidth + 3;
  const [first = '', ...more] = wrap(printable(value), Math.max(24, page.width - indent));
  const head = widthOf(label) > labelWidth ? [`  ${label}`, `${' '.repeat(indent)}${first}`] : [`  ${padEnd(label, labelWidth)}   ${first}`];
  return [...head, ...more.map((line) => ' '.repeat(indent) + line)];
}

function indented(text: string, indent: number, page: Page): readonly string[] {
  return wrap(printable(text), Math.max(24, page.width - indent)).map((line) => ' '.repeat(indent) + line);
}

function nutrition(entry: FormulaEntry, { full = false, rounding = 'none', sliceGrams }: FactsOptions, page: Page): readonly string[] {
  const found = nutritionOf(entry.formula, entry.totals, entry.sheet);
  if (found === null) return [];
  const baked = entry.formula.kind === 'dish' ? '' : ' baked';
  const short = nutritionShort(found);
  const lacking = lackingWords(found).flatMap((words) => indented(words, 2, page));
  if (short === undefined) return [title('Food facts', undefined, page), ...lacking];
  if (!full && rounding === 'none') {
    return [title('Food facts', `100 g${baked}, estimated from composition tables`, page), ...itemLines(short, page), ...lacking.map(page.paint.quiet)];
  }
  const whole = nutritionTable(entry, { rounding, sliceGrams });
  if (whole === undefined) return [];
  const head: Cells = ['', ...whole.columns];
  const body = whole.figures.map(({ label, within, values }): Cells => [within ? `  of which ${label}` : label, ...values]);
  const lines = table([{ align: 'left', gap: 2 }, ...whole.columns.map(() => ({ align: 'right', gap: 3 }) as const)], [head, ...body]);
  const [columns = '', ...rest] = lines;
  return [
    title('Food facts', `${baked === '' ? '' : 'baked, '}estimated from composition tables`, page),
    page.paint.quiet(columns), ...rest,
    ...whole.notes.flatMap((note) => indented(note, 2, page)).map(page.paint.quiet),
  ];
}

/** Items with a dot between them; none is broken. */
function itemLines(items: readonly string[], { width }: Page): readonly string[] {
  const lines: string[] = [];
  for (const item of items) {
    const joined = `${lines.at(-1) ?? ''} · ${item}`;
    if (lines.length > 0 && widthOf(joined) <= width) lines[lines.length - 1] = joined;
    else lines.push(`  ${item}`);
  }
  return lines;
}

function cautions({ formula }: FormulaEntry, { full = false }: FactsOptions, page: Page): readonly string[] {
  const list = cautionsOf(formula);
  if (list.length === 0) return [];
  const lines = list.flatMap((caution) => [
    ...bullet(full ? caution.text : shortly(caution), page),
    ...(full ? indented(sentence(caution.source), 4, page).map(page.paint.quiet) : []),
  ]);
  return [title('Cautions', undefined, page), ...lines, ...indented(`${LOCAL_RULES}${full ? '' : ' In full with --facts.'}`, 2, page).map(page.paint.quiet)];
}

function bullet(text: string, page: Page): readonly string[] {
  const [first = '', ...more] = wrap(printable(text), Math.max(24, page.width - 4));
  return [`  · ${first}`, ...more.map((line) => `    ${line}`)];
}
