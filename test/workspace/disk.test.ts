import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { diskFiles } from '../../server/src/workspace/disk';
import { memoryFiles } from '../../server/src/workspace/memory';
import { nameOfPath } from '../../server/src/workspace/paths';
import type { Files } from '../../server/src/workspace/port';
import { filesBelow } from '../../server/src/workspace/scan';

const CONTENTS = { 'a.yaml': 'a: é\n', 'sub/b.yaml': 'b: 1\n', 'sub/deep/c.yml': '', 'sub/note.txt': 'x' };

let root: string;
beforeAll(() => {
  root = nameOfPath(mkdtempSync(join(tmpdir(), 'kitproof-disk-')));
  for (const [path, text] of Object.entries(CONTENTS)) {
    mkdirSync(join(root, path, '..'), { recursive: true });
    writeFileSync(join(root, path), text);
  }
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

describe('the port to files', () => {
  const sides: [string, () => Files][] = [
    ['disk', () => diskFiles],
    [
      'memory',
      () => memoryFiles(new Map(Object.entries(CONTENTS).map(([path, text]) => [`${root}/${path}`, text]))),
    ],
  ];
  it.each(sides)('%s answers alike', async (_, make) => {
    const files = make();
    expect(await files.read(`${root}/a.yaml`)).toBe('a: é\n');
    expect(await files.read(`${root}/none.yaml`)).toBeNull();
    expect(await files.read(`${root}/sub`)).toBeNull();
    expect(await files.kind(`${root}/a.yaml`)).toBe('file');
    expect(await files.kind(`${root}/sub`)).toBe('folder');
    expect(await files.kind(`${root}/none`)).toBeNull();
    expect(await files.list(`${root}/sub`)).toEqual([
      { name: 'b.yaml', kind: 'file' },
      { name: 'deep', kind: 'folder' },
      { name: 'note.txt', kind: 'file' },
    ]);
    expect(await files.list(`${root}/a.yaml`)).toEqual([]);
    expect(await filesBelow(files, root)).toEqual(
      ['a.yaml', 'sub/b.yaml', 'sub/deep/c.yml'].map((path) => `${root}/${path}`),
    );
  });

  it.skipIf(process.platform === 'win32')(
    'a link that leads back up is not followed, one to a file is',
    async () => {
      symlinkSync(root, join(root, 'sub/up'));
      symlinkSync(join(root, 'a.yaml'), join(root, 'sub/z.yaml'));
      expect(await filesBelow(diskFiles, root)).toEqual(
        ['a.yaml', 'sub/b.yaml', 'sub/deep/c.yml', 'sub/z.yaml'].map((path) => `${root}/${path}`),
      );
    },
  );
});
