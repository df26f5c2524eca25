/** `proofsheet sheet`: the formula sheet and its totals, at the size written or at another. */
import type { Readable } from 'node:stream';
import { sheetOf } from '../core/formula/sheet';
import { totalsOf } from '../core/formula/totals';
import { askedFor } from '../core/scaling/asked';
import { scaleFormula, type ScaleRequest } from '../core/scaling/scale';
import { titleOf, type FormulaEntry } from '../output/entry';
import { recordsCsv } from '../output/records-csv';
import { familiesJson, familyText } from '../output/family';
import { sheetJson } from '../output/sheet-json';
import type { FactsOptions } from '../output/sheet-facts';
import { sheetText } from '../output/sheet-text';
import { printable } from '../output/width';
import { familiesOf } from './family';
import { chosenFormulas, nothingFound, sameName } from './formulas';
import { oneOf, type Options } from './options';
import { Refusal, worst, type ExitStatus } from './refusal';
import { SIZE_OPTIONS, sizeAskedFor, stepAskedFor } from './size';
import type { Terminal } from './terminal';
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
    'Under it stand the water temperature, fermentation, nutrition, allergens, cost and cautions, in short; --facts gives them in '
      + 'full. They are estimates, and local food rules come first.',
  ],
  examples: ['proofsheet sheet rye.bake', 'proofsheet sheet rye.bake --pieces 6', 'proofsheet sheet rye.bake --have "180 g starter"', 'proofsheet sheet rye.bake --label eu', 'proofsheet sheet rye.bake --records', 'proofsheet sheet --family --formula "Country rye"'],
  options: {
    formula: { value: 'NAME', what: 'only the formula or dish of that name' },
    ...SIZE_OPTIONS,
    facts: { what: 'nutrition as a table, what was taken for granted, cautions with their sources' },
    label: { value: 'eu|us', what: 'nutrition rounded as a label there wants it, and the allergens of its list' },
    slice: { value: 'WEIGHT', what: 'what a slice weighs, for its nutrition; 50 g otherwise' },
    records: { what: 'the records of its bakes, a line each, and the pace of your kitchen fitted to them' },
    csv: { what: 'with --records: nothing but the records, a row each, for a spreadsheet' },
    family: { what: 'a base and all of its variants side by side, with what differs marked' },
    json: { what: 'the stable form for other programs' },
  },
  async run(options, { terminal, stdin }) {
    const csv = options.has('csv');
    if (csv && options.has('json')) throw new Refusal('--csv and --json contradict each other: leave one out.');
    if (csv && !options.has('records')) throw new Refusal('--csv is for records: add --records. The weights of a sheet as CSV are given by "proofsheet export --to csv".');
    if (options.has('family')) return families(options, terminal, stdin);
    const request = sizeAskedFor(options);
    const step = stepAskedFor(options);
    const facts = factsAskedFor(options);
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
    const records = options.has('records');
    if (csv) terminal.out(recordsCsv(entries));
    else if (options.has('json')) terminal.out(sheetJson(entries, { ...facts, records }));
    else terminal.out(entries.map((entry) => sheetText(entry, { width, paint, facts, records })).join('\n\n'));
    return worst(chosen.status, failed ? 2 : 0);
  },
};

/** @throws Refusal where nothing is based on anything */
async function families(options: Options, terminal: Terminal, stdin: Readable): Promise<ExitStatus> {
  const other = Object.keys(SIZE_OPTIONS).find((name) => options.has(name));
  if (other !== undefined) throw new Refusal(`--family compares formulas as they are written: leave --${other} out.`);
  const chosen = await chosenFormulas({ options, terminal, stdin, done: 'computed', plans: false, every: true });
  const name = options.get('formula');
  const found = familiesOf(chosen.entries, name);
  if (found.length === 0) {
    const known = chosen.entries.map(({ formula }) => formula.name);
    if (name !== undefined && !known.some((one) => sameName(one) === sameName(name))) throw new Refusal(nothingFound(name, known));
    throw new Refusal(name === undefined ? 'No formula in these files is based on another. A formula with a "based on" line is a variant.' : printable(`"${name}" is based on no other formula, and none is based on it.`));
  }
  terminal.out(options.has('json') ? familiesJson(found) : found.map((family) => familyText(family, terminal.width)).join('\n\n'));
  return chosen.status;
}

/** @throws Refusal for a label of nowhere, or a slice that is no weight */
function factsAskedFor(options: Options): FactsOptions {
  const label = options.has('label') ? oneOf(options, 'label', ['eu', 'us'] as const, 'eu') : undefined;
  const slice = options.get('slice');
  const asked = slice === undefined ? undefined : askedFor('piece', slice);
  if (asked?.kind === 'not-read') throw new Refusal(`--slice takes ${asked.expected}, not "${slice ?? ''}".`);
  return {
    full: options.has('facts'),
    ...(label !== undefined && { rounding: label, allergens: label }),
    ...(asked?.request.by === 'piece' && { sliceGrams: asked.request.grams }),
  };
}

/** The entry at another size, or why it cannot be brought to it. */
export function scaledEntry(entry: FormulaEntry, request: ScaleRequest, say: (note: string) => void): FormulaEntry | string {
  const scaled = scaleFormula(entry.formula, request, entry.totals.flour_g);
  if (scaled.kind === 'cannot') return scaled.message;
  scaled.notes.forEach(say);
  const { formula, factor } = scaled;
  return { ...entry, formula, asWritten: entry.formula, totals: totalsOf(formula), sheet: sheetOf(formula), factor };
}
