/** Findings with their place in a file, as every form of them needs: lines and UTF-16 columns from 1. */
import type { Severity } from '../core/checks/check';
import { counted } from './numbers';

/** A stretch of a text. */
export interface Region {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  /** The column after the last one. */
  readonly endColumn: number;
}

export interface PlacedEdit extends Region {
  readonly newText: string;
}

export interface PlacedFix {
  /** What it does; of one that is not certain, only the baker knows. */
  readonly title: string;
  readonly certain: boolean;
  readonly edits: readonly PlacedEdit[];
}

/** Plain data: it goes from one thread to another. */
export interface PlacedFinding extends Region {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  /** What can be done about it. */
  readonly fixes: readonly PlacedFix[];
  /** `elsewhere` where it is another file, its path from the folder of this one. */
  readonly related: readonly (Region & { readonly elsewhere?: { readonly path: string; readonly uri: string }; readonly message: string })[];
  /** The text of its first line, without the line end. */
  readonly lineText: string;
  /** Name of the formula, dish or plan that it is in; empty in any other block, and where there is no name. */
  readonly formula: string;
}

/** One that an `# accept` comment silences. */
export interface AcceptedFinding extends PlacedFinding {
  readonly reason: string;
}

export interface CheckedFile {
  /** As a person would type it; `/` between folders. */
  readonly path: string;
  /** Every character escaped that a URI may not have; empty for standard input. */
  readonly uri: string;
  /** In the order they stand in the file. */
  readonly findings: readonly PlacedFinding[];
  readonly accepted: readonly AcceptedFinding[];
}

/** How much was found so far. */
export interface Tally extends Readonly<Record<Severity, number>> {
  readonly files: number;
  readonly accepted: number;
}

export const NOTHING_YET: Tally = { files: 0, error: 0, warning: 0, info: 0, accepted: 0 };

export function plus(tally: Tally, { findings, accepted }: CheckedFile): Tally {
  const count = (severity: Severity): number => tally[severity] + findings.filter((finding) => finding.severity === severity).length;
  return { files: tally.files + 1, error: count('error'), warning: count('warning'), info: count('info'), accepted: tally.accepted + accepted.length };
}

/** A form of findings, written file by file, so that however many there are, none has to be kept. */
export interface FindingsForm {
  readonly begin: string;
  /** @param before what was written before this file */
  readonly file: (file: CheckedFile, before: Tally) => string;
  /** @param problems sentences on what could not be read */
  readonly end: (all: Tally, problems: readonly string[]) => string;
}

const RANK: Readonly<Record<Severity, number>> = { info: 0, warning: 1, error: 2 };

/** Whether a severity is at or above another. */
export function atLeast(severity: Severity, least: Severity): boolean {
  return RANK[severity] >= RANK[least];
}

/** Whether anything was found at or above a severity. */
export function hasAtLeast(tally: Tally, least: Severity): boolean {
  return (['error', 'warning', 'info'] as const).some((severity) => atLeast(severity, least) && tally[severity] > 0);
}

/** By line, then column, then the graver first. */
export function byPlace(a: PlacedFinding, b: PlacedFinding): number {
  return a.line - b.line || a.column - b.column || RANK[b.severity] - RANK[a.severity] || (a.code < b.code ? -1 : a.code > b.code ? 1 : 0);
}

/** `2 errors, 1 warning in 3 files`, `no findings in 3 files`. */
export function summaryOf({ files, error, warning, info }: Tally): string {
  const words = [
    ...some(error, (n) => counted(n, 'error')),
    ...some(warning, (n) => counted(n, 'warning')),
    ...some(info, (n) => `${String(n)} info`),
  ];
  return `${words.length === 0 ? 'no findings' : words.join(', ')} in ${counted(files, 'file')}`;
}

function some(count: number, words: (count: number) => string): readonly string[] {
  return count === 0 ? [] : [words(count)];
}
