/** The path of a `use` line, as a link to its file. */
import type { DocumentLink } from 'vscode-languageserver';
import type { ProjectFile } from '../project/file';
import { nameAt } from './shared/names';

export function documentLinksOf(file: ProjectFile): DocumentLink[] {
  return file.uses.flatMap(({ block, path, uri, problem }) => {
    const offset = file.tree.blocks[block]?.offset ?? 0;
    const name = nameAt(file, file.environment, offset + path.start + 1);
    if (uri === undefined || problem !== undefined || name === undefined) return [];
    return [{ range: file.lineIndex.rangeOf(name.start, name.end), target: uri, tooltip: 'Open this file' }];
  });
}
