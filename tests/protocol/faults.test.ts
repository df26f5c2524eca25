/** A fault inside is told, is answered with nothing, and leaves everything else alone. */
import { PassThrough } from 'node:stream';
import { describe, expect, it, vi } from 'vitest';
import { createConnection, createProtocolConnection, ProposedFeatures, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { analyse } from '../../server/core/analyse';
import { serve } from '../../server/connection';
import { hoverAt } from '../../server/features/hover';
import { RYE } from '../features/marked';
import { FULL } from './editor';

vi.mock(import('../../server/core/analyse'), async original => {
  const module = await original();
  return { ...module, analyse: vi.fn(module.analyse) };
});
vi.mock(import('../../server/features/hover'), async original => {
  const module = await original();
  return { ...module, hoverAt: vi.fn(module.hoverAt) };
});

async function connected() {
  const [toServer, toClient] = [new PassThrough(), new PassThrough()];
  const faults: string[] = [];
  serve(createConnection(ProposedFeatures.all, new StreamMessageReader(toServer), new StreamMessageWriter(toClient)), {
    reader: { read: () => Promise.resolve(undefined) },
    onFault: (where, fault) => faults.push(`${where}: ${String(fault)}`),
  });
  const client = createProtocolConnection(new StreamMessageReader(toClient), new StreamMessageWriter(toServer));
  client.listen();
  await client.sendRequest('initialize', { processId: null, rootUri: null, capabilities: { textDocument: FULL.textDocument } });
  await client.sendNotification('initialized', {});
  const textDocument = { uri: 'file:///stall/a.bake', languageId: 'proofsheet', version: 1, text: `${RYE}\n${RYE.replace('Fig and walnut rye', 'Other').replace('600 g', '2,5 g')}` };
  await client.sendNotification('textDocument/didOpen', { textDocument });
  const position = { line: 0, character: 12 };
  return { faults, client, hover: () => client.sendRequest('textDocument/hover', { textDocument, position }), findings: () => client.sendRequest<{ items: { code: string }[] }>('textDocument/diagnostic', { textDocument }) };
}

describe('a fault', () => {
  it('in a feature is told, and the next request is answered', async () => {
    const { faults, hover } = await connected();
    vi.mocked(hoverAt).mockImplementationOnce(() => {
      throw new Error('a slip');
    });
    expect(await hover()).toBeNull();
    expect(faults).toEqual(['hover: Error: a slip']);
    expect(await hover()).not.toBeNull();
  });

  it('in the analysis of one formula leaves the findings of the other', async () => {
    const { faults, findings } = await connected();
    vi.mocked(analyse).mockImplementationOnce(() => {
      throw new Error('a slip');
    });
    expect((await findings()).items.map(d => d.code)).toContain('comma-decimal');
    expect(faults).toEqual(['check analysis: Error: a slip']);
  });
});
