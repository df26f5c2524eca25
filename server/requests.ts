/** Requests between our server and our client that the protocol does not have: their names and shapes, and no code. */

/** Client to server: the preview of the formula or dish at a position. Answers `null` where there is none. */
export const PREVIEW_REQUEST = 'proofsheet/preview';

export interface PreviewParams {
  readonly uri: string;
  /** Of the cursor; line and UTF-16 character from 0. */
  readonly position: { readonly line: number; readonly character: number };
  /** IANA time zone of the clock times. One that a settings file names wins over it. */
  readonly zone: string;
  /** What the timeline is placed by where neither a plan nor the baker says a time. */
  readonly anchor: Anchor;
  /** Sizes at which formulas of this file are looked at, by their names; the file has its own. */
  readonly sizes?: readonly SizeOf[];
  /** A size that has just been asked for, in place of the one above. */
  readonly wanted?: SizeOf;
}

/** A size in a baker's words: by `piece`, `900 g`; with what the scale reads to, as in `ScaleParams`. */
export interface ViewSize {
  readonly by: string;
  readonly value: string;
  readonly step?: string | undefined;
  readonly smallStep?: string | undefined;
}

export interface SizeOf {
  /** Its name; empty for one without. */
  readonly formula: string;
  readonly size: ViewSize;
}

/** What a timeline is placed by. */
export interface Anchor {
  readonly kind: 'ready' | 'start';
  readonly epochMs: number;
  /** The same on the clock of the zone beside it, `2026-03-14T08:00`: what counts where a settings file names another zone. */
  readonly local?: string;
}

export interface PreviewAnswer {
  /** Plain text, for the panel's tab. */
  readonly title: string;
  /** The inside of the page; everything from the file is escaped in it. Lines in `data-line` count from 1. */
  readonly html: string;
  /** Empty for a formula without a name. */
  readonly formulaName: string;
  /** Of the formula's head; from 0. */
  readonly line: number;
  /** It is of a plan, and a better day may be found: `SCHEDULE_PLAN_REQUEST` looks for one. */
  readonly isProvisional: boolean;
  /** The size to go on with: the one asked for, or the one before where that cannot be. Undefined at the file's own size. */
  readonly size?: ViewSize | undefined;
  /** The size asked for cannot be; the page says why. */
  readonly isRefused?: boolean;
}

/** Client to server: the totals of the formula or dish at a position, in short. Answers `null` where there is none, or nothing of it is known. */
export const TOTALS_REQUEST = 'proofsheet/totals';

export interface TotalsParams {
  readonly uri: string;
  /** Of the cursor; line and UTF-16 character from 0. */
  readonly position: { readonly line: number; readonly character: number };
}

export interface TotalsAnswer {
  /** Plain text, for one line: `72 % · salt 2 % · 4 × 950 g`. */
  readonly short: string;
  /** Plain text, for a screen reader. */
  readonly spoken: string;
  /** Markdown; everything from the file is escaped in it. */
  readonly all: string;
}

/**
 * Client to server: looks for the best day of the plan at a position, with a progress that can be cancelled. Answers when there is no more
 * to be found or somebody has seen enough; the preview then has the day. `null` where there is no plan.
 */
export const SCHEDULE_PLAN_REQUEST = 'proofsheet/schedulePlan';

export interface SchedulePlanParams {
  readonly uri: string;
  /** Of the cursor; line and UTF-16 character from 0. */
  readonly position: { readonly line: number; readonly character: number };
}

export interface SchedulePlanAnswer {
  /** `scheduled`, or why there is no day to show. */
  readonly kind: 'scheduled' | 'empty' | 'conflict';
}

/** Client to server: the formula or dish at a position at another size. Answers `null` where there is none. */
export const SCALE_REQUEST = 'proofsheet/scale';

export interface ScaleParams {
  readonly uri: string;
  /** Of the cursor; line and UTF-16 character from 0. */
  readonly position: { readonly line: number; readonly character: number };
  /** The size in a baker's words: by `piece`, `900 g`. Without it the answer is the sizes that can be asked for. */
  readonly request?: { readonly by: string; readonly value: string };
  /** What scales read to, `1 g`, and the same for salt, leaven and spices. Without them nothing is rounded. */
  readonly step?: string | undefined;
  readonly smallStep?: string | undefined;
}

