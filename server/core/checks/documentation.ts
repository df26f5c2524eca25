/** Where a code is explained. The one place that knows the shape of such an address. */

/** Used when a build gives no address of its own. The domain is reserved for examples (RFC 2606). */
export const DEFAULT_DOCS_BASE = 'https://proofsheet.example/checks';

/** Address of the explanation of a code: a heading in the page that lists all checks. `base` has no `#`. */
export function docsUrl(code: string, base: string = DEFAULT_DOCS_BASE): string {
  return `${base}#${encodeURIComponent(code)}`;
}

/** The shape that the language server protocol wants beside a code. */
export function codeDescription(code: string, base: string = DEFAULT_DOCS_BASE): { readonly href: string } {
  return { href: docsUrl(code, base) };
}
