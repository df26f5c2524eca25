/** The times that the baker chose for formulas: kept with the workspace, told to the server, written into no file. */
import * as vscode from 'vscode';
import { CHOSEN_TIMES_NOTIFICATION, type ChosenTime, type ChosenTimesParams } from '../server/requests';
import { instantOf, zoneOf, type LocalTime } from './clock';

const KEY = 'proofsheet.chosenTimes';
/** A formula that nobody has asked about for so many others is done with. */
const MOST_KEPT = 200;

/** What the time is for, and the time on the clock of the formula's zone. */
export interface Choice {
  readonly kind: 'ready' | 'start';
  readonly local: LocalTime;
}

interface Kept extends Choice {
  readonly uri: string;
  /** Empty for a formula without a name. */
  readonly formula: string;
}

type Tell = (method: string, params: ChosenTimesParams) => void;

export class ChosenTimes implements vscode.Disposable {
  readonly #memento: vscode.Memento;
  readonly #tell: Tell;
  readonly #changed = new vscode.EventEmitter<void>();
  readonly #subscriptions: readonly vscode.Disposable[];
  #kept: readonly Kept[];

  /** Told after the server was told. */
  readonly onDidChange = this.#changed.event;

  constructor(memento: vscode.Memento, tell: Tell) {
    this.#memento = memento;
    this.#tell = tell;
    const kept: unknown = memento.get(KEY);
    this.#kept = Array.isArray(kept) ? kept.filter(isKept) : [];
    this.#subscriptions = [
      this.#changed,
      vscode.workspace.onDidChangeConfiguration((change) => {
        if (change.affectsConfiguration('proofsheet.zone')) this.send();
      }),
      vscode.workspace.onDidRenameFiles(({ files }) => {
        const moved = new Map(files.map(({ oldUri, newUri }) => [oldUri.toString(), newUri.toString()]));
        if (this.#kept.some(({ uri }) => moved.has(uri))) this.#keep(this.#kept.map((one) => ({ ...one, uri: moved.get(one.uri) ?? one.uri })));
      }),
    ];
  }

  get(uri: string, formula: string): Choice | undefined {
    return this.#kept.find((one) => one.uri === uri && one.formula === formula);
  }

  /** Takes over a time, or forgets the one there was. */
  set(uri: string, formula: string, choice: Choice | undefined): void {
    const others = this.#kept.filter((one) => one.uri !== uri || one.formula !== formula);
    this.#keep(choice === undefined ? others : [...others.slice(1 - MOST_KEPT), { uri, formula, kind: choice.kind, local: choice.local }]);
  }

  /**
   * A formula gets another name: its time is that name's too. The old name keeps it, since a rename may be undone, or be thought
   * better of before it is made.
   */
  rename(uri: string, from: string, to: string): void {
    const choice = this.get(uri, from);
    if (choice !== undefined) this.set(uri, to, choice);
  }

  /** Tells the server all there are; one that has just begun knows none. */
  send(): void {
    this.#tell(CHOSEN_TIMES_NOTIFICATION, { times: this.#kept.flatMap(timeOf) });
  }

  dispose(): void {
    for (const subscription of this.#subscriptions) subscription.dispose();
  }

  #keep(kept: readonly Kept[]): void {
    this.#kept = kept;
    void this.#memento.update(KEY, kept);
    this.send();
    this.#changed.fire();
  }
}

/** The zone of the clock at a file, as far as the editor's settings say. */
export function zoneAt(uri: vscode.Uri): string {
  return zoneOf(vscode.workspace.getConfiguration('proofsheet', uri).get('zone', ''));
}

function timeOf({ uri, formula, kind, local }: Kept): readonly ChosenTime[] {
  const zone = zoneAt(vscode.Uri.parse(uri));
  const epochMs = instantOf(local, zone);
  return epochMs === undefined ? [] : [{ uri, formula, zone, anchor: { kind, epochMs, local } }];
}

/** What comes back from storage is checked like anything from outside. */
function isKept(value: unknown): value is Kept {
  if (typeof value !== 'object' || value === null) return false;
  const { uri, formula, kind, local } = value as Readonly<Record<keyof Kept, unknown>>;
  return typeof uri === 'string' && typeof formula === 'string' && typeof local === 'string' && (kind === 'ready' || kind === 'start');
}
