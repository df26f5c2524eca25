/** The forms that formulas are exported in, and one door to all of them. */
import type { Settings } from '../../core/settings/settings';
import type { HoursOff, Timeline } from '../../core/timeline/model';
import { cardOf } from '../card/card';
import { cardsHtml } from '../card/html';
import { cardsMarkdown } from '../card/markdown';
import type { FormulaEntry } from '../entry';
import { scheduleCalendar } from '../schedule-calendar';
import { sheetJson } from '../sheet-json';
import { cardsCsv } from './csv';
import { recipesJsonLd } from './recipe';

export const EXPORT_FORMS = ['html', 'markdown', 'csv', 'ics', 'jsonld', 'json'] as const;
export type ExportForm = (typeof EXPORT_FORMS)[number];

/** The usual ending of a file of each form. */
export const ENDINGS: Readonly<Record<ExportForm, string>> = { html: 'html', markdown: 'md', csv: 'csv', ics: 'ics', jsonld: 'jsonld', json: 'json' };

export interface ExportEntry extends FormulaEntry {
  readonly settings: Pick<Settings, 'measures' | 'asleep' | 'away'>;
  /** By the time that was asked for; undefined where none was. */
  readonly timeline: Timeline | undefined;
  /** Hours off that were asked for, to be drawn between the steps. */
  readonly hoursOff?: readonly HoursOff[];
}

/**
 * Formulas and dishes as one text of a form. A timeline that is a conflict counts as none: say it yourself.
 *
 * @param stampMs when it is written, for a calendar
 */
export function exported(form: ExportForm, entries: readonly ExportEntry[], stampMs: number): string {
  switch (form) {
    case 'json':
      return sheetJson(entries);
    case 'ics':
      return scheduleCalendar(entries.flatMap((entry) => (entry.timeline === undefined ? [] : [{ entry, timeline: entry.timeline }])), stampMs);
    case 'html':
      return cardsHtml(entries.map(card));
    case 'markdown':
      return cardsMarkdown(entries.map(card));
    case 'csv':
      return cardsCsv(entries.map(card));
    case 'jsonld':
      return recipesJsonLd(entries.map((entry) => ({ entry, card: card(entry), timeline: placed(entry) })));
  }
}

function card(entry: ExportEntry): ReturnType<typeof cardOf> {
  const { asleep, away, measures } = entry.settings;
  const hoursOff = asleep === undefined && away === undefined ? undefined : [...asleep ?? [], ...away ?? []];
  return cardOf({ entry, timeline: placed(entry), hoursOff, measures: measures ?? 'us' });
}

function placed({ timeline }: ExportEntry): Extract<Timeline, { readonly kind: 'placed' }> | undefined {
  return timeline?.kind === 'placed' ? timeline : undefined;
}
