/** Work that nobody waits for comes after what somebody does. */
import { turn } from '../project/turns';
import type { Turns } from '../project/turns';

/** How long such work stands back at most, ms. Whoever types without a pause is never done, and the rest must get on in between, a turn at a time. */
const MOST_WAITED_MS = 25;

/** Ends the turn, and waits until nobody else is busy, or long enough. */
export async function giveWay(turns: Turns, isBusy: () => boolean): Promise<void> {
  const since = performance.now();
  await turn(); // a message that has come in is read
  await turn(); // and what it asks for is begun
  while (isBusy() && performance.now() - since < MOST_WAITED_MS) await new Promise(resolve => setTimeout(resolve, 0));
  turns.begin();
}
