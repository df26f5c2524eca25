/** A file in plain lines that say what it means, one fact a line, for comparing line by line: layout, comments and the way amounts are written do not show. */
import { allergensOf } from '../core/facts';
import { stepLine } from '../core/compare';
import { allergenLabels } from '../core/ingredients/allergens';
import type { PlacedStep, Section } from '../core/formula/model';
import type { FormulaEntry } from './entry';
import { summedLines, titleOf } from './entry';
import { celsius, grams, percent } from './numbers';
import { printable } from './width';

/** Always the same lines in the same order for the same meaning; each carries the name of its formula and part, so that it can be read by itself. */
export function summaryLines(entry: FormulaEntry): readonly string[] {
  const { formula, totals } = entry;
  const title = printable(titleOf(formula));
  const flour = totals.flour_g;
  const lines: string[] = [`${formula.kind} "${title}"`];
  const { yield: made } = formula;
  if (made.pieces !== null) lines.push(`makes: ${String(made.pieces)} ${printable(made.noun)}, ${grams(made.pieceGrams)} g each`);
  if (formula.styles.length > 0) lines.push(`style: ${formula.styles.map(({ text }) => printable(text)).sort().join(', ')}`);
  for (const { node } of entry.section.blocks[0]?.lines ?? []) {
    if (node.kind === 'property' && node.key !== 'style') lines.push(`${node.key}: ${printable(entry.section.blocks[0]?.text.slice(node.keyword.end, node.end) ?? '').trim().replace(/\s+/g, ' ')}`);
  }
  const { eu } = allergensOf(formula);
  lines.push(`allergens: ${allergenLabels(eu, 'eu').map(printable).sort().join(', ') || 'none of the EU list'}`);
  for (const part of formula.parts) {
    const name = printable(part.name);
    if (part.desiredCelsius !== null) lines.push(`${name}: at ${celsius(part.desiredCelsius)}`);
    for (const row of summedLines(part)) {
      const pct = row.grams === null || flour === null || flour <= 0 ? null : (100 * row.grams) / flour;
      lines.push(`${name}: ${printable(row.name)}  ${grams(row.grams)} g${pct === null ? '' : `  ${percent(pct)} %`}`);
    }
    for (const line of part.lines) if (!line.inDough) lines.push(`${name}: ${printable(line.name)} for ${printable(line.purpose ?? '')}  ${grams(line.grams)} g`);
    for (const step of part.steps) lines.push(...stepLines(`${name}: `, step));
  }
  const total = (label: string, value: number | null, unit: string, write: (value: number | null) => string): void => {
    if (value !== null && value !== 0) lines.push(`total: ${label} ${write(value)} ${unit}`);
  };
  total('flour', flour, 'g', grams);
  total('dough', totals.dough_g, 'g', grams);
  total('hydration', totals.hydration_pct, '%', percent);
  total('salt', totals.salt_pct, '%', percent);
  total('sugar', totals.sugar_pct, '%', percent);
  total('prefermented flour', totals.prefermented_flour_pct, '%', percent);
  total('inclusions', totals.inclusions_pct, '%', percent);
  for (const step of formula.method) lines.push(...stepLines('step: ', step));
  for (const { date } of formula.records) lines.push(`record: ${printable(date)}`);
  return lines;
}

function stepLines(front: string, step: PlacedStep): readonly string[] {
  return [`${front}${printable(stepLine(step))}`, ...step.children.flatMap((child) => stepLines(`${front}  `, child))];
}

/** A plan, an ingredient of one's own or a `use` line by line, laid out as nothing. */
export function otherLines({ blocks }: Section): readonly string[] {
  return blocks.flatMap(({ text, head, lines }) => {
    const own = (start: number, end: number): string => printable(text.slice(start, end)).trim().replace(/\s+/g, ' ');
    const name = own(head.node.start, head.node.end);
    const said = lines.flatMap(({ node }) => (node.kind === 'blank' || node.kind === 'comment' ? [] : [`${name}: ${own(node.start, node.end)}`]));
    return name === '' ? said : [name, ...said];
  });
}
