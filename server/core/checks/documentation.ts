/** Where a code is explained: a heading of the page that lists all checks. The one place that knows the shape of such an address. */
import { headingLines } from './heading-lines';

/**
 * Address of the explanation of a code.
 *
 * @param page URI of the page of checks, without `#`. On the web a heading has its own address; a file in an editor is
 *   opened at a line (`#L120`), for editors know lines and not headings.
 */
export function docsUrl(code: string, page: string): string {
  return /^https?:/.test(page) ? `${page}#${encodeURIComponent(code)}` : `${page}#L${headingLines().get(code) ?? 1}`;
}

/** The shape that the language server protocol wants beside a code; undefined when nobody knows where the page is. */
export function codeDescription(code: string, page: string | undefined): { readonly href: string } | undefined {
  return page === undefined ? undefined : { href: docsUrl(code, page) };
}
