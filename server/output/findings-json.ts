/** The stable JSON form of findings: `{"files": [{"path", "findings": […]}]}`. */
import type { CheckedFile, FindingsForm } from './findings';
import { json, listItem } from './json';

/** Lines and columns from 1, columns in UTF-16 units, the end after the last one. A file without findings is listed too. */
export const findingsJson: FindingsForm = {
  begin: '{\n  "files": [',
  file: (file, { files }) => listItem(json(fileJson(file)), 2, files > 0),
  end: ({ files }) => (files === 0 ? ']\n}\n' : '\n  ]\n}\n'),
};

function fileJson({ path, findings }: CheckedFile): unknown {
  return {
    path,
    findings: findings.map((finding) => ({
      code: finding.code,
      severity: finding.severity,
      message: finding.message,
      line: finding.line,
      column: finding.column,
      end_line: finding.endLine,
      end_column: finding.endColumn,
      fixes: finding.fixes.map(({ title }) => ({ title })),
    })),
  };
}
