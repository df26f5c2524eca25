/** Whether a server that cannot say that it has ended is still there: it is asked now and then. No editor in here. */

/** How often it is asked, ms. */
export const ASK_EVERY_MS = 4000;
/** So many questions one after the other without a word from it, and it is taken for dead: some 12 seconds. Long work gives way far sooner. */
export const MOST_UNHEARD = 3;

export class Pulse {
  readonly #ask: () => void;
  readonly #dead: () => void;
  #unheard = 0;
  #isOver = false;

  constructor(ask: () => void, dead: () => void) {
    this.#ask = ask;
    this.#dead = dead;
  }

  /** It has said something, whatever it was. */
  heard(): void {
    this.#unheard = 0;
  }

  /** Time to ask again. It is called by a clock: one that stands still, as in a computer that sleeps, kills nobody. */
  tick(): void {
    if (this.#isOver) return;
    if (this.#unheard >= MOST_UNHEARD) {
      this.fail();
      return;
    }
    this.#unheard += 1;
    this.#ask();
  }

  /** It is known to be dead. */
  fail(): void {
    if (this.#isOver) return;
    this.#isOver = true;
    this.#dead();
  }
}
