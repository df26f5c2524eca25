/** Requests between our server and our client that the protocol does not have: their names and shapes, and no code. */

/** Client to server: the preview of the formula or dish at a position. Answers `null` where there is none. */
export const PREVIEW_REQUEST = 'proofsheet/preview';

export interface PreviewParams {
  readonly uri: string;
  /** Of the cursor; line and UTF-16 character from 0. */
  readonly position: { readonly line: number; readonly character: number };
  /** IANA time zone of the clock times. One that a settings file names wins over it. */
  readonly zone: string;
  /** What the timeline is placed by. */
  readonly anchor: {
    readonly kind: 'ready' | 'start';
    readonly epochMs: number;
    /** The same on the clock of `zone`, `2026-03-14T08:00`: what counts where a settings file names another zone. */
    readonly local?: string;
  };
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

/** Server to client, from a server that has no disk: the text of a file in a workspace folder. Answers `null` if it is not there. */
export const READ_FILE_REQUEST = 'proofsheet/readFile';

export interface ReadFileParams {
  readonly uri: string;
}

export type ReadFileAnswer = string | null;
