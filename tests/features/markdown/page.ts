/** Markdown pages with the cursor marked in them, as `marked` has it for formulas. */
import type { Position } from 'vscode-languageserver';
import type { MarkdownPage } from '../../../server/project/markdown';
import type { ProjectFile } from '../../../server/project/file';
import { lineIndexOf } from '../../../server/project/lines';
import { Project } from '../../../server/project/project';
import { ROOT, unmarked, uriOf } from '../marked';

export interface MarkedPage {
  readonly file: ProjectFile;
  readonly page: MarkdownPage;
  /** The page without its marks. */
  readonly source: string;
  /** Where the first mark is on the page. */
  readonly position: Position;
  /** The offset that the server makes of it. */
  readonly offset: number;
}

/** A project with the marked page as `notes.md` and other files beside it. Faults are thrown. */
export async function markedPage(marked: string, others: Readonly<Record<string, string>> = {}): Promise<MarkedPage> {
  const { text: source, offsets } = unmarked(marked);
  const project = new Project({
    reader: { read: uri => Promise.resolve(others[decodeURIComponent(uri.slice(ROOT.length + 1))]) },
    roots: [ROOT],
    onFault: (code, fault) => {
      throw new Error(`fault in ${code}`, { cause: fault });
    },
  });
  project.update(uriOf('notes.md'), source);
  const file = await project.prepare(uriOf('notes.md'));
  if (file?.page === undefined) throw new Error('no page');
  const position = lineIndexOf(source).positionAt(offsets[0] ?? source.length);
  return { file, page: file.page, source, position, offset: file.lineIndex.offsetAt(position) };
}
