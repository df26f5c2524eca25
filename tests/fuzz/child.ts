/** Asks about one text after another, and tells which one comes next before it begins, so that one that never ends is known too. */
import { roundsFrom, samplesIn } from './rounds';

const [root = '.', first = '1'] = process.argv.slice(2);

async function run(): Promise<void> {
  for (const { seed, text, ask } of roundsFrom(Number(first), samplesIn(root))) {
    process.send?.({ kind: 'begins', seed, text });
    try {
      await ask();
    } catch (fault) {
      process.send?.({ kind: 'fault', seed, text, why: fault instanceof Error ? fault.stack ?? fault.message : String(fault) });
    }
    await new Promise(resolve => setImmediate(resolve)); // what is sent goes out
  }
}

void run();
