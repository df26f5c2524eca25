/** What colours there are to tell an editor of, in the order in which they are numbered. */
import type { SemanticTokensLegend } from 'vscode-languageserver';
import { ROLES } from '../../../grammar/tree';
import type { Role } from '../../../grammar/tree';
import type { PieceKind } from './pieces';
import { SemanticTokenModifiers, SemanticTokenTypes } from './protocol';

export type TokenType = PieceKind | 'ingredient' | 'part' | 'formula';
export type TokenModifier = 'declaration' | 'own' | 'unknown' | Role;

const { keyword, property, function: step, macro, modifier, number, enumMember, string, comment } = SemanticTokenTypes;
export const TYPES: readonly TokenType[] = [keyword, property, step, macro, modifier, number, enumMember, string, comment, 'unit', 'role', 'ingredient', 'part', 'formula'];
/** `own`: described by an `ingredient` block. `unknown`: nobody knows what it is. A role says what an ingredient does. */
export const MODIFIERS: readonly TokenModifier[] = [SemanticTokenModifiers.declaration, 'own', 'unknown', ...ROLES];

export const LEGEND: SemanticTokensLegend = { tokenTypes: [...TYPES], tokenModifiers: [...MODIFIERS] };
