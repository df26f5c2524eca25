/** A server that says nothing is taken for dead, and only then. */
import { describe, expect, it } from 'vitest';
import { MOST_UNHEARD, Pulse } from '../../client/pulse';

function pulse() {
  const log: string[] = [];
  const made = new Pulse(() => log.push('asked'), () => log.push('dead'));
  const ticks = (count: number): void => {
    for (let i = 0; i < count; i++) made.tick();
  };
  return { log, made, ticks };
}

describe('a server', () => {
  it('that never answers is dead after so many questions, once', () => {
    const { log, ticks } = pulse();
    ticks(MOST_UNHEARD);
    expect(log).toEqual(Array(MOST_UNHEARD).fill('asked'));
    ticks(5);
    expect(log).toEqual([...Array<string>(MOST_UNHEARD).fill('asked'), 'dead']);
  });

  it('that says something now and then lives', () => {
    const { log, made, ticks } = pulse();
    for (let i = 0; i < 20; i++) {
      ticks(MOST_UNHEARD);
      made.heard();
    }
    expect(log).not.toContain('dead');
  });

  it('that is known to be dead is not asked again', () => {
    const { log, made, ticks } = pulse();
    made.fail();
    made.fail();
    ticks(5);
    expect(log).toEqual(['dead']);
  });
});
