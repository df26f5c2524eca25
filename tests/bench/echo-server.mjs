// The floor: a language server that takes every edit and publishes an empty list of findings, and does nothing else.
// What the real server needs beyond this is its own work; what this needs is the protocol's.
import { createConnection, ProposedFeatures, TextDocumentSyncKind } from 'vscode-languageserver/node';

const connection = createConnection(ProposedFeatures.all);
connection.onInitialize(() => ({ capabilities: { textDocumentSync: TextDocumentSyncKind.Incremental } }));
const answer = ({ textDocument: { uri, version } }) => void connection.sendDiagnostics({ uri, version, diagnostics: [] });
connection.onDidOpenTextDocument(answer);
connection.onDidChangeTextDocument(answer);
connection.onShutdown(() => undefined);
connection.listen();
