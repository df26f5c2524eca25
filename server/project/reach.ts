/** Which files a file rests on: a change in any of them may change what is found in it. */
import { SETTINGS_FILE } from '../core/settings/settings';
import type { ProjectFile } from './file';
import { besideAndAbove, canonicalUri, resolveUse } from './uris';

/**
 * Canonical URIs of the file, of all that it reaches by `use`, there or not, and of the places where settings for it were looked
 * for, up to those that count. `roots` are those of its project.
 */
export function reachOf(file: ProjectFile, roots: readonly string[]): readonly string[] {
  const reached = new Set([canonicalUri(file.uri)]);
  for (const { uri, tree } of [file, ...file.visible]) {
    reached.add(canonicalUri(uri));
    for (const { block: { head: { node } } } of tree.blocks) {
      const target = node.kind === 'use' && node.path !== undefined ? resolveUse(uri, node.path.text, roots) : undefined;
      if (target?.kind === 'file') reached.add(canonicalUri(target.uri));
    }
  }
  const nearest = file.settingsFile && canonicalUri(file.settingsFile.uri);
  for (const candidate of besideAndAbove(file.uri, SETTINGS_FILE, roots)) {
    reached.add(candidate);
    if (candidate === nearest) break;
  }
  return [...reached];
}
