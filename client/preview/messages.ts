/** What the preview's page and the extension say to one another. */
import type { Choice } from '../chosen-times';

/** What a panel needs to come back after a reload: kept by the page, handed to the extension. */
export interface PanelState {
  readonly uri: string;
  /** Of the cursor, from 0. */
  readonly line: number;
}

export type ToPage =
  /** `same` is false when another formula is shown than before: the page begins at its top. */
  | { readonly type: 'show'; readonly html: string; readonly same: boolean; readonly state: PanelState }
  /** There is nothing to show. */
  | { readonly type: 'nothing' };

export type FromPage =
  | { readonly type: 'loaded' }
  /** A click on something that stands for a line, from 1. */
  | { readonly type: 'line'; readonly line: number }
  /** A time was set for the formula on show. */
  | { readonly type: 'anchor'; readonly anchor: Choice };
