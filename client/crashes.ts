/** What happens when the server ends by itself: it is started again, up to a limit, and then the editor says so. No editor in here. */

/** Starts again within `WITHIN_MS`, before it is left alone. */
export const MOST_RESTARTS = 4;
export const WITHIN_MS = 3 * 60_000;

export class Crashes {
  #times: readonly number[] = [];

  /** The server has ended at that time, ms, without being told to. Whether it is to be started again. */
  mayRestart(now: number): boolean {
    this.#times = [...this.#times.filter((time) => now - time < WITHIN_MS), now];
    return this.#times.length <= MOST_RESTARTS;
  }

  /** Somebody has started it anew: what was before does not count. */
  forget(): void {
    this.#times = [];
  }
}

/** Said in the log when it is started again. */
export const STARTED_AGAIN = 'The server ended by itself and is started again.';

/** Said to the baker when it is not. */
export const LEFT_ALONE =
  `The Proofsheet server ended by itself ${String(MOST_RESTARTS + 1)} times in ${String(WITHIN_MS / 60_000)} minutes and is not started again. `
  + 'Formulas keep their colours; findings, totals and the preview stand still. To try again, restart it; the log says what went wrong.';
