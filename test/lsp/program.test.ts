import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
// @ts-expect-error: a script without types.
import { bundle } from '../../esbuild.mjs';
import { inProcess, PUSHED } from './client';
import { GUIDE, VEHICLE } from './world';

let folder: string;
let program: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'kitproof-server-'));
  program = await bundle(join(folder, 'bundle'));
  writeFileSync(join(folder, 'bracket.install.yaml'), GUIDE.replace('unbolt: bracket', 'unbolt: braket'));
  writeFileSync(join(folder, 'moorhen.vehicle.yaml'), VEHICLE);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('is run by the command, over files of the disk, and ends with the editor', async () => {
  const { client, child } = inProcess(program);
  const errors: string[] = [];
  child.stderr!.on('data', (data) => errors.push(String(data)));
  await client.start(PUSHED, [pathToFileURL(folder).href]);
  expect(client.initialized.serverInfo?.name).toBe('kitproof');
  const uri = pathToFileURL(join(folder, 'bracket.install.yaml')).href;
  const found = await client.push(uri);
  expect(found.map(({ code }) => code)).toContain('unknown-name');
  await client.end();
  expect(child.exitCode).toBe(0);
  expect(errors.join('')).toBe('');
});
