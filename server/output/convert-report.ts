/** What came of a conversion, in sentences and for other programs. */
import { tallyOf, type Converted } from '../core/convert/convert';
import type { Outcome } from '../core/convert/model';
import { json } from './json';
import { counted } from './numbers';

/** `Drafted "Stall loaf" from 27 lines: 24 understood, 2 to decide, 1 kept as text.` */
export function convertSummary({ drafts }: Converted): string {
  const { lines, understood, doubtful, text } = tallyOf(drafts);
  const names = drafts.map(({ name }) => `"${name}"`);
  const named = names.length <= 3 ? names.join(', ') : `${counted(names.length, 'formula')}`;
  return `Drafted ${named} from ${counted(lines, 'line')}: ${understood} understood, ${doubtful} to decide or to look at, ${text} kept as text.`;
}

/** The lines that somebody has to look at, each with why. */
export function convertDoubts({ drafts }: Converted): readonly string[] {
  return drafts.flatMap(({ outcomes }) => outcomes.filter(({ reading }) => reading === 'doubtful').map(doubt));
}

const LONGEST = 70;

function doubt({ line, text, why }: Outcome): string {
  const said = text.replaceAll('\t', ' | ');
  const words = said.length <= LONGEST ? said : `${said.slice(0, LONGEST).replace(/[\ud800-\udbff]$/, '').trimEnd()}…`;
  return `${line > 0 ? `Line ${line}` : 'To look at'}: "${words}": ${why.join(' ')}`;
}

/** The draft and what became of each line, in a form that stays. Lines are 0 where the source has none, as in JSON. */
export function convertJson(converted: Converted): string {
  const { text, drafts, notices } = converted;
  return json({
    draft: text,
    lines: tallyOf(drafts),
    notices,
    formulas: drafts.map(({ kind, name, outcomes }) => ({
      kind, name,
      lines: outcomes.map(({ line, text: words, reading, why }) => ({ line, text: words, reading, why })),
    })),
  });
}
