/** Requests between our server and our client that the protocol does not have: their names and shapes, and no code. */

/** Client to server: the preview of the formula or dish at a position. Answers `null` where there is none. */
export const PREVIEW_REQUEST = 'proofsheet/preview';

export interface PreviewParams {
  readonly uri: string;
  /** Of the cursor; line and UTF-16 character from 0. */
  readonly position: { readonly line: number; readonly character: number };
  /** IANA time zone of the clock times. */
  readonly zone: string;
  /** What the timeline is placed by. */
  readonly anchor: { readonly kind: 'ready' | 'start'; readonly epochMs: number };
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

/** Server to client, from a server that has no disk: the text of a file in a workspace folder. Answers `null` if it is not there. */
export const READ_FILE_REQUEST = 'proofsheet/readFile';

export interface ReadFileParams {
  readonly uri: string;
}

export type ReadFileAnswer = string | null;
