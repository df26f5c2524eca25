import { expect, it } from 'vitest';
import { Crashes, LEFT_ALONE, MOST_RESTARTS, WITHIN_MS } from '../../client/crashes';

it('a server that ends is started again, until it has ended five times in three minutes', () => {
  const crashes = new Crashes();
  expect([0, 1, 2, 3, 4, 5].map((second) => crashes.mayRestart(second * 1000))).toEqual([true, true, true, true, false, false]);
  expect(LEFT_ALONE).toContain('5 times in 3 minutes');
});

it('one that ends now and then is always started again', () => {
  const crashes = new Crashes();
  for (let time = 0; time < 40 * WITHIN_MS; time += WITHIN_MS / MOST_RESTARTS) expect(crashes.mayRestart(time)).toBe(true);
});

it('a start by hand counts from the beginning', () => {
  const crashes = new Crashes();
  while (crashes.mayRestart(0));
  crashes.forget();
  expect(crashes.mayRestart(1)).toBe(true);
});
