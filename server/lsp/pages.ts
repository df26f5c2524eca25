/** Markdown pages: what stands outside their fences is none of the server's business. */
import type { Position, Range } from 'vscode-languageserver';
import type { ProjectFile } from '../project/file';

/** Of a request, where on the page it is asked. */
export interface Where {
  readonly position?: Position;
  readonly positions?: readonly Position[];
  readonly range?: Range;
}

/** The language that editors give a Markdown page. */
export function isMarkdown(languageId: string): boolean {
  return languageId === 'markdown';
}

/**
 * What is asked about a file: of a Markdown page, as far as it is about a fence. Undefined when a position or the range is
 * in none of them, or the page has none.
 */
export function askedInside<P extends Where>({ page }: ProjectFile, params: P): P | undefined {
  if (page === undefined) return params;
  const { position, positions = [], range } = params;
  const places = position === undefined ? positions : [position];
  if (page.fences.length === 0 || !places.every(page.holds)) return undefined;
  if (range === undefined) return params;
  const inside = page.within(range);
  return inside && { ...params, range: inside };
}
