/** `proofsheet record`: the beginning of a record of a bake, to be put under its formula. */
import { formatInstant } from '../core/timeline/clock';
import { titleOf } from '../output/entry';
import { recordStart } from '../output/record-start';
import { chosenFormulas } from './formulas';
import { Refusal } from './refusal';
import type { Verb } from './verb';

export const record: Verb = {
  name: 'record',
  summary: 'prints the beginning of a record of a bake',
  takes: 'FILE',
  about: [
    'Prints a record block for a formula, with what it plans in comments: take the # off a line and write what you measured. It goes under '
      + 'the formula, and changes none of its numbers.',
  ],
  examples: ['proofsheet record rye.bake >> rye.bake', 'proofsheet record book.bake --formula "Country loaf" --date 2027-03-13'],
  options: {
    formula: { value: 'NAME', what: 'the formula or dish of that name, where there are several' },
    date: { value: 'DATE', what: 'the day of the bake, such as 2027-03-13; today if left out' },
  },
  async run(options, { terminal, stdin, nowMs, systemZone }) {
    const date = options.get('date');
    if (date !== undefined && !isDate(date)) throw new Refusal(`--date takes a day such as 2027-03-13, not "${date}".`);
    const { entries, status } = await chosenFormulas({ options, terminal, stdin, done: 'recorded', plans: false });
    const [entry, ...others] = entries;
    if (entry === undefined) return status;
    if (others.length > 0) {
      throw new Refusal(`There are ${String(entries.length)} formulas, and a record is of one. Name it: --formula "${titleOf(others[0]?.formula ?? entry.formula)}".`);
    }
    const day = date ?? formatInstant(nowMs, entry.settings.zone ?? systemZone).date;
    terminal.out(`\n${recordStart(entry.formula, day).join('\n')}\n`);
    return status;
  },
};

function isDate(text: string): boolean {
  const epochMs = /^\d{4}-\d{2}-\d{2}$/.test(text) ? Date.parse(`${text}T00:00Z`) : Number.NaN;
  // Of 31 April a date makes the first of May.
  return !Number.isNaN(epochMs) && new Date(epochMs).toISOString().startsWith(text);
}
