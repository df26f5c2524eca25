const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 3 } };

export function serve(connection) {
  connection.onInitialize(() => ({ capabilities: { textDocumentSync: 2 } }));
  connection.onDidOpenTextDocument(({ textDocument: { uri, version } }) => {
    void connection.sendDiagnostics({ uri, version, diagnostics: [{ range, severity: 2, message: 'Hello.' }] });
  });
  connection.listen();
}
