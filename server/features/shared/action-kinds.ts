/** Kinds of code actions, as an editor is told of them. */
import { CodeActionKind } from './protocol';

export const FIX_ALL = `${CodeActionKind.SourceFixAll}.proofsheet`;

/** Kinds of actions that there are; scaling is one more rewriting. */
export const ACTION_KINDS: readonly string[] = [CodeActionKind.QuickFix, FIX_ALL, CodeActionKind.RefactorRewrite, CodeActionKind.RefactorExtract];
