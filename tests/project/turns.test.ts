/** Who comes first, and that the others come all the same. */
import { describe, expect, it } from 'vitest';
import { giveWay } from '../../server/lsp/giving-way';
import { Turns } from '../../server/project/turns';

describe('work that nobody waits for', () => {
  it('goes on though somebody is busy all the time', async () => {
    let asked = 0;
    for (let turn = 0; turn < 3; turn++) await giveWay(new Turns(), () => ++asked > 0);
    expect(asked).toBeGreaterThan(3);
  });

  it('waits for one who is busy for a moment', async () => {
    let asked = 0;
    await giveWay(new Turns(), () => ++asked < 4);
    expect(asked).toBe(4);
  });
});
