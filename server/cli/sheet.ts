/** `proofsheet sheet`: the formula sheet and its totals, at the size written or at another. */
import { sheetOf } from '../core/formula/sheet';
import { totalsOf } from '../core/formula/totals';
import { scaleFormula, type ScaleRequest } from '../core/scaling/scale';
import { titleOf, type FormulaEntry } from '../output/entry';
import { sheetJson } from '../output/sheet-json';
import { sheetText } from '../output/sheet-text';
import { printable } from '../output/width';
import { chosenFormulas } from './formulas';
import { worst } from './refusal';
import { SIZE_OPTIONS, sizeAskedFor, stepAskedFor } from './size';
import type { Verb } from './verb';

export const sheet: Verb = {
  name: 'sheet',
  summary: 'prints the formula sheet and its totals',
  takes: '[FILES or FOLDERS]',
  about: [
    'Prints a sheet for each formula: its totals by name, then a row per ingredient with the total formula, each preferment, '
      + 'soaker or scald, and the final dough, in grams and per cent. "-" reads standard input.',
    'One of the sizes makes the sheet larger or smaller. It is a view: the file stays as it is. Weights are in g unless they '
      + 'say kg, mg, oz or lb. With --step the printed weights are what a scale shows that reads to it, and still add up.',
  ],
  examples: ['proofsheet sheet rye.bake', 'proofsheet sheet rye.bake --pieces 6', 'proofsheet sheet rye.bake --have "180 g starter"'],
  options: {
    formula: { value: 'NAME', what: 'only the formula or dish of that name' },
    ...SIZE_OPTIONS,
    json: { what: 'the stable form for other programs' },
  },
  async run(options, { terminal, stdin }) {
    const request = sizeAskedFor(options);
    const step = stepAskedFor(options);
    const chosen = await chosenFormulas({ options, terminal, stdin, done: 'computed', plans: false });
    let failed = false;
    const entries = chosen.entries.flatMap((entry) => {
      const scaled = request === undefined ? entry : scaledEntry(entry, request, (note) => terminal.say(printable(`"${titleOf(entry.formula)}": ${note}`)));
      if (typeof scaled !== 'string') return [{ ...scaled, step }];
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

function scaledEntry(entry: FormulaEntry, request: ScaleRequest, say: (note: string) => void): FormulaEntry | string {
  const scaled = scaleFormula(entry.formula, request, entry.totals.flour_g);
  if (scaled.kind === 'cannot') return scaled.message;
  scaled.notes.forEach(say);
  const { formula, factor } = scaled;
  return { ...entry, formula, totals: totalsOf(formula), sheet: sheetOf(formula), factor };
}
