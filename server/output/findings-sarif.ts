/**
 * Findings as SARIF 2.1.0 (OASIS, Static Analysis Results Interchange Format), which hosted CI services and editors read.
 * Accepted findings are in it too, as suppressed, with their reason.
 */
import type { Severity } from '../core/checks/check';
import { docsUrl } from '../core/checks/documentation';
import { byPlace, type AcceptedFinding, type CheckedFile, type FindingsForm, type PlacedFinding, type Region, type Tally } from './findings';
import { fingerprints } from './fingerprint';
import { json, listItem } from './json';
import type { Rule } from './rule';

export interface SarifOptions {
  readonly version: string;
  readonly rules: readonly Rule[];
  /** URI of the folder that files are told from, with its last `/`; a file outside of it has its whole URI. */
  readonly base: string;
  /** Address of the page of checks on the web; undefined where nobody has put it there. */
  readonly page?: string | undefined;
}

/** The name that services know for the top of a repository. */
const BASE_ID = '%SRCROOT%';
const SCHEMA = 'https://json.schemastore.org/sarif-2.1.0.json';
const LEVEL: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', info: 'note' };
/** `results` stands in a run, in the list of runs, in the log. */
const RESULT_DEPTH = 4;

export function findingsSarif(options: SarifOptions): FindingsForm {
  const indexes = new Map(options.rules.map(({ code }, index) => [code, index]));
  const resultOf = resultIn(options, indexes);
  return {
    begin: beginning(options),
    file: (file, before) => results(file).map(([finding, fingerprint], index) => (
      listItem(json(resultOf(file, finding, fingerprint)), RESULT_DEPTH, index > 0 || hasResults(before))
    )).join(''),
    end: (all, problems) => `${hasResults(all) ? '\n      ' : ''}],\n      "invocations": ${nested(invocations(problems))}\n    }\n  ]\n}\n`,
  };
}

function hasResults({ error, warning, info, accepted }: Tally): boolean {
  return error + warning + info + accepted > 0;
}

/** Found and accepted, by their place, each with what it is known by. */
function results({ findings, accepted }: CheckedFile): readonly (readonly [PlacedFinding | AcceptedFinding, string | undefined])[] {
  const all = [...findings, ...accepted].sort(byPlace);
  const known = fingerprints(all);
  return all.map((finding, index) => [finding, known[index]] as const);
}

function beginning({ version, rules, page }: SarifOptions): string {
  const driver = {
    name: 'Proofsheet',
    version,
    semanticVersion: version,
    ...(page !== undefined && { informationUri: page }),
    rules: rules.map(({ code, severity, title, why, helpText, helpMarkdown }) => ({
      id: code,
      shortDescription: { text: title },
      fullDescription: { text: why },
      help: { text: helpText, markdown: helpMarkdown },
      ...(page !== undefined && { helpUri: docsUrl(code, page) }),
      defaultConfiguration: { level: LEVEL[severity] },
    })),
  };
  const base = { [BASE_ID]: { description: { text: 'The top of the git repository; outside of one, the folder that the check was run in.' } } };
  return [
    '{',
    `  "$schema": ${JSON.stringify(SCHEMA)},`,
    '  "version": "2.1.0",',
    '  "runs": [',
    '    {',
    `      "tool": ${nested({ driver })},`,
    '      "columnKind": "utf16CodeUnits",',
    `      "originalUriBaseIds": ${nested(base)},`,
    '      "results": [',
  ].join('\n');
}

/** A value behind its name, three levels deep. */
function nested(value: unknown): string {
  return json(value).trimEnd().replaceAll('\n', '\n      ');
}

function invocations(problems: readonly string[]): unknown {
  return [{
    executionSuccessful: problems.length === 0,
    ...(problems.length > 0 && { toolExecutionNotifications: problems.map((text) => ({ level: 'error', message: { text } })) }),
  }];
}

function resultIn({ base }: SarifOptions, indexes: ReadonlyMap<string, number>) {
  const artifact = (uri: string): unknown => (
    uri === '' ? { uri: 'stdin' } : uri.startsWith(base) && uri !== base ? { uri: uri.slice(base.length), uriBaseId: BASE_ID } : { uri }
  );
  return (file: CheckedFile, finding: PlacedFinding | AcceptedFinding, fingerprint: string | undefined): unknown => ({
    ruleId: finding.code,
    ruleIndex: indexes.get(finding.code),
    level: LEVEL[finding.severity],
    message: { text: finding.message },
    locations: [{
      physicalLocation: { artifactLocation: artifact(file.uri), region: regionOf(finding) },
      ...(finding.formula !== '' && { logicalLocations: [{ fullyQualifiedName: finding.formula }] }),
    }],
    ...(finding.related.length > 0 && {
      relatedLocations: finding.related.map((related, id) => ({
        id: id + 1,
        physicalLocation: { artifactLocation: artifact(related.elsewhere?.uri ?? file.uri), region: regionOf(related) },
        message: { text: related.message },
      })),
    }),
    partialFingerprints: { primaryLocationLineHash: fingerprint },
    ...(finding.fixes.length > 0 && {
      fixes: finding.fixes.map(({ title, certain, edits }) => ({
        // A doubtful one is a question: only the baker knows.
        description: { text: certain ? title : `${title}?` },
        artifactChanges: [{
          artifactLocation: artifact(file.uri),
          replacements: edits.map((edit) => ({ deletedRegion: regionOf(edit), insertedContent: { text: edit.newText } })),
        }],
      })),
    }),
    suppressions: 'reason' in finding ? [{ kind: 'inSource', justification: finding.reason }] : [],
  });
}

function regionOf({ line, column, endLine, endColumn }: Region): unknown {
  return { startLine: line, startColumn: column, endLine, endColumn };
}
