/** `proofsheet sheet`: the formula sheet and its totals, at the size written or at another. */
import { scaleFormula, type ScaleRequest } from '../core/scaling/scale';
import { sheetOf } from '../core/formula/sheet';
import { totalsOf } from '../core/formula/totals';
import { GRAMS_PER } from '../core/units/mass';
import { titleOf, type FormulaEntry } from '../output/entry';
import { sheetJson } from '../output/sheet-json';
import { sheetText } from '../output/sheet-text';
import { printable } from '../output/width';
import { chosenFormulas } from './formulas';
import type { Options } from './options';
import { Refusal, worst } from './refusal';
import type { Verb } from './verb';

const SIZES = ['pieces', 'piece', 'dough', 'flour', 'factor', 'have'] as const;

export const sheet: Verb = {
  name: 'sheet',
  summary: 'prints the formula sheet and its totals',
  takes: '[FILES or FOLDERS]',
  about: [
    'Prints a sheet for each formula: its totals by name, then a row per ingredient with the total formula, each preferment, '
      + 'soaker or scald, and the final dough, in grams and per cent. "-" reads standard input.',
    'One of the sizes makes the sheet larger or smaller. It is a view: the file stays as it is. Weights are in g unless they '
      + 'say kg, mg, oz or lb.',
  ],
  examples: ['proofsheet sheet rye.bake', 'proofsheet sheet rye.bake --pieces 6', 'proofsheet sheet rye.bake --have "180 g starter"'],
  options: {
    formula: { value: 'NAME', what: 'only the formula or dish of that name' },
    pieces: { value: 'NUMBER', what: 'size: so many pieces' },
    piece: { value: 'WEIGHT', what: 'size: pieces of that weight' },
    dough: { value: 'WEIGHT', what: 'size: that weight of dough' },
    flour: { value: 'WEIGHT', what: 'size: that weight of flour in all' },
    factor: { value: 'NUMBER', what: 'size: so many times what is written' },
    have: { value: '"180 g starter"', what: 'size: as much as that ingredient allows' },
    json: { what: 'the stable form for other programs' },
  },
  async run(options, { terminal, stdin }) {
    const request = sizeAskedFor(options);
    const chosen = await chosenFormulas({ options, terminal, stdin, done: 'computed', plans: false });
    let failed = false;
    const entries = chosen.entries.flatMap((entry) => {
      const scaled = request === undefined ? entry : scaledEntry(entry, request);
      if (typeof scaled !== 'string') return [scaled];
      terminal.say(printable(`"${titleOf(entry.formula)}" cannot be brought to that size. ${scaled}`));
      failed = true;
      return [];
    });
    const { paint, width } = terminal;
    if (options.has('json')) terminal.out(sheetJson(entries));
    else terminal.out(entries.map((entry) => sheetText(entry, { width, paint })).join('\n\n'));
    return worst(chosen.status, failed ? 2 : 0);
  },
};

function scaledEntry(entry: FormulaEntry, request: ScaleRequest): FormulaEntry | string {
  const scaled = scaleFormula(entry.formula, request, entry.totals.flour_g);
  if (scaled.kind === 'cannot') return scaled.message;
  const { formula, factor } = scaled;
  return { ...entry, formula, totals: totalsOf(formula), sheet: sheetOf(formula), factor };
}

// --- the size asked for -----------------------------------------------------------------------------------------------

function sizeAskedFor(options: Options): ScaleRequest | undefined {
  const given = SIZES.filter((name) => options.has(name));
  const [by, second] = given;
  if (by === undefined) return undefined;
  if (second !== undefined) throw new Refusal(`--${by} and --${second} both ask for a size: give one of them.`);
  const value = options.get(by) ?? '';
  switch (by) {
    case 'pieces':
      return { by, pieces: numberOf(by, value) };
    case 'factor':
      return { by, factor: numberOf(by, value) };
    case 'piece':
    case 'dough':
    case 'flour':
      return { by, grams: gramsOf(by, value) };
    case 'have': {
      const weight = /^([\d.]+)\s*(g|kg|mg|oz|lb)\s+(?:of\s+)?(\S.*)$/i.exec(value.trim());
      if (weight === null) throw new Refusal(`--have takes a weight and a name, such as "180 g starter", not "${value}".`);
      return { by, grams: gramsOf(by, `${weight[1] ?? ''} ${weight[2] ?? ''}`), name: (weight[3] ?? '').trim() };
    }
  }
}

function numberOf(option: string, text: string): number {
  const value = /^\d+(\.\d+)?$|^\.\d+$/.test(text.trim()) ? Number(text) : NaN;
  if (!(value > 0) || value > 1e9) throw new Refusal(`--${option} takes a number above 0, such as 4 or 2.5, not "${text}".`);
  return value;
}

function gramsOf(option: string, text: string): number {
  const match = /^(\d+(?:\.\d+)?|\.\d+)\s*([a-z]*)$/i.exec(text.trim());
  const unit = (match?.[2] ?? '').toLowerCase() || 'g';
  const gramsPerUnit = Object.entries(GRAMS_PER).find(([name]) => name === unit)?.[1] ?? NaN;
  const grams = Number(match?.[1] ?? NaN) * gramsPerUnit;
  if (!(grams > 0) || grams > 1e9) throw new Refusal(`--${option} takes a weight above 0, such as "900 g" or "5 kg", not "${text}".`);
  return grams;
}
