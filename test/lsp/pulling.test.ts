import { expect, it } from 'vitest';
import type {
  DocumentDiagnosticReport,
  RelatedFullDocumentDiagnosticReport,
  WorkspaceDiagnosticReport,
} from 'vscode-languageserver/node.js';
import { CancellationTokenSource } from 'vscode-languageserver/node.js';
import { type Client, inMemory, PULLING, PUSHED } from './client';
import { FOLDER, files, GUIDE, GUIDE_URI, replacing, VEHICLE, VEHICLE_URI } from './world';

const pull = (client: Client, uri: string, previousResultId?: string) =>
  client.request<DocumentDiagnosticReport>('textDocument/diagnostic', {
    textDocument: { uri },
    previousResultId,
  });

const all = (client: Client, previousResultIds: object[] = []) =>
  client.request<WorkspaceDiagnosticReport>('workspace/diagnostic', { previousResultIds });

const codes = (report: DocumentDiagnosticReport) =>
  (report as RelatedFullDocumentDiagnosticReport).items.map(({ code }) => code);

const WRONG = GUIDE.replace('bolt-up: bracket', 'bolt-up: braket');

it('is announced to a client that pulls, and to no other', async () => {
  const pulling = await inMemory(files()).start(PULLING);
  expect(pulling.initialized.capabilities.diagnosticProvider).toEqual({
    identifier: 'kitproof',
    interFileDependencies: true,
    workspaceDiagnostics: true,
  });
  expect(pulling.initialized.capabilities.textDocumentSync).toMatchObject({ openClose: true, change: 2 });
  expect(pulling.initialized.capabilities.workspace).toMatchObject({ workspaceFolders: { supported: true } });
  await pulling.end();
  const pushed = await inMemory(files()).start(PUSHED);
  expect(pushed.initialized.capabilities.diagnosticProvider).toBeUndefined();
  await pushed.end();
});

it('gives what is found, then that nothing changed; nothing is ever pushed', async () => {
  const client = await inMemory(files()).start(PULLING, [FOLDER]);
  await client.open(GUIDE_URI, WRONG);
  const first = await pull(client, GUIDE_URI);
  expect(codes(first)).toContain('unknown-name');
  expect(await pull(client, GUIDE_URI, first.resultId)).toEqual({
    kind: 'unchanged',
    resultId: first.resultId,
  });
  await client.change(GUIDE_URI, replacing(WRONG, 'braket', 'bracket'));
  const second = await pull(client, GUIDE_URI, first.resultId);
  expect(codes(second)).toEqual([]);
  expect(second.resultId).not.toBe(first.resultId);
  expect(client.pushes).toEqual([]);
  await client.end();
});

it('follows an edit in another file', async () => {
  const client = await inMemory(files()).start(PULLING, [FOLDER]);
  await client.open(GUIDE_URI, GUIDE);
  await client.open(VEHICLE_URI, VEHICLE);
  const before = await pull(client, GUIDE_URI);
  expect(codes(before)).toEqual([]);
  await client.change(VEHICLE_URI, replacing(VEHICLE, '  bracket: {', '  breket: {'));
  expect(codes(await pull(client, GUIDE_URI, before.resultId))).toContain('unknown-name');
  await client.end();
});

it('covers the whole workspace, once, with result ids', async () => {
  const client = await inMemory(files({ '/shop/bracket.install.yaml': WRONG })).start(PULLING, [FOLDER]);
  const first = await all(client);
  expect(first.items.map(({ uri, kind }) => [uri, kind])).toEqual([[GUIDE_URI, 'full']]);
  const previous = first.items.map(({ uri, resultId }) => ({ uri, value: resultId! }));
  expect((await all(client, previous)).items.map(({ kind }) => kind)).toEqual(['unchanged']);
  await client.open(GUIDE_URI, GUIDE);
  const [third] = (await all(client, previous)).items;
  expect(third).toMatchObject({ kind: 'full', items: [], version: 1 });
  await client.end();
});

it('asks the client to pull again when files change outside', async () => {
  const contents = files();
  const client = await inMemory(contents).start(PULLING, [FOLDER]);
  await client.open(GUIDE_URI, GUIDE);
  await all(client);
  expect(codes(await pull(client, GUIDE_URI))).toEqual([]);
  const before = client.told.filter(({ method }) => method === 'workspace/diagnostic/refresh').length;
  contents.set('/shop/moorhen.vehicle.yaml', VEHICLE.replace('  bracket: {', '  breket: {'));
  await client.connection.sendNotification('workspace/didChangeWatchedFiles', {
    changes: [{ uri: VEHICLE_URI, type: 2 }],
  });
  await client.until(
    () => client.told.filter(({ method }) => method === 'workspace/diagnostic/refresh').length > before,
    'refresh',
  );
  expect(codes(await pull(client, GUIDE_URI))).toContain('unknown-name');
  await client.end();
});

it('gives up when the client does', async () => {
  const client = await inMemory(files()).start(PULLING, [FOLDER]);
  await client.open(GUIDE_URI, GUIDE);
  const source = new CancellationTokenSource();
  const asked = client.connection.sendRequest(
    'textDocument/diagnostic',
    { textDocument: { uri: GUIDE_URI } },
    source.token,
  );
  source.cancel();
  await expect(asked).rejects.toMatchObject({ code: -32800 });
  expect(codes(await pull(client, GUIDE_URI))).toEqual([]);
  await client.end();
});

it('knows nothing of a file that is not ours or not there', async () => {
  const client = await inMemory(files()).start(PULLING, [FOLDER]);
  expect(codes(await pull(client, 'file:///shop/none.yaml'))).toEqual([]);
  expect(codes(await pull(client, 'untitled:Untitled-1'))).toEqual([]);
  await client.end();
});
