/** Which formulas of the files a verb is about, and what to say of what is left out. */
import type { Readable } from 'node:stream';
import type { Environment } from '../core/analyse';
import type { Settings } from '../core/settings/settings';
import type { FormulaEntry } from '../output/entry';
import { titleOf } from '../output/entry';
import { counted } from '../output/numbers';
import { printable } from '../output/width';
import { eachDocument, entryOf } from './documents';
import { didYouMean } from './nearest';
import type { Options } from './options';
import { Refusal, type ExitStatus } from './refusal';
import type { Terminal } from './terminal';

export interface ChosenEntry extends FormulaEntry {
  /** Those of its workspace. */
  readonly settings: Settings;
  /** What it has around it. */
  readonly environment: Environment;
}

export interface Chosen {
  readonly entries: readonly ChosenEntry[];
  /** 2 when a file cannot be read or nothing is left to show, 1 when a formula shown has errors, else 0. */
  readonly status: ExitStatus;
}

export interface Wanted {
  readonly options: Options;
  readonly terminal: Terminal;
  readonly stdin: Readable;
  /** `computed`, `scheduled`: what is done with them. */
  readonly done: string;
  /** Whether a `plan` is something that the verb would be expected to show, and has to say that it does not. */
  readonly plans: boolean;
  /** All formulas, whatever `--formula` names: those that it belongs with are wanted too. */
  readonly every?: boolean;
}

/** The formulas and dishes of the files, or those that `--formula` names. What is left out is said on the terminal. */
export async function chosenFormulas({ options, terminal, stdin, done, plans, every }: Wanted): Promise<Chosen> {
  const wanted = every === true ? undefined : options.get('formula');
  const key = wanted === undefined ? undefined : sameName(wanted);
  const entries: ChosenEntry[] = [];
  const names: string[] = [];
  const complaints: string[] = [];
  let left = 0;
  let errors = 0;
  const { unreadable } = await eachDocument(options, terminal, stdin, ({ shown, file }) => {
    for (const section of file.sections) {
      const { kind, name } = section.section;
      if (kind === 'plan' && plans) {
        if (key !== undefined) continue;
        left += 1;
        complaints.push(`${shown}: the plan "${name}" is left out, for it has a time of its own. To have it ${done}, give no time, or name it: --plan "${name}".`);
      }
      if (kind !== 'formula' && kind !== 'dish') continue;
      names.push(name);
      if (key !== undefined && sameName(name) !== key) continue;
      const entry = entryOf(file, section);
      if (entry === undefined) continue;
      entries.push({ ...entry, settings: file.settings, environment: section.environment });
      const wrong = section.analysis.findings.filter(({ severity }) => severity === 'error').length;
      errors += wrong;
      if (wrong > 0) {
        complaints.push(`${shown}: ${counted(wrong, 'error')} in "${titleOf(entry.formula)}", so what is printed may have gaps. See: proofsheet check ${shown === '<stdin>' ? '-' : shown}`);
      }
    }
  });
  for (const complaint of complaints) terminal.say(printable(complaint));
  if (entries.length === 0 && left === 0 && unreadable === 0) throw new Refusal(nothingFound(wanted, names));
  return { entries, status: unreadable > 0 || entries.length === 0 ? 2 : errors > 0 ? 1 : 0 };
}

/** Names are the same whatever their case, as in the files. */
export function sameName(name: string): string {
  return name.trim().replace(/\s+/g, ' ').toLowerCase();
}

/** Why none was found by that name, or at all. */
export function nothingFound(wanted: string | undefined, names: readonly string[]): string {
  if (wanted === undefined) return 'There is no formula in these files.';
  const known = names.filter((name) => name !== '');
  const nearest = didYouMean(wanted, known);
  const list = nearest !== '' || known.length === 0 || known.length > 8 ? nearest : ` There ${known.length === 1 ? 'is' : 'are'} ${known.map((name) => `"${name}"`).join(', ')}.`;
  return printable(`There is no formula "${wanted}" in these files.${list}`);
}
