/** What the editor at the other end can take, read once from its `initialize`. Nothing else is offered to it. */
import type { InitializeParams, ServerCapabilities } from 'vscode-languageserver';
import { ACTION_KINDS } from '../features/shared/action-kinds';
import { LEGEND } from '../features/shared/legend';
import { PositionEncodingKind, TextDocumentSyncKind } from '../features/shared/protocol';

export interface Client {
  /** It asks for findings; otherwise they are sent. */
  readonly pullsDiagnostics: boolean;
  readonly refreshesDiagnostics: boolean;
  readonly refreshesCodeLenses: boolean;
  readonly refreshesHints: boolean;
  readonly refreshesColours: boolean;
  readonly relatedInformation: boolean;
  readonly codeDescription: boolean;
  /** It wants the version of the text beside the findings that are sent. */
  readonly diagnosticVersions: boolean;
  readonly configuration: boolean;
  readonly registersConfiguration: boolean;
  readonly registersWatchers: boolean;
  readonly workspaceFolders: boolean;
  readonly snippets: boolean;
  readonly snippetEdits: boolean;
  readonly documentChanges: boolean;
  /** It asks for the edit of an action that is chosen, and hands back what it was told of it. */
  readonly resolvesActions: boolean;
  readonly definitionLinks: boolean;
  readonly mostFolds: number;
  /** It shows a progress that the server begins. */
  readonly showsProgress: boolean;
  /** The command that opens the preview; '' when the editor has none. */
  readonly previewCommand: string;
  /** The command that asks for a size and scales the formula at the cursor; '' when the editor has none. */
  readonly scaleCommand: string;
  /** The command that asks when a formula is to be ready; '' when the editor has none. */
  readonly scheduleCommand: string;
  /** The command that compares a file with its committed version; '' when the editor has none. */
  readonly compareCommand: string;
  /** Where it can open the page of checks. */
  readonly checksPage: string | undefined;
}

export function clientOf({ capabilities, clientInfo, initializationOptions }: InitializeParams): Client {
  const { textDocument, window, workspace } = capabilities;
  return {
    pullsDiagnostics: textDocument?.diagnostic !== undefined,
    refreshesDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    refreshesCodeLenses: workspace?.codeLens?.refreshSupport === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    refreshesColours: workspace?.semanticTokens?.refreshSupport === true,
    relatedInformation: textDocument?.publishDiagnostics?.relatedInformation === true || textDocument?.diagnostic?.relatedInformation === true,
    codeDescription: textDocument?.publishDiagnostics?.codeDescriptionSupport === true || textDocument?.diagnostic?.codeDescriptionSupport === true,
    diagnosticVersions: textDocument?.publishDiagnostics?.versionSupport === true,
    configuration: workspace?.configuration === true,
    registersConfiguration: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    registersWatchers: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    workspaceFolders: workspace?.workspaceFolders === true,
    snippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    snippetEdits: workspace?.workspaceEdit?.snippetEditSupport === true,
    documentChanges: workspace?.workspaceEdit?.documentChanges === true,
    resolvesActions: textDocument?.codeAction?.dataSupport === true && textDocument.codeAction.resolveSupport?.properties.includes('edit') === true,
    definitionLinks: textDocument?.definition?.linkSupport === true,
    showsProgress: window?.workDoneProgress === true,
    mostFolds: textDocument?.foldingRange?.rangeLimit ?? Number.POSITIVE_INFINITY,
    previewCommand: optionIn(initializationOptions, 'previewCommand') ?? (clientInfo?.name.startsWith('Visual Studio Code') ? 'proofsheet.showPreview' : ''),
    scaleCommand: optionIn(initializationOptions, 'scaleCommand') ?? '',
    scheduleCommand: optionIn(initializationOptions, 'scheduleCommand') ?? '',
    compareCommand: optionIn(initializationOptions, 'compareCommand') ?? '',
    checksPage: optionIn(initializationOptions, 'checksPage'),
  };
}

function optionIn(options: unknown, name: 'previewCommand' | 'scaleCommand' | 'scheduleCommand' | 'compareCommand' | 'checksPage'): string | undefined {
  if (typeof options !== 'object' || options === null || !(name in options)) return undefined;
  const value: unknown = (options as Readonly<Record<string, unknown>>)[name];
  return typeof value === 'string' ? value : undefined;
}

/** What the server offers to this editor. */
export function offersTo({ capabilities }: InitializeParams, client: Client): ServerCapabilities {
  const { textDocument, workspace, general } = capabilities;
  return {
    ...(general?.positionEncodings?.includes(PositionEncodingKind.UTF16) && { positionEncoding: PositionEncodingKind.UTF16 }),
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
    ...(client.pullsDiagnostics && {
      diagnosticProvider: { identifier: 'proofsheet', interFileDependencies: true, workspaceDiagnostics: true, workDoneProgress: true },
    }),
    ...(textDocument?.hover && { hoverProvider: true }),
    ...(textDocument?.completion && { completionProvider: { resolveProvider: true, triggerCharacters: ['"', ' ', ','] } }),
    ...(textDocument?.definition && { definitionProvider: true }),
    ...(textDocument?.references && { referencesProvider: true }),
    ...(textDocument?.documentHighlight && { documentHighlightProvider: true }),
    ...(textDocument?.rename && { renameProvider: textDocument.rename.prepareSupport === true ? { prepareProvider: true } : true }),
    ...(textDocument?.selectionRange && { selectionRangeProvider: true }),
    ...(workspace?.symbol && { workspaceSymbolProvider: true }),
    // Without a hierarchy the outline would be a list of water, water, water.
    ...(textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport && { documentSymbolProvider: true }),
    ...(textDocument?.foldingRange && { foldingRangeProvider: true }),
    ...(textDocument?.documentLink && { documentLinkProvider: {} }),
    ...(textDocument?.codeLens && { codeLensProvider: {} }),
    ...(textDocument?.semanticTokens && { semanticTokensProvider: { legend: LEGEND, full: { delta: true }, range: true } }),
    ...(textDocument?.inlayHint && { inlayHintProvider: { resolveProvider: true } }),
    ...(textDocument?.signatureHelp && { signatureHelpProvider: { triggerCharacters: [' '] } }),
    ...(textDocument?.onTypeFormatting && { documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n' } }),
    ...(textDocument?.formatting && { documentFormattingProvider: true }),
    ...(textDocument?.rangeFormatting && { documentRangeFormattingProvider: true }),
    ...(textDocument?.codeAction?.codeActionLiteralSupport && {
      codeActionProvider: { codeActionKinds: [...ACTION_KINDS], ...(client.resolvesActions && { resolveProvider: true }) },
    }),
    ...((client.workspaceFolders || workspace?.fileOperations?.willRename) && {
      workspace: {
        ...(client.workspaceFolders && { workspaceFolders: { supported: true, changeNotifications: true } }),
        // What may take `use` lines with it when it moves.
        ...(workspace?.fileOperations?.willRename && {
          fileOperations: {
            willRename: { filters: [{ pattern: { glob: '**/*.bake', matches: 'file', options: { ignoreCase: true } } }, { pattern: { glob: '**', matches: 'folder' } }] },
          },
        }),
      },
    }),
  };
}
