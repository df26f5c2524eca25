/** Where a code is explained: a heading of the page that lists all checks. The one place that knows the shape of such an address. */
import { topics } from '.';
import { documentChecks } from './document';

/**
 * Address of the explanation of a code.
 *
 * @param page URI of the page of checks, without `#`. On the web a heading has its own address; a file in an editor is
 *   opened at a line (`#L120`), for editors know lines and not headings.
 */
export function docsUrl(code: string, page: string): string {
  return /^https?:/.test(page) ? `${page}#${encodeURIComponent(code)}` : `${page}#L${lineOf(code)}`;
}

/** The shape that the language server protocol wants beside a code; undefined when nobody knows where the page is. */
export function codeDescription(code: string, page: string | undefined): { readonly href: string } | undefined {
  return page === undefined ? undefined : { href: docsUrl(code, page) };
}

let lines: ReadonlyMap<string, number> | undefined;

/** The line of a code's heading in the page, from 1. */
function lineOf(code: string): number {
  lines ??= new Map(
    documentChecks(topics)
      .split('\n')
      .flatMap((line, index): readonly (readonly [string, number])[] => (line.startsWith('## ') ? [[line.slice(3), index + 1]] : [])),
  );
  return lines.get(code) ?? 1;
}
