import { chmod, mkdtemp, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { describe, expect, test } from 'vitest';
import { guidePage } from '../../server/src/guide/page/page';
import { NoBrowser, PrintFailed, printPdf } from '../../server/src/workspace/print-pdf';
import { printedSample } from '../guide/printed';

const hasBrowser = await printPdf('<p>x', process.env).then(
  () => true,
  () => false,
);

describe('a PDF', () => {
  test('cannot be had without a browser, and the sentence says what to do', async () => {
    await expect(printPdf('<p>x', { PATH: '/nowhere' })).rejects.toThrow(NoBrowser);
    await expect(printPdf('<p>x', { PATH: '/nowhere' })).rejects.toThrow('KITPROOF_BROWSER');
  });

  test('is not had from a program that is none, nor from one that prints nothing', async () => {
    await expect(printPdf('<p>x', { KITPROOF_BROWSER: '/nowhere/browser' })).rejects.toThrow(PrintFailed);
    const folder = await mkdtemp(join(tmpdir(), 'kitproof-test-'));
    const silent = join(folder, 'silent');
    await writeFile(silent, '#!/bin/sh\nexit 0\n');
    await chmod(silent, 0o755);
    await expect(printPdf('<p>x', { KITPROOF_BROWSER: silent })).rejects.toThrow('wrote no PDF');
    await writeFile(silent, '#!/bin/sh\nexit 7\n');
    await expect(printPdf('<p>x', { KITPROOF_BROWSER: silent })).rejects.toThrow('could not print');
  });

  // CI installs Chromium for the editor's tests; elsewhere it may not be there.
  test.skipIf(!hasBrowser && process.env.CI === undefined)(
    'of a guide is tagged, has bookmarks and can be searched',
    async () => {
      const guide = await printedSample('upland-50');
      const bytes = await printPdf(guidePage(guide, { paper: 'a4', pictures: new Map() }), process.env);
      const text = Buffer.from(bytes).toString('latin1');
      expect(text.startsWith('%PDF-')).toBe(true);
      expect(text).toMatch(/\/MarkInfo\s*<<[^>]*\/Marked true/);
      expect(text).toContain('/StructTreeRoot');
      expect(text).toContain('/Outlines');
      expect(text).toContain('/ToUnicode');
      expect(text.match(/\/Type\s*\/Page\b/g)?.length).toBeGreaterThan(10);
    },
    60_000,
  );
});
