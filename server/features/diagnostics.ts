/** Findings, as an editor shows them. */
import type { Diagnostic, DiagnosticRelatedInformation } from 'vscode-languageserver';
import type { Finding, Severity } from '../core/checks/check';
import { codeDescription } from '../core/checks/documentation';
import { fileTooLarge } from '../core/checks/pages';
import { SETTINGS_CODE } from '../core/settings/read';
import { placesOfRelated, rangeOfPlace } from '../project/file';
import type { PlacedSection, ProjectFile } from '../project/file';
import type { SettingsInFile } from '../project/settings';
import { findingsOf } from './shared/schedule-findings';
import { DiagnosticSeverity } from './shared/protocol';

/** What this editor can show, and where the codes are explained. */
export interface DiagnosticOptions {
  readonly relatedInformation: boolean;
  readonly codeDescription: boolean;
  /** URI of the page of checks, where the editor can open it. */
  readonly checksPage?: string;
  /** Told of what went wrong with one section, whose findings are then missing. Without it, it is thrown. */
  readonly onFault?: (where: string, fault: unknown) => void;
}

export const SOURCE = 'Proofsheet';

/** All findings in the file, in the order of the text. */
export function diagnosticsOf(file: ProjectFile, options: DiagnosticOptions): Diagnostic[] {
  const work = diagnosing(file, options);
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
}

/** The same, with a stop after each section, so that a caller can give way to other work and come back. */
export function* diagnosing(file: ProjectFile, options: DiagnosticOptions): Generator<void, Diagnostic[]> {
  if (file.tooLarge) return [tooLarge(file, options)];
  const found: Diagnostic[] = [];
  for (const section of file.sections) {
    try {
      for (const { finding } of findingsOf(file, section)) found.push(diagnosticOf(file, section, finding, options));
    } catch (fault) {
      if (options.onFault === undefined) throw fault;
      options.onFault('findings', fault);
    }
    yield;
  }
  return found;
}

function diagnosticOf(file: ProjectFile, section: PlacedSection, finding: Finding, options: DiagnosticOptions): Diagnostic {
  const described = options.codeDescription ? codeDescription(finding.code, options.checksPage) : undefined;
  const related = options.relatedInformation ? finding.related.flatMap(r => placesOfRelated(file, section, finding, r).map((place): DiagnosticRelatedInformation => (
    { location: { uri: place.file.uri, range: place.range }, message: r.message }
  ))) : [];
  return {
    range: rangeOfPlace(file, section, finding.place),
    severity: severityOf(finding.severity),
    code: finding.code,
    ...(described && { codeDescription: described }),
    source: SOURCE,
    message: finding.message,
    ...(related.length > 0 && { relatedInformation: related }),
  };
}

/** What is wrong with a settings file. */
export function settingsDiagnosticsOf({ problems, lineIndex }: SettingsInFile, options: DiagnosticOptions): Diagnostic[] {
  const described = options.codeDescription ? codeDescription(SETTINGS_CODE, options.checksPage) : undefined;
  return problems.map(({ start, end, message, severity }) => ({
    range: lineIndex.rangeOf(start, end), severity: severityOf(severity), code: SETTINGS_CODE,
    ...(described && { codeDescription: described }),
    source: SOURCE, message,
  }));
}

function severityOf(severity: Severity): DiagnosticSeverity {
  switch (severity) {
    case 'error': return DiagnosticSeverity.Error;
    case 'warning': return DiagnosticSeverity.Warning;
    case 'info': return DiagnosticSeverity.Information;
  }
}

function tooLarge(file: ProjectFile, options: DiagnosticOptions): Diagnostic {
  const { code, severity } = fileTooLarge;
  const described = options.codeDescription ? codeDescription(code, options.checksPage) : undefined;
  return {
    range: file.lineIndex.rangeOf(0, file.lineIndex.lineAt(0).end),
    severity: severityOf(severity),
    code,
    ...(described && { codeDescription: described }),
    source: SOURCE,
    message: 'This file is too large to be read: ten million characters is the most. Split it, and bring the pieces in with `use`.',
  };
}
