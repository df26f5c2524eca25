import { describe, expect, it } from 'vitest';
import { pastReady, timesOf } from '../../../server/core/plan/times';
import { dayIn, ROLLS, RYE } from './day';

const plan = (...lines: readonly string[]) => `plan "Saturday"\n${lines.map((line) => `  ${line}\n`).join('')}`;
const READY = 'ready 2026-03-14 08:00 Europe/Lisbon';

describe('a plan as a bake day', () => {
  it('says when, who is there, and what there is room for', () => {
    const day = dayIn(RYE + plan(
      READY, 'asleep 22:30 to 05:30 on Fri to Mon', 'away 12:00 to 14:00', 'room 23 C', 'oven holds 4 loaves or 20 rolls',
      'oven "deck" holds 2 decks of 6 loaves', 'fridge holds 12 loaves', 'mixer holds 3 kg', 'mixer "spiral" holds 5 kg of flour', 'hands 2', 'pots 4',
      'bake 4 loaves of "Rye"',
    ));
    expect(day.troubles).toEqual([]);
    expect(day).toMatchObject({
      name: 'Saturday', anchor: { kind: 'ready', date: '2026-03-14', time: '08:00', zone: 'Europe/Lisbon' },
      hoursOff: [
        { kind: 'asleep', fromMinute: 1350, toMinute: 330, days: [1, 5, 6, 7] },
        { kind: 'away', fromMinute: 720, toMinute: 840 },
      ],
      room: { celsius: 23 }, hands: 2, pots: 4,
      mixers: [{ name: 'mixer', grams: 3000, of: 'dough' }, { name: 'spiral', grams: 5000, of: 'flour' }],
      fridges: [{ name: 'fridge', holds: [{ kind: 'pieces', count: 12, noun: 'loaves' }] }],
    });
    expect(day.chambers.map(({ name }) => name)).toEqual(['oven', 'deck 1', 'deck 2']);
    expect(day.chambers[0]?.holds).toEqual([{ kind: 'pieces', count: 4, noun: 'loaves' }, { kind: 'pieces', count: 20, noun: 'rolls' }]);
  });

  it('brings each formula to the size ordered', () => {
    const { orders } = dayIn(RYE + ROLLS + plan(
      READY, 'oven holds 40', 'bake 6 loaves of "Rye"', 'bake 36 "rolls"', 'bake 3600 g of "Rye"', 'bake 2 batches of "Rolls"', 'bake 4 of "Pumpkin"',
    ));
    expect(orders.map(({ name, pieces, noun, factor }) => ({ name, pieces, noun, factor }))).toEqual([
      { name: 'Rye', pieces: 6, noun: 'loaves', factor: 3 },
      { name: 'rolls', pieces: 36, noun: 'rolls', factor: 1.8 },
      { name: 'Rye', pieces: 4, noun: 'loaves', factor: 2 },
      { name: 'Rolls', pieces: 40, noun: 'rolls', factor: 2 },
      { name: 'Pumpkin', pieces: null, noun: 'pieces', factor: null },
    ]);
    expect(orders[0]?.doughGrams).toBeCloseTo(5400, 6);
    expect(orders[4]?.formula).toBeUndefined();
  });

  it('counts a dish that is not divided as a whole, or by whom it serves', () => {
    const dish = 'dish "Pudding"\n  serves 4\n\ncustard\n  4 eggs\n  500 g milk\n\nsteps\n  bake 40 min at 170 C\n';
    const { orders, troubles } = dayIn(dish + plan(READY, 'oven holds 4', 'make 2 "Pudding"', 'make 8 portions of "Pudding"', 'make 2 kg of "Pudding"'));
    expect(orders.map(({ factor, pieces }) => [factor, pieces])).toEqual([[2, null], [2, null], [null, null]]);
    expect(orders[0]?.doughGrams).toBeGreaterThan(1000);
    expect(troubles).toMatchObject([{ kind: 'no-size', message: 'A dish has no dough to order by weight: write how many, for example `make 2`.' }]);
  });

  it('names what is wrong with it', () => {
    const kinds = (...lines: readonly string[]) => dayIn(RYE + ROLLS + plan(...lines)).troubles.map(({ kind }) => kind);
    expect(kinds('oven holds 4 loaves', 'bake 4 of "Rye"')).toEqual(['no-time']);
    expect(kinds(READY, 'ready 2026-03-15 08:00', 'oven holds 4 loaves', 'bake 4 of "Rye"')).toEqual(['second-time']);
    expect(kinds(READY, 'start 2026-03-13 08:00', 'oven holds 4 loaves', 'bake 4 of "Rye"')).toEqual(['second-time']);
    expect(kinds(READY, 'oven holds 4 loaves')).toEqual(['no-orders']);
    expect(kinds(READY, 'bake 4 of "Rye"')).toEqual(['no-oven']);
    expect(kinds(READY, 'oven holds 0 loaves', 'bake 4 of "Rye"')).toEqual(['odd-number']);
    expect(kinds(READY, 'oven holds 2.5 loaves', 'bake 4 of "Rye"')).toEqual(['odd-number']);
    expect(kinds(READY, 'oven holds 4 loaves', 'hands 0', 'pots 1.5', 'mixer holds 0 kg', 'bake 4 of "Rye"')).toEqual(['odd-number', 'odd-number', 'odd-number']);
    expect(kinds(READY, 'oven holds 4 loaves', 'mixer holds 20 l', 'bake 4 of "Rye"')).toEqual(['needs-a-weight']);
    expect(kinds(READY, 'oven holds 4 loaves', 'bake 2.5 of "Rye"', 'bake 2 kg of "Rye"')).toEqual(['pieces-not-whole', 'pieces-not-whole']);
    expect(kinds(READY, 'oven holds 500 g', 'bake 4 of "Rye"')).toEqual(['fits-no-oven']);
    expect(kinds(READY, 'oven holds 4 trays', 'bake 4 of "Rye"')).toEqual(['room-unknown']);
    expect(kinds(READY, 'oven holds 1 loaf', 'bake 300 of "Rye"')).toEqual(['too-many-loads']);
    expect(kinds(READY, 'oven holds 1 loaf', 'bake 0 of "Rye"')).toEqual(['odd-number']);
  });
});

