/** What our own client asks for besides the protocol: sizes, previews, times and totals. Each is read when it is asked for first. */
import type { CancellationToken } from 'vscode-languageserver';
import type { ProjectFile } from '../project/file';
import type { Position } from '../project/lines';
import { CONVERT_REQUEST, EXPORT_REQUEST, PLAN_DRAFT_REQUEST, PREVIEW_REQUEST, RECORD_REQUEST, SCALE_REQUEST, SCHEDULE_PLAN_REQUEST, SCHEDULE_REQUEST, TOTALS_REQUEST } from '../requests';
import type {
  ConvertAnswer, ConvertParams, ExportAnswer, ExportParams, PlanDraftAnswer, PlanDraftParams, PreviewAnswer, PreviewParams, RecordAnswer, RecordParams, ScaleAnswer, ScaleParams, ScheduleAnswer, ScheduleParams, SchedulePlanAnswer, SchedulePlanParams, TotalsAnswer, TotalsParams,
} from '../requests';
import type { Answer, Asked } from './while-typing';
import type { Connection } from './wire/connection';

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
    answer('scale', null, async (file, asked: ScaleParams & Asked): Promise<ScaleAnswer | null> => (
      (await import('../features/scale')).scaleAt(file, offsetIn(file, asked.position), asked)
    ))({ ...params, textDocument: { uri: params.uri } }, token)
  ));
  connection.onRequest(PREVIEW_REQUEST, (params: PreviewParams, token: CancellationToken) => (
    // Asked about the file, not about a position: between the fences of a page, the formula above is shown.
    answer('preview', null, async (file): Promise<PreviewAnswer | null> => {
      const [{ firstDayAt, previewAt }, { requestIn }] = await Promise.all([import('../features/preview'), import('../features/shared/schedule')]);
      const offset = offsetIn(file, params.position);
      if (!await firstDayAt(file, offset, () => !token.isCancellationRequested)) return null;
      return previewAt(file, offset, requestIn(file, params.zone, params.anchor), Date.now(), params) ?? null;
    })({ textDocument: { uri: params.uri } }, token)
  ));
  connection.onRequest(TOTALS_REQUEST, (params: TotalsParams, token: CancellationToken) => (
    answer('totals of a formula', null, async (file, { position }: TotalsParams & Asked): Promise<TotalsAnswer | null> => (
      (await import('../features/totals-at')).totalsAt(file, offsetIn(file, position)) ?? null
    ))({ ...params, textDocument: { uri: params.uri } }, token)
  ));
  connection.onRequest(SCHEDULE_REQUEST, (params: ScheduleParams, token: CancellationToken) => (
    answer('schedule', null, async (file, asked: ScheduleParams & Asked): Promise<ScheduleAnswer | null> => (
      (await import('../features/schedule')).scheduleOfAsked(file, asked) ?? null
    ))({ ...params, textDocument: { uri: params.uri } }, token)
  ));
  connection.onRequest(PLAN_DRAFT_REQUEST, (params: PlanDraftParams, token: CancellationToken) => (
    answer('draft of a plan', null, async (file, asked: PlanDraftParams & Asked): Promise<PlanDraftAnswer | null> => (
      (await import('../features/plan-draft')).planDraft(file, asked) ?? null
    ))({ ...params, textDocument: { uri: params.uri } }, token)
  ));
  connection.onRequest(EXPORT_REQUEST, (params: ExportParams, token: CancellationToken) => (
    answer('export', null, async (file): Promise<ExportAnswer | null> => (
      (await import('../features/export')).exportAt(file, offsetIn(file, params.position), params, Date.now())
    ))({ textDocument: { uri: params.uri } }, token)
  ));
  connection.onRequest(CONVERT_REQUEST, async ({ text }: ConvertParams): Promise<ConvertAnswer> => (await import('../features/convert')).convertedText(text));
  connection.onRequest(RECORD_REQUEST, (params: RecordParams, token: CancellationToken) => (
    answer('record', null, async (file, asked: RecordParams & Asked): Promise<RecordAnswer | null> => (
      (await import('../features/record')).recordAt(file, offsetIn(file, asked.position), asked)
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
  const { schedulePlanAt } = await import('../features/schedule-plan');
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
