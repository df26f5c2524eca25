/** Findings with their place in a file, as every form of them needs: lines and UTF-16 columns from 1. */
import type { Severity } from '../core/checks/check';
import { counted } from './numbers';

export interface PlacedFinding {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  /** The column after the last one. */
  readonly endColumn: number;
  /** Titles of what can be done about it. */
  readonly fixes: readonly string[];
  /** `path` where it is another file, from the folder of this one. */
  readonly related: readonly { readonly path?: string; readonly line: number; readonly message: string }[];
}

export interface CheckedFile {
  /** As a person would type it; `/` between folders. */
  readonly path: string;
  /** In the order they stand in the file. */
  readonly findings: readonly PlacedFinding[];
  /** Text of a line from 1, without its line end. */
  readonly lineText: (line: number) => string;
}

const RANK: Readonly<Record<Severity, number>> = { info: 0, warning: 1, error: 2 };

/** Whether a severity is at or above another. */
export function atLeast(severity: Severity, least: Severity): boolean {
  return RANK[severity] >= RANK[least];
}

/** By line, then column, then the graver first. */
export function byPlace(a: PlacedFinding, b: PlacedFinding): number {
  return a.line - b.line || a.column - b.column || RANK[b.severity] - RANK[a.severity] || (a.code < b.code ? -1 : a.code > b.code ? 1 : 0);
}

/** `2 errors, 1 warning in 3 files`, `no findings in 3 files`. */
export function summaryOf(files: readonly CheckedFile[]): string {
  const findings = files.flatMap((file) => file.findings);
  const count = (severity: Severity): number => findings.filter((finding) => finding.severity === severity).length;
  const words = [
    ...some(count('error'), (n) => counted(n, 'error')),
    ...some(count('warning'), (n) => counted(n, 'warning')),
    ...some(count('info'), (n) => `${String(n)} info`),
  ];
  return `${words.length === 0 ? 'no findings' : words.join(', ')} in ${counted(files.length, 'file')}`;
}

function some(count: number, words: (count: number) => string): readonly string[] {
  return count === 0 ? [] : [words(count)];
}
