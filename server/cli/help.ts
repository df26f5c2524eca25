/** The pages of help, from what the verbs say about themselves. */
import { table, type Cells } from '../output/table';
import { wrap } from '../output/width';
import type { Verb } from './verb';

const WIDTH = 84;

/** `proofsheet --help` */
export function generalHelp(verbs: readonly Verb[]): string {
  return lines([
    'Bread formulas as plain text: checked, put on a sheet, scheduled, laid out.',
    '',
    'proofsheet VERB [FILES or FOLDERS] [options]',
    '',
    ...columns(verbs.map(({ name, summary }) => [name, summary])),
    '',
    'proofsheet VERB --help tells more about one of them. proofsheet --version tells which version this is.',
    'Exit status: 0 fine, 1 something was found, 2 the command or a file could not be read.',
  ]);
}

/** `proofsheet check --help` */
export function verbHelp({ name, takes, about, options, examples }: Verb): string {
  return lines([
    `proofsheet ${name} ${takes} [options]`,
    ...about.flatMap((paragraph) => ['', ...wrap(paragraph, WIDTH)]),
    '',
    ...columns([...Object.entries(options).map(([option, { value, what }]): Cells => [`--${option}${value === undefined ? '' : ` ${value}`}`, what]), ['--help', 'this page']]),
    '',
    ...examples.map((example) => `  ${example}`),
  ]);
}

function columns(rows: readonly Cells[]): readonly string[] {
  return table([{ align: 'left', gap: 2 }, { align: 'left', gap: 3 }], rows);
}

function lines(all: readonly string[]): string {
  return all.map((line) => `${line}\n`).join('');
}
