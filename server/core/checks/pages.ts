/** Findings that no rule makes, and that have a page all the same, so that their link leads somewhere. */
import type { Check } from './check';

export interface Page extends Pick<Check, 'code' | 'severity' | 'title' | 'why' | 'source'> {
  /** Where the finding stands, as a sentence. */
  readonly where: string;
}

/** Made where files are read, which is before there is anything to check. */
export const fileTooLarge: Page = {
  code: 'file-too-large',
  severity: 'info',
  title: 'A file that is too large to be read',
  why:
    'More than ten million characters are no formula: something else was saved under the name, or a file was written by a ' +
    'program. It is left alone, so that the editor stays quick. Split it, and bring the pieces in with `use`.',
  source: 'a limit of this program',
  where: 'It stands at the first line of the file.',
};

/** Made of `proofsheet.json`, which is no formula. */
export const settings: Page = {
  code: 'settings',
  severity: 'warning',
  title: 'Something in the settings that does not count',
  why:
    'A limit or a severity that is misspelled is a limit that does not hold, and nobody would notice: the rest of ' +
    '`proofsheet.json` goes on counting. A name that nobody knows is a warning. A value that cannot be what it should be, and ' +
    'a file that is no JSON, are errors.',
  source: 'definition of the settings',
  where: 'It stands in `proofsheet.json`, at the name or the value.',
};

/** Made where a formula meets a time and the hours of its baker, which is after everything else is known of it. */
export const scheduleImpossible: Page = {
  code: 'schedule-impossible',
  severity: 'warning',
  title: 'A time by which the steps cannot be done',
  why:
    'The steps of a formula take what they take, and hands are needed when dough is mixed, goes into the fridge or comes out of the ' +
    'oven. Where a ready time, the hours when you sleep or are away and the written lengths cannot all hold, one of them has to ' +
    'give: the finding names the fewest that cannot hold together, and what would help, each tried.',
  source: 'arithmetic of the written lengths',
  where: 'It stands at the name of a formula with a ready time. It goes when the time, the hours or a length changes.',
};

export const pages: readonly Page[] = [fileTooLarge, settings, scheduleImpossible];