describe('times of a plan', () => {
  const times = (...lines: readonly string[]) => timesOf(dayIn(RYE + plan(...lines, 'oven holds 4 loaves')), 'UTC');

  it('stand on the clock of the zone it names, else of the one given', () => {
    expect(times('ready 2026-07-14 08:00 Europe/Lisbon', 'bake 4 of "Rye"', 'bake 2 of "Rye", ready 07:00')).toMatchObject({
      kind: 'times',
      times: { zone: 'Europe/Lisbon', anchor: { kind: 'ready', epochMs: Date.parse('2026-07-14T07:00Z') }, readyMs: [Date.parse('2026-07-14T07:00Z'), Date.parse('2026-07-14T06:00Z')] },
    });
    expect(times('start 2026-07-14 08:00', 'bake 2 of "Rye"')).toMatchObject({ times: { zone: 'UTC', anchor: { kind: 'start' }, readyMs: [undefined] } });
  });

  it('of an order above the date are on that date, too', () => {
    const { orders } = dayIn(RYE + plan('bake 4 of "Rye", ready 07:00', READY));
    expect(orders[0]?.ready).toMatchObject({ date: '2026-03-14', time: '07:00' });
  });

  it('that do not exist are refused, and of an hour that comes twice it is said', () => {
    expect(times('ready 2026-03-29 01:30 Europe/Lisbon', 'bake 4 of "Rye"')).toMatchObject({ kind: 'bad', of: { kind: 'ready' } });
    expect(times('ready 2026-03-14 08:00 Europe/Lisboa', 'bake 4 of "Rye"')).toMatchObject({ kind: 'bad', message: expect.stringContaining('Did you mean Europe/Lisbon?') });
    expect(times('ready 2026-10-25 01:30 Europe/Lisbon', 'bake 4 of "Rye"')).toMatchObject({ kind: 'times', times: { notes: [expect.stringContaining('comes twice')] } });
  });

  it('that have gone by are known to whoever has a clock', () => {
    const day = dayIn(RYE + plan(READY));
    expect(pastReady(day, Date.parse('2026-03-14T07:59Z'), 'UTC')).toBeUndefined();
    expect(pastReady(day, Date.parse('2026-03-14T10:00Z'), 'UTC')?.message).toBe('2026-03-14 08:00 went by 2 h ago: change the date for the next bake day.');
  });
});
