/** Findings of a file with their places, as plain data. */
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Finding } from '../../core/checks/check';
import { SETTINGS_CODE } from '../../core/settings/read';
import { byPlace, type CheckedFile, type PlacedFinding, type Region } from '../../output/findings';
import { placesOfRelated, textEditIn, type PlacedSection, type ProjectFile } from '../../project/file';
import { lineIndexOf, type LineIndex, type Range } from '../../project/lines';
import type { SettingsInFile } from '../../project/settings';
import { canonicalUri } from '../../project/uris';
import { slashes } from '../files';

/** Every finding of a file, in the order of the text, and apart from them the accepted ones. */
export function findingsIn(file: ProjectFile): Pick<CheckedFile, 'findings' | 'accepted'> {
  const lineTextAt = lineTextsOf(file.page?.source ?? file.text, file.page === undefined ? file.lineIndex : undefined);
  const placed = (section: PlacedSection, finding: Finding): PlacedFinding => {
    const { start, end } = section.offsetsOf(finding.place);
    const region = regionOf(file.lineIndex.rangeOf(start, end));
    const { kind, name } = section.section;
    return {
      ...region,
      code: finding.code,
      severity: finding.severity,
      message: finding.message,
      fixes: finding.fixes.map(({ title, certain, edits }) => ({
        title, certain,
        edits: edits.map(({ place, newText }) => {
          const at = section.offsetsOf(place);
          const edit = textEditIn(file, at.start, at.end, newText);
          return { ...regionOf(edit.range), newText: edit.newText };
        }),
      })),
      related: finding.related.flatMap((one) => placesOfRelated(file, section, finding, one).map((place) => ({
        ...regionOf(place.range), message: one.message,
        ...(place.file.uri !== file.uri && { elsewhere: { path: pathFrom(file.uri, place.file.uri), uri: canonicalUri(place.file.uri) } }),
      }))),
      lineText: lineTextAt(region.line),
      formula: kind === 'formula' || kind === 'dish' || kind === 'plan' ? name : '',
    };
  };
  return {
    findings: file.sections.flatMap((section) => section.analysis.findings.map((finding) => placed(section, finding))).sort(byPlace),
    accepted: file.sections
      .flatMap((section) => section.analysis.accepted.map(({ finding, reason }) => ({ ...placed(section, finding), reason })))
      .sort(byPlace),
  };
}

/** What is wrong with a settings file. */
export function settingsFindingsIn({ problems, text, lineIndex }: SettingsInFile): Pick<CheckedFile, 'findings' | 'accepted'> {
  const lineTextAt = lineTextsOf(text, lineIndex);
  const findings = problems.map(({ start, end, severity, message }): PlacedFinding => {
    const region = regionOf(lineIndex.rangeOf(start, end));
    return { ...region, code: SETTINGS_CODE, severity, message, fixes: [], related: [], lineText: lineTextAt(region.line), formula: '' };
  });
  return { findings, accepted: [] };
}

function lineTextsOf(text: string, known: LineIndex | undefined): (line: number) => string {
  let index = known;
  return (line) => {
    const { start, end } = (index ??= lineIndexOf(text)).lineAt(line - 1);
    return text.slice(start, end);
  };
}

/** Lines and columns from 1. */
function regionOf({ start, end }: Range): Region {
  return { line: start.line + 1, column: start.character + 1, endLine: end.line + 1, endColumn: end.character + 1 };
}

/** Another file from the folder of one, `/` between folders, as a `use` line would have it. */
function pathFrom(uri: string, other: string): string {
  return slashes(path.relative(path.dirname(fileURLToPath(uri)), fileURLToPath(other)));
}
