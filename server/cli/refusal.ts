/** Ends a run: what was asked for cannot be done, said in a sentence to the person who asked. Exit status 2. */
export class Refusal extends Error {}

/** 0 fine; 1 findings at or above the limit; 2 usage, or a file that cannot be read. */
export type ExitStatus = 0 | 1 | 2;

/** The graver of several. */
export function worst(...statuses: readonly ExitStatus[]): ExitStatus {
  return statuses.includes(2) ? 2 : statuses.includes(1) ? 1 : 0;
}
