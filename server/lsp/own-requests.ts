/** What our own client asks for besides the protocol: sizes, previews, times and totals. */
import type { CancellationToken, Connection } from 'vscode-languageserver';
import { firstDayAt, previewAt } from '../features/preview';
import { scaleAt } from '../features/scale';
import { scheduleOfAsked } from '../features/schedule';
import { schedulePlanAt } from '../features/schedule-plan';
import { requestIn } from '../features/shared/schedule';
import { totalsAt } from '../features/totals-at';
import type { ProjectFile } from '../project/file';
import type { Position } from '../project/lines';
import { PREVIEW_REQUEST, SCALE_REQUEST, SCHEDULE_PLAN_REQUEST, SCHEDULE_REQUEST, TOTALS_REQUEST } from '../requests';
import type {
  PreviewAnswer, PreviewParams, ScaleAnswer, ScaleParams, ScheduleAnswer, ScheduleParams, SchedulePlanAnswer, SchedulePlanParams, TotalsAnswer, TotalsParams,
} from '../requests';
import type { Answer, Asked } from './while-typing';

export interface Own {
  readonly connection: Connection;
  readonly answer: Answer;
  /** The editor shows a progress that the server begins. */
  readonly showsProgress: boolean;
  /** Nothing that the file rests on has changed since it was read. */
  readonly isCurrent: (file: ProjectFile) => boolean;
}

export function serveOwn(own: Own): void {
  const { connection, answer } = own;
  connection.onRequest(SCALE_REQUEST, (params: ScaleParams, token: CancellationToken) => (
    answer('scale', null, (file, asked: ScaleParams & Asked): ScaleAnswer | null => (
      scaleAt(file, offsetIn(file, asked.position), asked)
    ))({ ...params, textDocument: { uri: params.uri } }, token)
  ));
  connection.onRequest(PREVIEW_REQUEST, (params: PreviewParams, token: CancellationToken) => (
    // Asked about the file, not about a position: between the fences of a page, the formula above is shown.
    answer('preview', null, async (file): Promise<PreviewAnswer | null> => {
      const offset = offsetIn(file, params.position);
      if (!await firstDayAt(file, offset, () => !token.isCancellationRequested)) return null;
      return previewAt(file, offset, requestIn(file, params.zone, params.anchor), Date.now()) ?? null;
    })({ textDocument: { uri: params.uri } }, token)
  ));
  connection.onRequest(TOTALS_REQUEST, (params: TotalsParams, token: CancellationToken) => (
    answer('totals of a formula', null, (file, { position }: TotalsParams & Asked): TotalsAnswer | null => (
      totalsAt(file, offsetIn(file, position)) ?? null
    ))({ ...params, textDocument: { uri: params.uri } }, token)
  ));
  connection.onRequest(SCHEDULE_REQUEST, (params: ScheduleParams, token: CancellationToken) => (
    answer('schedule', null, (file, asked: ScheduleParams & Asked): ScheduleAnswer | null => (
      scheduleOfAsked(file, asked) ?? null
    ))({ ...params, textDocument: { uri: params.uri } }, token)
  ));
  connection.onRequest(SCHEDULE_PLAN_REQUEST, (params: SchedulePlanParams, token: CancellationToken) => (
    answer('schedule of a plan', null, (file, { position }: SchedulePlanParams & Asked) => schedulePlan(own, file, offsetIn(file, position), token))(
      { ...params, textDocument: { uri: params.uri } }, token,
    )
  ));
}

/** Looks for the best day of a plan, with a progress where the editor shows one. An edit, a cancelled request and a cancelled progress end it. */
async function schedulePlan({ connection, showsProgress, isCurrent }: Own, file: ProjectFile, offset: number, token: CancellationToken): Promise<SchedulePlanAnswer | null> {
  const progress = showsProgress ? await connection.window.createWorkDoneProgress() : undefined;
  progress?.begin('Looking for the best bake day', 0, undefined, true);
  try {
    return await schedulePlanAt(file, offset, async doneShare => {
      progress?.report(Math.round(100 * doneShare));
      await new Promise(resolve => setTimeout(resolve, 0)); // whatever came in is heard now
      return !token.isCancellationRequested && progress?.token.isCancellationRequested !== true && isCurrent(file);
    }) ?? null;
  } finally {
    progress?.done();
  }
}

function offsetIn(file: ProjectFile, position: Position): number {
  return file.lineIndex.offsetAt(position);
}
