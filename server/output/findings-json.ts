/** The stable JSON form of findings: `{"files": [{"path", "findings": […]}]}`. */
import type { CheckedFile } from './findings';
import { json } from './json';

/** Lines and columns from 1, columns in UTF-16 units, the end after the last one. A file without findings is listed too. */
export function findingsJson(files: readonly CheckedFile[]): string {
  return json({
    files: files.map(({ path, findings }) => ({
      path,
      findings: findings.map((finding) => ({
        code: finding.code,
        severity: finding.severity,
        message: finding.message,
        line: finding.line,
        column: finding.column,
        end_line: finding.endLine,
        end_column: finding.endColumn,
        fixes: finding.fixes.map((title) => ({ title })),
      })),
    })),
  });
}
