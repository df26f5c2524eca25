/** All the work of a bake day, before any of it has a time. */
import { batchesOf, type Batch } from './batches';
import { buildsOf, type Build } from './builds';
import type { BakeDay } from './model';

export interface DayWork {
  readonly batches: readonly Batch[];
  /** What may be built together, where the times let it: `ScheduledDay.builds` says what is. */
  readonly builds: readonly Build[];
  /** What was assumed and what goes apart; sentences. */
  readonly notes: readonly string[];
  /** The first order that was left out, for there would be more loads than a plan can have. */
  readonly tooMany: number | undefined;
}

/** Orders as doughs and loads, and the preferments that several doughs share. */
export function workOf(day: BakeDay): DayWork {
  const { batches, notes, tooMany } = batchesOf(day);
  const built = buildsOf(batches);
  return { batches, builds: built.builds, notes: [...notes, ...built.notes], tooMany };
}
