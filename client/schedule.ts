/** The command that asks when a formula is to be ready or begun, and shows what that means while it is typed. */
import * as vscode from 'vscode';
import { SCHEDULE_REQUEST, type ScheduleAnswer, type ScheduleParams } from '../server/requests';
import { zoneAt, type Choice, type ChosenTimes } from './chosen-times';
import { nextSaturday } from './clock';
import { formulaEditor } from './formula-editor';

export const SCHEDULE_COMMAND = 'proofsheet.scheduleFormula';

type Ask = <Answer>(method: string, params: unknown) => Promise<Answer | undefined>;
type Now = Extract<ScheduleAnswer, { readonly kind: 'now' }>;
type Kind = Choice['kind'];

/** What the command may be called with, from a lens or a key binding: a formula by its file and name, and a time, which is then not asked for. */
interface Wanted {
  readonly uri: string;
  readonly formula: string;
  readonly time?: { readonly kind: Kind; readonly text: string };
}

export function registerSchedule(ask: Ask, times: ChosenTimes): vscode.Disposable {
  return vscode.commands.registerCommand('proofsheet.scheduleFormula', (uri: unknown, formula: unknown, time: unknown) => (
    schedule(ask, times, typeof uri === 'string' && typeof formula === 'string' ? { uri, formula, ...(isTime(time) && { time }) } : undefined)
  ));
}

async function schedule(ask: Ask, times: ChosenTimes, wanted: Wanted | undefined): Promise<void> {
  const place = wanted === undefined ? await atCursor() : { uri: wanted.uri, formula: wanted.formula };
  if (place === undefined) {
    void vscode.window.showInformationMessage('Open a .bake file, or a Markdown page with a ```bake fence, first: the formula that the cursor is in is scheduled.');
    return;
  }
  const { uri } = place;
  const zone = zoneAt(vscode.Uri.parse(uri));
  const asked = (time?: ScheduleParams['wanted']): Promise<ScheduleAnswer | null | undefined> => (
    ask(SCHEDULE_REQUEST, { ...place, zone, ...(time && { wanted: time }) } satisfies ScheduleParams)
  );
  const now = await asked();
  if (now?.kind !== 'now') return tell(now);
  if (now.plan !== undefined) return showPlan(now.plan);
  const time = wanted?.time ?? await timeFrom(now, asked);
  if (time === undefined) return;
  if (time === 'none') {
    times.set(uri, now.formulaName, undefined);
    return;
  }
  const answer = await asked(time);
  if (answer?.kind !== 'time') return tell(answer);
  times.set(uri, now.formulaName, { kind: time.kind, local: answer.local });
}

/** Asks what the time is for, and then for the time; undefined when somebody thought better of it. */
async function timeFrom(now: Now, asked: (time: ScheduleParams['wanted']) => Promise<ScheduleAnswer | null | undefined>): Promise<ScheduleParams['wanted'] | 'none'> {
  const { zone, chosen } = now;
  const title = `Schedule ${now.title}`;
  const saturday = nextSaturday(Date.now(), zone).replace('T', ' ');
  const items: readonly (vscode.QuickPickItem & { readonly time: Kind | 'none' })[] = [
    { label: 'Ready by…', description: chosen?.kind === 'ready' ? `now ${chosen.text}` : '', detail: 'Out of the oven and cooled by then', time: 'ready' },
    { label: 'Begun at…', description: chosen?.kind === 'start' ? `now ${chosen.text}` : '', detail: 'The first step starts then', time: 'start' },
    ...(chosen === undefined ? [] : [{ label: 'No time', description: `forget ${chosen.text}`, time: 'none' } as const]),
  ];
  const kind = (await vscode.window.showQuickPick(items, { title, placeHolder: 'What is the time for?' }))?.time;
  if (kind === undefined || kind === 'none') return kind;
  const value = chosen?.kind === kind ? chosen.text : saturday;
  const text = await vscode.window.showInputBox({
    title, value, valueSelection: [value.length - 5, value.length], ignoreFocusOut: true,
    prompt: `${kind === 'ready' ? 'Ready by' : 'Begun at'}: a date and a time on the clock of ${zone}`,
    async validateInput(typed) {
      if (typed.trim() === '') return undefined;
      const answer = await asked({ kind, text: typed });
      if (answer?.kind === 'cannot') return answer.message;
      if (answer?.kind !== 'time') return undefined;
      return { message: answer.words, severity: answer.fits ? vscode.InputBoxValidationSeverity.Info : vscode.InputBoxValidationSeverity.Warning };
    },
  });
  return text === undefined || text.trim() === '' ? undefined : { kind, text };
}

/** A plan says when: that is changed where it stands. */
async function showPlan({ name, uri, line }: NonNullable<Now['plan']>): Promise<void> {
  const go = 'Go to the Plan';
  const picked = await vscode.window.showInformationMessage(`The plan "${name}" says when this is ready. Change its "ready" line, or the order's own time.`, go);
  if (picked !== go) return;
  const at = new vscode.Position(line, 0);
  await vscode.window.showTextDocument(vscode.Uri.parse(uri), { selection: new vscode.Range(at, at) });
}

/** What is asked about: the formula at a position, or one by its name. */
type Place = Pick<ScheduleParams, 'uri' | 'position' | 'formula'>;

async function atCursor(): Promise<Place | undefined> {
  const editor = await formulaEditor();
  if (editor === undefined) return undefined;
  const { line, character } = editor.selection.active;
  return { uri: editor.document.uri.toString(), position: { line, character } };
}

function tell(answer: ScheduleAnswer | null | undefined): void {
  if (answer === undefined) void vscode.window.showWarningMessage('Proofsheet did not answer. "Proofsheet: Show Log" says why.');
  else if (answer === null) void vscode.window.showInformationMessage('Put the cursor into the formula that is to be scheduled.');
  else if (answer.kind === 'cannot') void vscode.window.showWarningMessage(answer.message);
}

function isTime(value: unknown): value is NonNullable<Wanted['time']> {
  if (typeof value !== 'object' || value === null) return false;
  const { kind, text } = value as Readonly<Record<string, unknown>>;
  return (kind === 'ready' || kind === 'start') && typeof text === 'string';
}
