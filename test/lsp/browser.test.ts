import { resolve } from 'node:path';
import { build } from 'esbuild';
import { expect, it } from 'vitest';

it('a session knows nothing of node, so that a browser worker can host it', async () => {
  const bundled = await build({
    absWorkingDir: resolve(import.meta.dirname, '../..'),
    entryPoints: ['server/src/lsp/session.ts'],
    bundle: true,
    // For a browser, any import of what only node has is an error.
    platform: 'browser',
    format: 'esm',
    write: false,
    metafile: true,
    loader: { '.yaml': 'text' },
    logLevel: 'silent',
  });
  expect(bundled.errors).toEqual([]);
  const inputs = Object.keys(bundled.metafile.inputs);
  expect(inputs.length).toBeGreaterThan(100);
  expect(inputs.filter((name) => name.includes('/lib/node/'))).toEqual([]);
});
