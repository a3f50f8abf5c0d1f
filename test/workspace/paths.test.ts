import { describe, expect, it } from 'vitest';
import { folderOf, nameOfPath, relativePath, resolvePath } from '../../server/src/workspace/paths';

describe('names of files', () => {
  it.each([
    ['/a/b', 'c.yaml', '/a/b/c.yaml'],
    ['/a/b', '../c.yaml', '/a/c.yaml'],
    ['/a/b', './x/./y/../c.yaml', '/a/b/x/c.yaml'],
    ['/a', '../../../c.yaml', '/c.yaml'],
    ['/', 'c.yaml', '/c.yaml'],
    ['/a/b', '/c.yaml', '/c.yaml'],
    ['/a/b', '.', '/a/b'],
    ['/a/b', '..\\kits\\c.yaml', '/a/kits/c.yaml'],
    ['C:/a/b', '../c.yaml', 'C:/a/c.yaml'],
    ['C:/a', 'd:\\kits\\c.yaml', 'D:/kits/c.yaml'],
    ['vfs://host/a/b', '../c.yaml', 'vfs://host/a/c.yaml'],
    ['vfs://host/a', '../../../c.yaml', 'vfs://host/c.yaml'],
  ])('from %s, %s is %s', (folder, written, name) => {
    expect(resolvePath(folder, written)).toBe(name);
  });

  it.each([
    ['/a/b/c.yaml', '/a/b'],
    ['/c.yaml', '/'],
    ['/', '/'],
    ['C:/c.yaml', 'C:/'],
    ['vfs://host/c.yaml', 'vfs://host/'],
    ['vfs://host/', 'vfs://host/'],
  ])('%s stands in %s', (name, folder) => {
    expect(folderOf(name)).toBe(folder);
  });

  it.each([
    ['/a/b', '/a/b/c.yaml', 'c.yaml'],
    ['/a/b', '/a/x/c.yaml', '../x/c.yaml'],
    ['/', '/a/c.yaml', 'a/c.yaml'],
    ['/a/b', '/a/b', '.'],
    ['/a/b', 'kitproof://packs/base.rules.yaml', 'kitproof://packs/base.rules.yaml'],
    ['C:/a', 'D:/a/c.yaml', 'D:/a/c.yaml'],
  ])('seen from %s, %s is %s', (folder, name, path) => {
    expect(relativePath(folder, name)).toBe(path);
  });

  it('takes paths of every system', () => {
    expect(nameOfPath('c:\\shop\\guides')).toBe('C:/shop/guides');
    expect(nameOfPath('/shop/guides')).toBe('/shop/guides');
  });
});
