/**
 * Findings as workflow commands of GitHub Actions, which shows each at its line: `::error file=…,line=…,title=…::message`.
 * It shows the first ten errors, warnings and notices of a step (as its documentation says); the log has all.
 */
import type { Severity } from '../core/checks/check';
import { summaryOf, type FindingsForm, type PlacedFinding } from './findings';
import type { Rule } from './rule';
import { printable } from './width';

const COMMAND: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', info: 'notice' };

export interface GithubOptions {
  readonly rules: readonly Rule[];
  /** URI of the folder that files are told from, the top of the repository, with its last `/`. */
  readonly base: string;
}

export function findingsGithub({ rules, base }: GithubOptions): FindingsForm {
  const titles = new Map(rules.map(({ code, title }) => [code, title]));
  return {
    begin: '',
    file: ({ uri, findings }) => findings.map((finding) => {
      const where = uri === '' ? [] : [['file', pathFrom(base, uri)] as const, ...placeOf(finding)];
      const properties = [...where, ['title', `${titles.get(finding.code) ?? finding.code} (${finding.code})`] as const];
      return `::${COMMAND[finding.severity]} ${properties.map(([name, value]) => `${name}=${property(value)}`).join(',')}::${message(finding.message)}\n`;
    }).join(''),
    end: (all) => (all.files === 0 ? '' : `${summaryOf(all)}\n`),
  };
}

/** The path of a file from the base; of one outside of it, all of its path. */
function pathFrom(base: string, uri: string): string {
  return decodeURIComponent(uri.startsWith(base) ? uri.slice(base.length) : uri.replace(/^file:\/\//, ''));
}

/** Columns only where the place lies in one line: over several lines they are not taken. An empty place has no end. */
function placeOf({ line, column, endLine, endColumn }: PlacedFinding): readonly (readonly [string, string])[] {
  if (endLine !== line) return [['line', String(line)], ['endLine', String(endLine)]];
  return [['line', String(line)], ['endLine', String(endLine)], ['col', String(column)], ...(endColumn > column ? [['endColumn', String(endColumn)] as const] : [])];
}

/** What a message may not have as it is. Other control characters do nothing good in a log. */
function message(text: string): string {
  return printable(text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A'));
}

function property(text: string): string {
  return message(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
}
