/** Silencing a finding where it stands, with a reason. */
import type { CodeAction, SnippetTextEdit, TextEdit } from 'vscode-languageserver';
import type { Finding } from '../../core/checks/check';
import { blockAt, everyLine, textEditIn } from '../../project/file';
import type { PlacedSection, ProjectFile } from '../../project/file';
import { SCHEDULE_CODE } from '../shared/schedule-findings';
import { shownAs, workspaceEdit, type CodeActionOptions } from './options';
import { CodeActionKind } from '../shared/protocol';

/**
 * `# accept CODE: ` at the end of the finding's line, or above it when the line has a comment of its own. The reason is for
 * the baker to write: until it is there, the comment silences nothing, and says so.
 */
export function acceptAction(file: ProjectFile, section: PlacedSection, finding: Finding, options: CodeActionOptions): CodeAction | undefined {
  // What cannot be read cannot be silenced, and neither can a comment on silence.
  // A time that cannot be kept is not accepted either: it is no check of the text.
  if (finding.severity === 'error' || finding.code.startsWith('accept') || finding.code === SCHEDULE_CODE) return undefined;
  const { start } = section.offsetsOf(finding.place);
  const block = blockAt(file, start);
  if (block === undefined) return undefined;
  const at = start - block.offset;
  const line = [block.block.head, ...everyLine(block.block)].find(one => at >= one.start && at <= one.end);
  if (line === undefined) return undefined;
  const { text } = block.block;
  const lineEnd = file.text.includes('\r\n') ? '\r\n' : '\n';
  const indent = /[ \t]*$/.exec(text.slice(0, line.start))?.[0] ?? '';
  const above = line.comment !== undefined;
  const offset = block.offset + (above ? line.start : line.end);
  const before = above ? `# accept ${finding.code}: ` : `  # accept ${finding.code}: `;
  const after = above ? `${lineEnd}${indent}` : '';
  const { range, newText } = textEditIn(file, offset, offset, `${before}${after}`);
  const edit: TextEdit | SnippetTextEdit = options.snippets && options.documentChanges
    ? { range, snippet: { kind: 'snippet', value: newText.replace(before, () => `${before}$0`) } }
    : { range, newText };
  return {
    title: `Accept ${finding.code} here, with a reason`,
    kind: CodeActionKind.QuickFix,
    diagnostics: shownAs(options, finding),
    edit: workspaceEdit(file, [edit], options),
  };
}