export interface ScaleSize {
  readonly by: string;
  /** `Weight of a piece` */
  readonly label: string;
  /** What it is in the text, or nothing. */
  readonly now: string;
  /** A value that would be understood. */
  readonly example: string;
}

export type ScaleAnswer =
  | { readonly kind: 'sizes'; readonly title: string; readonly sizes: readonly ScaleSize[] }
  | {
      readonly kind: 'edit';
      readonly title: string;
      /** In the text that the server has; none when it is that size already. Lines and UTF-16 characters from 0. */
      readonly edits: readonly {
        readonly range: { readonly start: ScaleParams['position']; readonly end: ScaleParams['position'] };
        readonly newText: string;
      }[];
      /** What rounding and whole eggs did; lines from 0. */
      readonly notes: readonly { readonly line: number; readonly message: string }[];
    }
  /** Why not, in a sentence. */
  | { readonly kind: 'cannot'; readonly message: string };

/** Client to server, a notification: the times that the baker chose in the editor, all there are. They stand in no file. */
export const CHOSEN_TIMES_NOTIFICATION = 'proofsheet/chosenTimes';

export interface ChosenTimesParams {
  readonly times: readonly ChosenTime[];
}

export interface ChosenTime {
  readonly uri: string;
  /** Name of the formula or dish; empty for one without a name. */
  readonly formula: string;
  /** IANA time zone of the clock that the time was chosen on. */
  readonly zone: string;
  readonly anchor: Anchor;
}

/** Client to server: when a formula or dish is begun and ready, the one at a position or of a name. Answers `null` where there is none. */
export const SCHEDULE_REQUEST = 'proofsheet/schedule';

export interface ScheduleParams {
  readonly uri: string;
  /** Of the cursor; line and UTF-16 character from 0. */
  readonly position?: { readonly line: number; readonly character: number };
  /** IANA time zone of the clock times. One that a settings file names wins over it. */
  readonly zone: string;
  /** Its name; empty for one without. It counts where there is no position. */
  readonly formula?: string;
  /** A time that is being typed, `2026-03-14 08:00`, on the clock of the zone. Without it the answer is what holds now. */
  readonly wanted?: { readonly kind: Anchor['kind']; readonly text: string };
}

export type ScheduleAnswer =
  | {
      readonly kind: 'now';
      /** Plain text. */
      readonly title: string;
      /** Empty for a formula without a name. */
      readonly formulaName: string;
      readonly zone: string;
      /** What the baker chose. */
      readonly chosen: { readonly kind: Anchor['kind']; readonly text: string } | undefined;
      /** A plan that bakes it, and so says when: its name and the line (from 0) that says the time. */
      readonly plan: { readonly name: string; readonly uri: string; readonly line: number } | undefined;
    }
  | {
      readonly kind: 'time';
      readonly epochMs: number;
      /** On the clock of the answer's zone, `2026-03-14T08:00`. */
      readonly local: string;
      readonly zone: string;
      /** `Begin Fri 17:20, ready Sat 08:00`, or why it cannot be; with what the clock has to say. */
      readonly words: string;
      readonly fits: boolean;
    }
  /** Why not, in a sentence. */
  | { readonly kind: 'cannot'; readonly message: string };

/** Client to server: a plan for the time at which a formula or dish of a name is looked at, to be written below everything in its file. Answers `null` where there is none. */
export const PLAN_DRAFT_REQUEST = 'proofsheet/planDraft';

export interface PlanDraftParams {
  readonly uri: string;
  /** Its name. */
  readonly formula: string;
  /** The size at which it is looked at; left out at the file's own. */
  readonly size?: ViewSize | undefined;
  /** IANA time zone of the clock times. One that a settings file names wins over it. */
  readonly zone: string;
  readonly anchor: Anchor;
}

export interface PlanDraftAnswer {
  /** In the text that the server has. Lines and UTF-16 characters from 0. */
  readonly edits: readonly {
    readonly range: { readonly start: ScaleParams['position']; readonly end: ScaleParams['position'] };
    readonly newText: string;
  }[];
}

/** Client to server: formulas of a file in another form, as text to save. Answers `null` where the file has no formula. */
export const EXPORT_REQUEST = 'proofsheet/export';

