import { PassThrough } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { wholeMessages } from '../../server/lsp/whole-messages';

describe('messages', () => {
  it('are written each in one piece, and read as they were sent', async () => {
    const output = new PassThrough();
    const pieces: string[] = [];
    output.on('data', (piece: Buffer) => void pieces.push(piece.toString('utf8')));
    const sent = [{ jsonrpc: '2.0', method: 'a' }, { jsonrpc: '2.0', method: 'Content-Length: 3\r\n\r\n' }, { jsonrpc: '2.0', method: 'é 漢 👩‍🍳' }];
    const writer = new StreamMessageWriter(wholeMessages(output));
    for (const message of sent) await writer.write(message);
    expect(pieces).toHaveLength(sent.length);

    const input = new PassThrough();
    const heard: unknown[] = [];
    new StreamMessageReader(input).listen(message => void heard.push(message));
    for (const piece of pieces) input.write(piece);
    await new Promise(resolve => setImmediate(() => setImmediate(resolve)));
    expect(heard).toEqual(sent);
  });
});
