/** What the previews of a formula and of a plan share. */
import type { Severity } from '../../core/checks/check';
import { html, type Markup, said, toLine } from './html';

export interface Preview {
  /** Plain text: the name of what is shown. */
  readonly title: string;
  /** For the body of a page; everything from the file is escaped. */
  readonly html: string;
}

/**
 * A section with nothing in it keeps its place, so that one coming or going moves no other: a page that is patched in place
 * then keeps what is being read, and the focus, where they are.
 */
export function hidden(id: string): Markup {
  return html`<section id="${id}" hidden></section>`;
}

const SEVERITY_WORDS: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', info: 'note' };

/** More than these would push the sheet out of sight: the rest is folded away. */
const MOST_IN_SIGHT = 6;

/** What is worth a look, each with its line (from 1), worst first. */
export function findingsList(findings: readonly { readonly severity: Severity; readonly message: string; readonly line: number }[]): Markup | undefined {
  if (findings.length === 0) return undefined;
  const items = findings.map(
    ({ severity, message, line }) =>
      html`<li class="${severity}"><span class="severity">${SEVERITY_WORDS[severity]}</span> ${toLine(line, said(message))}</li>`,
  );
  // One alone is shown rather than folded away.
  const inSight = items.length <= MOST_IN_SIGHT + 1 ? items.length : MOST_IN_SIGHT;
  const more = items.slice(inSight);
  return html`<section id="findings" class="findings" aria-labelledby="findings-name"><h2 id="findings-name">Worth a look</h2><ul>${items.slice(0, inSight)}</ul>
${more.length > 0 && html`<details id="findings-more"><summary>${more.length} more</summary><ul>${more}</ul></details>`}</section>`;
}