export interface ExportParams {
  readonly uri: string;
  /** Of the cursor; line and UTF-16 character from 0. */
  readonly position: { readonly line: number; readonly character: number };
  /** `html`, `markdown`, `csv`, `ics`, `jsonld` or `json`. Without it the answer is what can be exported. */
  readonly form?: string;
  /** Every formula and dish of the file, not only the one at the position. */
  readonly all?: boolean;
}

export type ExportAnswer =
  | {
      readonly kind: 'choices';
      /** Of the formula at the position. Plain text. */
      readonly title: string;
      /** How many formulas and dishes the file has. */
      readonly count: number;
      /** `Begin Fri 17:20, ready Sat 08:00`, where a plan or the baker says a time. */
      readonly time: string | undefined;
    }
  | {
      readonly kind: 'text';
      readonly title: string;
      readonly text: string;
      /** `country-loaf.html`: a name that every file system takes. */
      readonly fileName: string;
    }
  /** Why not, in a sentence. */
  | { readonly kind: 'cannot'; readonly message: string };

/** Client to server: a recipe in plain text, HTML or JSON-LD as a draft in the language. About no file. */
export const CONVERT_REQUEST = 'proofsheet/convert';

export interface ConvertParams {
  readonly text: string;
}

export type ConvertAnswer =
  | {
      readonly kind: 'draft';
      /** Whole blocks, with a line end behind each line. */
      readonly text: string;
      /** How much was understood, in sentences. */
      readonly summary: string;
      /** Something is left to decide or to look at. */
      readonly hasDoubts: boolean;
    }
  /** Why not, in a sentence or two. */
  | { readonly kind: 'cannot'; readonly message: string };

/** Client to server: begins a record of a bake under the formula or dish at a position. Answers `null` where there is none. */
export const RECORD_REQUEST = 'proofsheet/record';

export interface RecordParams {
  readonly uri: string;
  /** Of the cursor; line and UTF-16 character from 0. */
  readonly position: { readonly line: number; readonly character: number };
  /** Now, by the editor's clock. */
  readonly epochMs: number;
  /** IANA time zone that the date is of. One that a settings file names wins over it. */
  readonly zone: string;
}

export type RecordAnswer =
  | {
      readonly kind: 'begun';
      /** Plain text. */
      readonly title: string;
      readonly date: string;
      /** In the text that the server has. Lines and UTF-16 characters from 0. */
      readonly edit: { readonly range: { readonly start: RecordParams['position']; readonly end: RecordParams['position'] }; readonly newText: string };
      /** Of the record's head, once the edit is made; from 0. */
      readonly line: number;
    }
  /** The formula has a record of that day. */
  | { readonly kind: 'there'; readonly title: string; readonly date: string; readonly line: number };

/** Client to server, a notification: what the last commit has of an open file. The server asks git nothing. */
export const COMMITTED_NOTIFICATION = 'proofsheet/committed';

export interface CommittedParams {
  readonly uri: string;
  /** Null where it is not committed, or no longer open. */
  readonly text: string | null;
}

/** Client to server: what an open file and its committed version differ in. */
export const COMPARE_REQUEST = 'proofsheet/compare';

export interface CompareParams {
  readonly uri: string;
  readonly committed: string;
}

export interface CompareAnswer {
  readonly isSame: boolean;
  /** Everything from the files is escaped in it. */
  readonly markdown: string;
}

/** Server to client, from a server that has no disk: the text of a file in a workspace folder. Answers `null` if it is not there. */
export const READ_FILE_REQUEST = 'proofsheet/readFile';

export interface ReadFileParams {
  readonly uri: string;
}

export type ReadFileAnswer = string | null;

/** Server to client, from a server that has no disk: URIs of the `.bake` files in the workspace folders, at most so many. */
export const FIND_FILES_REQUEST = 'proofsheet/findFiles';

export interface FindFilesParams {
  readonly most: number;
  /** Markdown pages, and not `.bake` files. */
  readonly pages?: boolean;
}

export type FindFilesAnswer = readonly string[];

/** Client to server: whether it is there. Answers `null`. A worker that has ended says nothing of it. */
export const ALIVE_REQUEST = 'proofsheet/alive';
