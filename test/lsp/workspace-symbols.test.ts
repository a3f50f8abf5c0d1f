import { expect, it } from 'vitest';
import type { WorkspaceSymbol } from 'vscode-languageserver/node.js';
import { inMemory, PUSHED } from './client';
import { FOLDER, files } from './world';

it('finds what is declared in all files by letters in their order', async () => {
  const client = await inMemory(files()).start(PUSHED, [FOLDER]);
  const ask = async (query: string) =>
    (await client.request<WorkspaceSymbol[]>('workspace/symbol', { query })).map(
      ({ name, containerName }) => `${containerName}: ${name}`,
    );
  expect(await ask('rshock')).toEqual([
    'moorhen.vehicle.yaml: rear-shock',
    'moorhen.vehicle.yaml: rear-shock.top-nut',
    'moorhen.vehicle.yaml: rear-shock.lower-bolt',
  ]);
  expect(await ask('OFF')).toEqual(['bracket.install.yaml: off']);
  expect(await ask('no such thing')).toEqual([]);
  expect((await ask('')).length).toBeGreaterThan(8);
  await client.end();
});
