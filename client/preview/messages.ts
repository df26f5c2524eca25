/** What the preview's page and the extension say to one another. */
import type { SizeOf, ViewSize } from '../../server/requests';
import type { Choice } from '../chosen-times';

/** What a panel needs to come back after a reload: kept by the page, handed to the extension. */
export interface PanelState {
  readonly uri: string;
  /** Of the cursor, from 0. */
  readonly line: number;
  /** Sizes other than the file's at which formulas are looked at. */
  readonly sizes: readonly KeptSize[];
}

export interface KeptSize extends SizeOf {
  readonly uri: string;
}

export type ToPage =
  /** `same` is false when another formula is shown than before: the page begins at its top. */
  | { readonly type: 'show'; readonly html: string; readonly same: boolean; readonly state: PanelState }
  /** There is nothing to show. */
  | { readonly type: 'nothing' };

/** What the buttons of the page ask for. */
export const ACTIONS = ['size-back', 'size-write', 'time-forget', 'time-plan'] as const;
export type Action = (typeof ACTIONS)[number];

export type FromPage =
  | { readonly type: 'loaded' }
  /** A click on something that stands for a line, from 1. */
  | { readonly type: 'line'; readonly line: number }
  /** A time was set for the formula on show. */
  | { readonly type: 'anchor'; readonly anchor: Choice }
  /** The formula on show is to be looked at in another size. */
  | { readonly type: 'size'; readonly size: ViewSize }
  | { readonly type: 'do'; readonly action: Action };
