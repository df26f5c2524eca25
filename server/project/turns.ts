/** Giving way: long work goes on in short turns, so that what comes in meanwhile is heard. */

/** How long work may go on before others get their turn, ms. */
export const TURN_MS = 5;

/**
 * Lets whatever came in be heard, and comes back at once. A timer would wait for a thousandth of a second and more, which is
 * most of what a keystroke costs.
 */
export function turn(): Promise<void> {
  return new Promise(later);
}

/** Counts how long the turn of one piece of work has gone on. */
export class Turns {
  #began = performance.now();

  isOver(): boolean {
    return performance.now() - this.#began >= TURN_MS;
  }

  begin(): void {
    this.#began = performance.now();
  }

  /** Lets others have their turn, and begins another. */
  async next(): Promise<void> {
    await turn();
    this.begin();
  }
}

const later: (go: () => void) => void = go => {
  if (typeof setImmediate === 'function') setImmediate(go);
  else (throughChannel ??= channel())(go);
};

let throughChannel: typeof later | undefined;

/** For browsers, which have no `setImmediate`: a message to itself waits its turn behind those that came before. */
function channel(): typeof later {
  const waiting: (() => void)[] = [];
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = () => waiting.shift()?.();
  return go => {
    waiting.push(go);
    port2.postMessage(undefined);
  };
}
