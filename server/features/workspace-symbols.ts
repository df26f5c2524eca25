/** Formulas, dishes, plans, parts and ingredients of all files, found by some letters of their names in order. */
import type { SymbolInformation } from 'vscode-languageserver';
import type { Block } from '../../grammar';
import { normaliseName } from '../core/ingredients/names';
import type { ProjectFile } from '../project/file';
import { baseName } from '../project/uris';
import { SymbolKind } from './shared/protocol';

/** The best of them, at most `most`. An empty query finds everything. */
export function workspaceSymbolsOf(files: readonly ProjectFile[], query: string, most = 200): SymbolInformation[] {
  const wanted = normaliseName(query.slice(0, 200)).replaceAll(' ', '');
  const found = files.flatMap(file => symbolsIn(file)).flatMap(symbol => {
    const score = scoreOf(normaliseName(symbol.name), wanted);
    return score === undefined ? [] : [{ symbol, score, rank: RANKS.indexOf(symbol.kind) }];
  });
  // As near to the query as can be; then formulas before their parts; then in the order of the alphabet, which no locale changes.
  found.sort((a, b) => a.score - b.score || a.rank - b.rank || compare(a.symbol.name, b.symbol.name) || compare(a.symbol.location.uri, b.symbol.location.uri));
  return found.slice(0, most).map(({ symbol }) => symbol);
}

/** Kinds as the outline has them, those that people look for first in front. */
const RANKS: readonly SymbolKind[] = [SymbolKind.Class, SymbolKind.Event, SymbolKind.Constant, SymbolKind.Module];

function symbolsIn(file: ProjectFile): readonly SymbolInformation[] {
  return file.sections.flatMap(({ section, firstBlock }) => section.blocks.flatMap((block, index) => {
    const symbol = symbolOf(block);
    if (symbol === undefined || symbol.name.trim() === '') return [];
    const { name, kind, start, end } = symbol;
    const offset = file.tree.blocks[firstBlock + index]?.offset ?? 0;
    const containerName = kind === SymbolKind.Module && section.name !== '' ? section.name : baseName(file.uri);
    return [{ name, kind, containerName, location: { uri: file.uri, range: file.lineIndex.rangeOf(offset + start, offset + end) } }];
  }));
}

function symbolOf({ head: { node } }: Block): { readonly name: string; readonly kind: SymbolKind; readonly start: number; readonly end: number } | undefined {
  switch (node.kind) {
    case 'formula':
    case 'dish':
      return node.name && { name: node.name.text, kind: SymbolKind.Class, start: node.start, end: node.end };
    case 'plan':
      return node.name && { name: node.name.text, kind: SymbolKind.Event, start: node.start, end: node.end };
    case 'ingredient':
      return node.name && { name: node.name.text, kind: SymbolKind.Constant, start: node.start, end: node.end };
    case 'part':
      return { name: node.name?.text ?? node.part, kind: SymbolKind.Module, start: node.start, end: node.end };
    case 'use':
    case 'steps':
    case 'record':
    case 'unknown':
    case 'none':
      return undefined;
  }
}

/** 0 for the name itself, more the further from it; undefined when the letters are not in it in that order. Both normalised. */
function scoreOf(name: string, wanted: string): number | undefined {
  const joined = name.replaceAll(' ', '');
  if (joined === wanted || wanted === '') return 0;
  if (joined.startsWith(wanted)) return 1;
  if (name.split(' ').some((_, index, words) => words.slice(index).join('').startsWith(wanted))) return 2;
  if (joined.includes(wanted)) return 3;
  let at = 0;
  for (const letter of wanted) {
    const next = joined.indexOf(letter, at);
    if (next < 0) return undefined;
    at = next + letter.length;
  }
  // The later the last letter, the looser the match.
  return 4 + at / (joined.length + 1);
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
