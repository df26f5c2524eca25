/** A fault inside is told, is answered with nothing, and leaves everything else alone. */
import { PassThrough } from 'node:stream';
import { describe, expect, it, vi } from 'vitest';
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { analyse } from '../../server/core/analyse';
import { serve } from '../../server/connection';
import { resolvedCompletion } from '../../server/features/completion';
import { hoverAt } from '../../server/features/hover';
import { findingsOf } from '../../server/features/shared/schedule-findings';
import { oncePerKind } from '../../server/lsp/faults';
import { connectionOver } from '../../server/lsp/wire/connection';
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
vi.mock(import('../../server/features/completion'), async original => {
  const module = await original();
  return { ...module, resolvedCompletion: vi.fn(module.resolvedCompletion) };
});
vi.mock(import('../../server/features/shared/schedule-findings'), async original => {
  const module = await original();
  return { ...module, findingsOf: vi.fn(module.findingsOf) };
});

async function connected() {
  const [toServer, toClient] = [new PassThrough(), new PassThrough()];
  const faults: string[] = [];
  serve(connectionOver(new StreamMessageReader(toServer), new StreamMessageWriter(toClient), { begin: () => undefined, end: () => undefined }), {
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

  it('in what the clock says of one formula leaves the findings of the other, of one file and of all', async () => {
    const { faults, findings, client } = await connected();
    const slip = () => {
      throw new Error('a slip');
    };
    vi.mocked(findingsOf).mockImplementationOnce(slip);
    expect((await findings()).items.map(d => d.code)).toContain('comma-decimal');
    vi.mocked(findingsOf).mockImplementationOnce(slip);
    const { items } = await client.sendRequest<{ items: { items: { code: string }[] }[] }>('workspace/diagnostic', { previousResultIds: [] });
    expect(items.map(({ items: found }) => found.map(d => d.code))).toEqual([expect.arrayContaining(['comma-decimal'])]);
    expect(faults).toEqual(['findings: Error: a slip', 'findings: Error: a slip']);
  });

  it('in what is told of a completion gives the completion back', async () => {
    const { faults, client } = await connected();
    vi.mocked(resolvedCompletion).mockImplementationOnce(() => {
      throw new Error('a slip');
    });
    const item = { label: 'rye', data: { uri: 'file:///stall/a.bake' } };
    expect(await client.sendRequest('completionItem/resolve', item)).toEqual(item);
    expect(faults).toEqual(['completion: Error: a slip']);
  });

  it('is logged once for each kind', () => {
    const log: string[] = [];
    const tell = oncePerKind(text => log.push(text.split('\n')[0] ?? ''));
    const slip = (text: string): void => tell('hover', new Error(text));
    for (const text of ['first', 'second', 'third']) slip(text);
    tell('completion', new Error('elsewhere'));
    tell('hover', 'no error at all');
    expect(log).toEqual(['hover: Error: first', 'completion: Error: elsewhere', 'hover: no error at all']);
  });
});
