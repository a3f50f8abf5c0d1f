import { expect, it } from 'vitest';
import { inMemory, PUSHED } from './client';
import { FOLDER, files, GUIDE, GUIDE_URI, VEHICLE } from './world';

const WRONG = GUIDE.replace('bolt-up: bracket', 'bolt-up: braket');
const codes = (found: readonly { code?: unknown }[]) => found.map(({ code }) => code);

it('checks what is in two folders, each with its own settings, and forgets one that is closed', async () => {
  const contents = files({
    '/shop/bracket.install.yaml': WRONG,
    '/other/.git': '',
    '/other/kitproof.yaml': 'kitproof: config/1\nignore: [draft.install.yaml]\n',
    '/other/two.install.yaml': WRONG,
    '/other/draft.install.yaml': WRONG,
    '/other/moorhen.vehicle.yaml': VEHICLE,
  });
  const client = await inMemory(contents).start({ ...PUSHED, workspace: { workspaceFolders: true } }, [
    FOLDER,
    'file:///other',
  ]);
  expect(codes(await client.push(GUIDE_URI))).toContain('unknown-name');
  const two = 'file:///other/two.install.yaml';
  expect(codes(await client.push(two))).toContain('unknown-name');
  expect(client.pushes.some(({ uri }) => uri.endsWith('draft.install.yaml'))).toBe(false);
  await client.connection.sendNotification('workspace/didChangeWorkspaceFolders', {
    event: { added: [], removed: [{ uri: 'file:///other', name: 'other' }] },
  });
  expect(await client.push(two, ({ diagnostics }) => diagnostics.length === 0)).toEqual([]);
  await client.end();
});

it('follows settings that come, change and go', async () => {
  const contents = files({
    '/shop/bracket.install.yaml': GUIDE.replace(
      '- loosen: bracket.bolt\n          - unbolt: bracket',
      '- remove: bracket.bolt\n          - remove: bracket',
    ),
  });
  const client = await inMemory(contents).start(PUSHED, [FOLDER]);
  const settings = 'file:///shop/kitproof.yaml';
  const tell = (type: number) =>
    client.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: settings, type }],
    });
  await client.open(GUIDE_URI, contents.get('/shop/bracket.install.yaml')!);
  expect(await client.push(GUIDE_URI)).toEqual([]);
  contents.set('/shop/kitproof.yaml', 'kitproof: config/1\nstrict-loosening: true\n');
  await tell(1);
  expect(codes(await client.push(GUIDE_URI, ({ diagnostics }) => diagnostics.length > 0))).toContain(
    'loosen-before-remove',
  );
  // While it is open, what the editor says counts.
  await client.open(settings, 'kitproof: config/1\nrules: { loosen-before-remove: off }\n');
  await client.push(GUIDE_URI, ({ diagnostics }) => diagnostics.length === 0);
  await client.close(settings);
  await client.push(GUIDE_URI, ({ diagnostics }) => diagnostics.length > 0);
  contents.delete('/shop/kitproof.yaml');
  await tell(3);
  expect(await client.push(GUIDE_URI, ({ diagnostics }) => diagnostics.length === 0)).toEqual([]);
  await client.end();
});

it('follows files that come and go outside', async () => {
  const contents = files({ '/shop/bracket.install.yaml': GUIDE });
  contents.delete('/shop/moorhen.vehicle.yaml');
  const client = await inMemory(contents).start(PUSHED, [FOLDER]);
  expect(codes(await client.push(GUIDE_URI))).toContain('missing-file');
  contents.set('/shop/moorhen.vehicle.yaml', VEHICLE);
  const vehicle = 'file:///shop/moorhen.vehicle.yaml';
  await client.connection.sendNotification('workspace/didChangeWatchedFiles', {
    changes: [{ uri: vehicle, type: 1 }],
  });
  expect(await client.push(GUIDE_URI, ({ diagnostics }) => diagnostics.length === 0)).toEqual([]);
  contents.delete('/shop/bracket.install.yaml');
  contents.delete('/shop/moorhen.vehicle.yaml');
  await client.connection.sendNotification('workspace/didChangeWatchedFiles', {
    changes: [
      { uri: vehicle, type: 3 },
      { uri: GUIDE_URI, type: 3 },
    ],
  });
  expect(await client.push(GUIDE_URI, ({ diagnostics }) => diagnostics.length === 0)).toEqual([]);
  await client.end();
});

it('shows progress of the first check, watches files and takes settings, where the client can', async () => {
  const client = inMemory(files({ '/shop/bracket.install.yaml': WRONG }));
  client.answers.set('workspace/configuration', () => [{ lens: false }]);
  await client.start(
    {
      ...PUSHED,
      window: { workDoneProgress: true },
      workspace: { configuration: true, didChangeWatchedFiles: { dynamicRegistration: true } },
    },
    [FOLDER],
  );
  await client.push(GUIDE_URI);
  await client.until(
    () => client.told.some(({ method }) => method === 'client/registerCapability'),
    'registration',
  );
  const told = client.told.map(({ method }) => method);
  expect(told).toContain('window/workDoneProgress/create');
  const steps = client.told.filter(({ method }) => method === '$/progress');
  expect(steps.map(({ parameters }) => (parameters as { value: { kind: string } }).value.kind)).toContain(
    'end',
  );
  expect(await client.request('textDocument/codeLens', { textDocument: { uri: GUIDE_URI } })).toEqual([]);
  client.answers.set('workspace/configuration', () => [{ lens: true }]);
  await client.connection.sendNotification('workspace/didChangeConfiguration', { settings: {} });
  await client.until(
    () => client.told.filter(({ method }) => method === 'workspace/configuration').length > 1,
    'ask',
  );
  await new Promise((resolve) => setTimeout(resolve, 50));
  expect(await client.request('textDocument/codeLens', { textDocument: { uri: GUIDE_URI } })).not.toEqual([]);
  await client.end();
});

it('leaves the workspace alone where the writer wants that', async () => {
  const client = inMemory(files({ '/shop/bracket.install.yaml': WRONG }));
  await client.start(PUSHED, [FOLDER], { initializationOptions: { checkWorkspace: false } });
  const other = 'file:///shop/open.install.yaml';
  await client.open(other, WRONG);
  expect(codes(await client.push(other))).toContain('unknown-name');
  expect(client.pushes.some(({ uri }) => uri === GUIDE_URI)).toBe(false);
  await client.close(other);
  expect(await client.push(other, ({ diagnostics }) => diagnostics.length === 0)).toEqual([]);
  await client.end();
});
