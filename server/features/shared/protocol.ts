/**
 * The numbers and words of the Language Server Protocol 3.18 that are used here, by the names that its library gives them. The
 * library's own come with all the rest of it, which is more than the parser; a test holds these against them.
 */
import type * as library from 'vscode-languageserver';

export const MarkupKind = { Markdown: 'markdown' } as const;
export const DiagnosticSeverity = { Error: 1, Warning: 2, Information: 3 } as const;
export type DiagnosticSeverity = library.DiagnosticSeverity;
export const DocumentDiagnosticReportKind = { Full: 'full', Unchanged: 'unchanged' } as const;
export const DocumentHighlightKind = { Read: 2, Write: 3 } as const;
export const FoldingRangeKind = { Comment: 'comment' } as const;
export type FoldingRangeKind = library.FoldingRangeKind;
export const InlayHintKind = { Type: 1 } as const;
export const InsertTextFormat = { Snippet: 2 } as const;
export const SignatureHelpTriggerKind = { TriggerCharacter: 2 } as const;

export const CompletionItemKind = {
  Variable: 6, Class: 7, Module: 9, Property: 10, Unit: 11, Value: 12, Keyword: 14, File: 17, EnumMember: 20, Event: 23,
} as const;
export type CompletionItemKind = library.CompletionItemKind;

export const SymbolKind = { File: 1, Module: 2, Class: 5, Property: 7, Field: 8, Function: 12, Constant: 14, Event: 24 } as const;
export type SymbolKind = library.SymbolKind;

export const CodeActionKind = {
  QuickFix: 'quickfix', RefactorExtract: 'refactor.extract', RefactorRewrite: 'refactor.rewrite', SourceFixAll: 'source.fixAll',
} as const;
export const CodeActionTriggerKind = { Automatic: 2 } as const;

export const SemanticTokenTypes = {
  keyword: 'keyword', property: 'property', function: 'function', macro: 'macro', modifier: 'modifier', number: 'number',
  enumMember: 'enumMember', string: 'string', comment: 'comment',
} as const;
export const SemanticTokenModifiers = { declaration: 'declaration' } as const;

export const PositionEncodingKind = { UTF16: 'utf-16' } as const;
export const TextDocumentSyncKind = { Incremental: 2 } as const;
export const FileChangeType = { Created: 1, Changed: 2, Deleted: 3 } as const;
export const WatchKind = { Create: 1, Delete: 4 } as const;
export const MessageType = { Error: 1, Warning: 2, Info: 3 } as const;
export const LSPErrorCodes = { RequestFailed: -32803, ServerCancelled: -32802, ContentModified: -32801, RequestCancelled: -32800 } as const;
