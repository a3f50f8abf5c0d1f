import { expect, it } from 'vitest';
import { inMemory, PUSHED } from './client';
import { FOLDER, files, GUIDE, GUIDE_URI, replacing, VEHICLE, VEHICLE_URI } from './world';

const REFRESHED = {
  ...PUSHED,
  workspace: {
    configuration: true,
    codeLens: { refreshSupport: true },
    inlayHint: { refreshSupport: true },
  },
};

const lenses = (client: ReturnType<typeof inMemory>) =>
  client.request<unknown[] | null>('textDocument/codeLens', { textDocument: { uri: GUIDE_URI } });

it('a change of settings is seen at once', async () => {
  const client = inMemory(files());
  let values: object = { lens: true };
  client.answers.set('workspace/configuration', () => [values]);
  await client.start(REFRESHED, [FOLDER]);
  await client.open(GUIDE_URI, GUIDE);
  await client.push(GUIDE_URI);
  expect(await lenses(client)).toHaveLength(1);
  client.told.length = 0;
  values = { lens: false };
  await client.connection.sendNotification('workspace/didChangeConfiguration', { settings: null });
  const asked = (method: string) => client.told.some((one) => one.method === method);
  await client.until(() => asked('workspace/codeLens/refresh'), 'refresh of lenses');
  await client.until(() => asked('workspace/inlayHint/refresh'), 'refresh of hints');
  expect(await lenses(client)).toEqual([]);
  await client.end();
});

it('an edit of the vehicle has the lenses of its guide asked for again, an edit of the guide does not', async () => {
  const client = await inMemory(files()).start(REFRESHED, [FOLDER]);
  await client.open(GUIDE_URI, GUIDE);
  await client.open(VEHICLE_URI, VEHICLE);
  await client.push(VEHICLE_URI);
  await client.push(GUIDE_URI);
  await client.request('textDocument/documentSymbol', { textDocument: { uri: GUIDE_URI } });
  client.told.length = 0;
  const count = () => client.told.filter(({ method }) => method === 'workspace/codeLens/refresh').length;
  const version = await client.change(GUIDE_URI, replacing(GUIDE, 'bolt-up: bracket', 'bolt-up: braket'));
  await client.push(GUIDE_URI, (push) => push.version === version);
  expect(count()).toBe(0);
  await client.change(VEHICLE_URI, replacing(VEHICLE, 'mass: 2 kg', 'mass: 3 kg'));
  await client.until(() => count() > 0, 'refresh of lenses');
  await client.end();
});

it('a client that cannot be told is not', async () => {
  const client = await inMemory(files()).start(PUSHED, [FOLDER]);
  await client.open(GUIDE_URI, GUIDE);
  await client.push(GUIDE_URI);
  await client.connection.sendNotification('workspace/didChangeConfiguration', {
    settings: { kitproof: {} },
  });
  await lenses(client);
  expect(client.told.filter(({ method }) => method.endsWith('/refresh'))).toEqual([]);
  await client.end();
});
