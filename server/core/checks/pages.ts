/** Findings that no rule makes, and that have a page all the same, so that their link leads somewhere. */
import type { Check } from './check';

export type Page = Pick<Check, 'code' | 'severity' | 'title' | 'why' | 'source'>;

/** Made where files are read, which is before there is anything to check. */
export const fileTooLarge: Page = {
  code: 'file-too-large',
  severity: 'info',
  title: 'A file that is too large to be read',
  why:
    'More than ten million characters are no formula: something else was saved under the name, or a file was written by a ' +
    'program. It is left alone, so that the editor stays quick. Split it, and bring the pieces in with `use`.',
  source: 'a limit of this program',
};

export const pages: readonly Page[] = [fileTooLarge];
