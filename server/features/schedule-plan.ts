/** The best day for the plan at the cursor, looked for in turns that can be ended. */
import { bestDay } from '../project/days';
import { sectionAt } from '../project/file';
import type { ProjectFile } from '../project/file';
import type { SchedulePlanAnswer } from '../requests';
import { dayRequest } from './shared/schedule';

/** @param goOn asked between turns, with the share of the work that is done. Undefined where the offset lies in no plan. */
export async function schedulePlanAt(file: ProjectFile, offset: number, goOn: (doneShare: number) => Promise<boolean>): Promise<SchedulePlanAnswer | undefined> {
  const day = sectionAt(file, offset)?.analysis.day;
  if (day === undefined) return undefined;
  const { schedule } = await bestDay(day, dayRequest(file), goOn);
  return { kind: schedule.kind };
}
