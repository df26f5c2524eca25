// Loaded before a server that is measured: on a signal it collects what nobody holds and writes down what is left, bytes.
import { writeFileSync } from 'node:fs';

process.on('SIGUSR2', () => {
  globalThis.gc();
  globalThis.gc();
  writeFileSync(process.env.BENCH_HEAP, String(process.memoryUsage().heapUsed));
});
