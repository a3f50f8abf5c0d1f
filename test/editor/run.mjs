/**
 * `npm run test:editor`: packs the extension, and drives the real editor with it. Where this machine lacks a browser the
 * test is not run, which is said; where CI is set that is a failure.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { say, tool } from '../../server/scripts/house.mjs';
import { packageExtension } from '../../server/scripts/package.mjs';
import { missingPrograms, prepareWorkbench, workbench, workbenchIsThere } from './prepare.mjs';

/** The whole journey is tried once more where it fails: a browser on a busy machine may be late. */
const TRIES = 2;

/** What keeps the test from being run here, in words; null where it can be run. */
export function editorTestLacks() {
  const missing = missingPrograms();
  if (missing.length > 0)
    return `for the test in the real editor: ${missing.join(' and ')} (apt-get install --no-install-recommends ${missing.join(' ')} fonts-dejavu-core)`;
  if (!workbenchIsThere() && !process.env.CI)
    return "for the test in the real editor: the editor's workbench (npm run test:editor fetches it, 42 MB, once)";
  return null;
}

/** Runs the test and gives its exit status. */
export async function runEditorTest(reporters = []) {
  const folder = mkdtempSync(join(tmpdir(), 'kitproof-editor-'));
  try {
    prepareWorkbench();
    const vsix = await packageExtension(join(folder, 'kitproof.vsix'));
    const env = { ...process.env, KITPROOF_VSIX: vsix, KITPROOF_WORKBENCH: workbench };
    for (let left = TRIES; left > 0; left--) {
      const words = ['run', '--config', 'test/editor/vitest.config.ts', ...reporters];
      const status = tool('node_modules/vitest/vitest.mjs', words, { env });
      if (status === 0 || left === 1) return status;
      say('The journey in the editor failed; it is tried once more');
    }
    return 1;
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    return 1;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const missing = missingPrograms();
  if (missing.length === 0) process.exitCode = await runEditorTest();
  else {
    say(`THIS MACHINE LACKS ${editorTestLacks()}`);
    process.exitCode = process.env.CI ? 1 : 0;
  }
}
