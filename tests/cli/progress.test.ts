/** A line that passes by while many files are looked at; and what happens when a thread fails. */
import type { WriteStream } from 'node:tty';
import { Worker } from 'node:worker_threads';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { examinedByThreads } from '../../server/cli/checking/threads';
import { Progress } from '../../server/cli/documents';
import { terminalOf } from '../../server/cli/terminal';

const stream = (isTTY: boolean, written: string[]): WriteStream => ({ isTTY, columns: 80, write: (text: string) => written.push(text) > 0 }) as unknown as WriteStream;

describe('progress', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  /** What stands on standard error after files that take 300 ms each. */
  const shown = (isTerminal: boolean): readonly string[] => {
    const written: string[] = [];
    const progress = new Progress(terminalOf(stream(false, []), stream(isTerminal, written), {}), 5000);
    for (let file = 0; file < 5; file++) {
      progress.at(file);
      vi.advanceTimersByTime(300);
    }
    progress.end();
    return written;
  };

  test('is shown once somebody may wonder, and leaves nothing behind', () => {
    const clear = '\r\u001b[K';
    expect(shown(true)).toEqual(['3 of 5000 files', clear, '4 of 5000 files', clear]);
  });

  test('is never in a pipe or a log', () => {
    expect(shown(false)).toEqual([]);
  });
});

describe('a thread that fails ends the run with its fault', () => {
  const sources = Array.from({ length: 100 }, (_, i) => ({ shown: `${String(i)}.bake`, file: `/nowhere/${String(i)}.bake` }));
  const task = { roots: [], named: [], changed: undefined };
  const all = async (code: string): Promise<number> => {
    let count = 0;
    for await (const _examined of examinedByThreads(sources, task, 2, () => new Worker(code, { eval: true }))) count += 1;
    return count;
  };

  test('at its start', async () => {
    await expect(all('throw new Error("a bug")')).rejects.toThrow('a bug');
  });

  test('while it looks at files', async () => {
    await expect(all('require("node:worker_threads").parentPort.on("message", () => { throw new Error("a bug"); })')).rejects.toThrow('a bug');
  });

  test('by going away', async () => {
    await expect(all('process.exit()')).rejects.toThrow('a thread ended by itself');
  });
});
