/** Markdown for hovers and completion. Text from a file is always escaped: a formula's name is not markup. */
import { trimmed } from '../../core/checks/words';

/** Text as Markdown shows it, letter by letter. */
export function escaped(text: string): string {
  return text.replace(/[\\`*_{}[\]()#+\-.!|<>~&$^"]/g, '\\$&').replace(/\s+/g, ' ');
}

/** Text in code letters: `text`. */
export function code(text: string): string {
  const fence = text.includes('`') ? '``' : '`';
  return `${fence}${text.replace(/\s+/g, ' ')}${fence}`;
}

/** A table of two columns, what and how much; rows without a value are left out, and with no row there is no table. */
export function table(head: readonly [string, string], rows: readonly (readonly [string, string | undefined])[]): string {
  const known = rows.filter((row): row is [string, string] => row[1] !== undefined);
  if (known.length === 0) return '';
  return [`| ${head[0]} | ${head[1]} |`, '|:---|---:|', ...known.map(([what, value]) => `| ${what} | ${value} |`)].join('\n');
}

/** Paragraphs; empty ones are left out. */
export function paragraphs(...texts: readonly (string | undefined)[]): string {
  return texts.filter(text => text !== undefined && text !== '').join('\n\n');
}

/** Grams as a scale shows them: `940 g`, `4.5 g`, `0.25 g`; undefined when they are not known. */
export function gramsOrNothing(grams: number | null | undefined): string | undefined {
  if (grams === null || grams === undefined || !Number.isFinite(grams)) return undefined;
  const size = Math.abs(grams);
  return `${trimmed(grams, size >= 9.95 ? 0 : size >= 0.95 || size === 0 ? 1 : 2)} g`;
}

/** A percentage to one decimal: `71.8 %`; undefined when it is not known. */
export function percentOrNothing(percent: number | null | undefined): string | undefined {
  if (percent === null || percent === undefined || !Number.isFinite(percent)) return undefined;
  return `${trimmed(percent, Math.abs(percent) >= 0.95 || percent === 0 ? 1 : 2)} %`;
}

/** Both scales: `24 C (75.2 F)`. */
export function bothScales(celsius: number): string {
  return `${trimmed(celsius, 1)} C (${trimmed((celsius * 9) / 5 + 32, 1)} F)`;
}

/** Several edits or facts as one line: `940 g flour · 72 % hydration`. */
export function dotted(parts: readonly (string | undefined)[]): string {
  return parts.filter(part => part !== undefined && part !== '').join(' · ');
}
