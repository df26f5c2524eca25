import { expect, test } from 'vitest';
import type { ScheduledBatch } from '../../server/core/plan/schedule-model';
import { counted, gapText, takers } from '../../server/output/day-words';

test('how far from the best a day is, by what it was hung on', () => {
  expect(gapText({ proven: true, gapMinutes: 0 }, 'ready')).toBe('No better schedule exists: none begins later.');
  expect(gapText({ proven: true, gapMinutes: 0 }, 'start')).toBe('No better schedule exists: none is ready earlier.');
  expect(gapText({ proven: false, gapMinutes: 80 }, 'ready')).toBe(
    'Begins 1 h 20 min earlier than the latest start that could not be ruled out: there may be a schedule that begins later, by no more than that.',
  );
  expect(gapText({ proven: false, gapMinutes: 20 }, 'start')).toMatch(/^Is ready 20 min later than the earliest end/);
});

test('one piece of what there are many of', () => {
  expect([counted(1, 'loaves'), counted(6, 'loaves'), counted(1, 'knots'), counted(null, 'loaves')]).toEqual(['1 loaf', '6 loaves', '1 knot', 'loaves']);
});

test('a levain for all doughs of a formula names it once, and else the doughs', () => {
  const batch = (formula: string, label: string): ScheduledBatch => ({
    formula, label, order: 0, pieces: 6, noun: 'loaves', doughGrams: 5000, factor: 1, startMs: 0, readyMs: 0, takenMs: [], steps: [],
  });
  const batches = [batch('Rye', 'Rye, dough 1 of 2'), batch('Rye', 'Rye, dough 2 of 2'), batch('Plain', 'Plain')];
  expect(takers({ batches }, [{ batch: 0 }, { batch: 1 }])).toBe('Rye');
  expect(takers({ batches }, [{ batch: 1 }, { batch: 2 }])).toBe('Rye, dough 2 of 2, Plain');
});
