/** What every test of the suite needs: to say what must hold, and to wait until it does. */

export function assert(condition: unknown, message: string): asserts condition {
  if (!condition) throw new Error(message);
}

/** Polls until `probe` gives something: the way to wait for anything asynchronous in the workbench. */
export async function eventually<T>(probe: () => T | undefined | Promise<T | undefined>, timeout = 15_000): Promise<T> {
  for (const end = Date.now() + timeout; ; await new Promise((resolve) => setTimeout(resolve, 50))) {
    const value = await unlessDropped(probe);
    if (value !== undefined) return value;
    assert(Date.now() < end, `timed out waiting for ${probe}`);
  }
}

/** The workbench drops what it was asked when something else happens just then: a hand would ask again. */
async function unlessDropped<T>(probe: () => T | undefined | Promise<T | undefined>): Promise<T | undefined> {
  try {
    return await probe();
  } catch (error) {
    if (error instanceof Error && error.message === 'Canceled') return undefined;
    throw error;
  }
}
