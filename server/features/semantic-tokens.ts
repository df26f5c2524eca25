/**
 * Colours that know what a name stands for: a part, an ingredient with its role, a formula, or nothing that anybody knows.
 * The rest says the same as the colours that the editor has without a server.
 */
import type { Range, SemanticTokens, SemanticTokensEdit } from 'vscode-languageserver';
import type { PlacedBlock, Role } from '../../grammar';
import { builtInCatalogue } from '../core/ingredients/catalogue';
import { everyLine } from '../project/file';
import type { PlacedSection, ProjectFile } from '../project/file';
import { MODIFIERS, TYPES, type TokenModifier, type TokenType } from './shared/legend';
import { namesInSection } from './shared/names';
import type { Occurrence } from './shared/names';
import { piecesOf } from './shared/pieces';

interface Token {
  /** File offsets. */
  readonly start: number;
  readonly end: number;
  readonly type: TokenType;
  readonly modifiers: readonly TokenModifier[];
}

/** The tokens of a file, or of what a range touches, as the protocol packs them: five numbers each, places from one to the next. */
export function semanticTokensOf(file: ProjectFile, range?: Range): number[] {
  const from = range === undefined ? 0 : file.lineIndex.offsetAt(range.start);
  const to = range === undefined ? file.text.length : file.lineIndex.offsetAt(range.end);
  const data: number[] = [];
  let line = 0;
  let character = 0;
  for (const { start, end, type, modifiers } of tokensOf(file, from, to)) {
    const place = file.lineIndex.positionAt(start);
    const sameLine = place.line === line;
    data.push(
      place.line - line, sameLine ? place.character - character : place.character, end - start,
      TYPES.indexOf(type), modifiers.reduce((bits, one) => bits | (1 << MODIFIERS.indexOf(one)), 0),
    );
    ({ line, character } = place);
  }
  return data;
}

/** The one edit that makes the new numbers of the old ones; none when they are the same. */
export function tokenEdits(before: readonly number[], after: readonly number[]): SemanticTokensEdit[] {
  const shortest = Math.min(before.length, after.length);
  let start = 0;
  while (start < shortest && before[start] === after[start]) start++;
  if (start === before.length && start === after.length) return [];
  let tail = 0;
  while (tail < shortest - start && before.at(-1 - tail) === after.at(-1 - tail)) tail++;
  return [{ start, deleteCount: before.length - tail - start, data: after.slice(start, after.length - tail) }];
}

/** A packed answer with its name, by which an editor asks for what has changed since. */
export type NamedTokens = SemanticTokens & { readonly resultId: string };

function tokensOf(file: ProjectFile, from: number, to: number): readonly Token[] {
  return file.sections.flatMap(section => {
    const blocks = file.tree.blocks.slice(section.firstBlock, section.firstBlock + section.section.blocks.length)
      .filter(({ block, offset }) => offset <= to && offset + block.text.length >= from);
    if (blocks.length === 0) return [];
    const tokens: Token[] = blocks.flatMap(({ block, offset }) => (
      piecesOf(block).map(({ kind, start, end }): Token => ({ type: kind, start: offset + start, end: offset + end, modifiers: [] }))
    ));
    const roles = rolesSaid(blocks);
    const names = namesInSection(file, section, section.environment).flatMap(name => nameToken(name, section, roles));
    // A part without a name is named by the word that opens it: that word is what it is.
    const inRange = [...tokens, ...names].filter(({ start, end }) => end > start && start <= to && end >= from);
    const sorted = inRange.sort((a, b) => a.start - b.start || Number(b.type === 'keyword') - Number(a.type === 'keyword'));
    let end = 0;
    return sorted.filter(token => {
      const isFree = token.start >= end;
      if (isFree) ({ end } = token);
      return isFree;
    });
  });
}

function nameToken({ start, end, whole, named, defines, text }: Occurrence, { environment }: PlacedSection, roles: ReadonlyMap<number, Role>): readonly Token[] {
  const token = (type: TokenType, modifiers: readonly (TokenModifier | undefined)[]): readonly Token[] => [
    { start, end, type, modifiers: [defines ? 'declaration' as const : undefined, ...modifiers].filter(one => one !== undefined) },
  ];
  switch (named.kind) {
    case 'part':
      return token('part', []);
    case 'formula':
      return token('formula', [!defines && named.section === undefined ? 'unknown' : undefined]);
    case 'ingredient': {
      const ingredient = environment.catalogue.find(text);
      const isStarter = named.key === 'starter';
      return token('ingredient', [
        isStarter ? 'leaven' : roles.get(whole?.start ?? start) ?? ingredient?.role,
        ingredient !== undefined && builtInCatalogue.find(text) !== ingredient ? 'own' : undefined,
        ingredient === undefined && !isStarter && !defines ? 'unknown' : undefined,
      ]);
    }
    case 'file':
      return [];
  }
}

/** What `as` says, by the file offset of the name before it. */
function rolesSaid(blocks: readonly PlacedBlock[]): ReadonlyMap<number, Role> {
  const roles = new Map<number, Role>();
  for (const { block, offset } of blocks) {
    for (const { node } of everyLine(block)) {
      const line = node.kind === 'add' ? node.line : node;
      if (line.kind === 'ingredient' && line.role !== undefined) roles.set(offset + line.name.start, line.role.role);
    }
  }
  return roles;
}
