/** Comments, and the ones among them that silence a check. */
import type { Comment, Problem, Span } from './tree';

/** Reads the comment at `span`, `#` included. An `accept` needs a code and a reason; without them it silences nothing. */
export function readComment(text: string, span: Span): { readonly comment: Comment; readonly problem: Problem | undefined } {
  const body = text.slice(span.start + 1, span.end);
  const plain: Comment = { ...span, text: body.trim() };
  const opening = /^\s*accept(?![\p{L}\p{N}-])/iu.exec(body);
  if (opening === null) return { comment: plain, problem: undefined };
  const listStart = opening[0].length;
  const colon = body.indexOf(':', listStart);
  const reason = colon < 0 ? '' : body.slice(colon + 1).trim();
  const list = body.slice(listStart, colon < 0 ? undefined : colon);
  const codes = codesIn(list, span.start + 1 + listStart);
  if (codes !== undefined && codes.length > 0 && reason !== '') {
    return { comment: { ...plain, accept: { codes, reason } }, problem: undefined };
  }
  const message = codes === undefined || codes.length === 0
    ? 'Say which check is accepted, and why: # accept inclusion-load: the fruit is soaked.'
    : `Say why it is accepted, after a colon: # accept ${codes.map(({ code }) => code).join(', ')}: it is meant so.`;
  return { comment: plain, problem: { code: 'accept-without-reason', ...span, message } };
}

/** The codes of a list such as ` inclusion-load, hydration-range`, with their places; undefined when it is no such list. */
function codesIn(list: string, offset: number): readonly (Span & { readonly code: string })[] | undefined {
  const codes: (Span & { readonly code: string })[] = [];
  let at = offset;
  for (const piece of list.split(',')) {
    const code = piece.trim();
    if (code !== '' && !/^[a-z0-9]+(-[a-z0-9]+)*$/i.test(code)) return undefined;
    const start = at + piece.length - piece.trimStart().length;
    if (code !== '') codes.push({ start, end: start + code.length, code });
    at += piece.length + 1;
  }
  return codes;
}
