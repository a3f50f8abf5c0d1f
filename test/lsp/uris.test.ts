import { describe, expect, it } from 'vitest';
import { nameOfUri, uriOfName } from '../../server/src/lsp/uris';
import { folderOf, resolvePath } from '../../server/src/workspace/paths';

describe('what a protocol calls a document, and its name', () => {
  it.each([
    ['file:///shop/a%20kit.yaml', '/shop/a kit.yaml'],
    ['file:///c%3A/shop/a.yaml', 'C:/shop/a.yaml'],
    ['file://share/shop/a.yaml', 'file://share/shop/a.yaml'],
    ['memfs:/shop/a%20kit.yaml', 'memfs:///shop/a kit.yaml'],
    ['vscode-vfs://host/owner/r%C3%A4der.yaml', 'vscode-vfs://host/owner/räder.yaml'],
    ['vscode-vfs://host%2B7b22/owner/a%23b.yaml', 'vscode-vfs://host%2B7b22/owner/a#b.yaml'],
    ['vscode-remote://127.0.0.1:8080/shop/a.yaml', 'vscode-remote://127.0.0.1:8080/shop/a.yaml'],
    ['untitled:Untitled-1', 'untitled:Untitled-1'],
    ['old:/shop/a.yaml?%7Brev%7D', 'old:/shop/a.yaml?%7Brev%7D'],
  ])('%s is %s', (uri, name) => {
    expect(nameOfUri(uri)).toBe(name);
    expect(nameOfUri(uriOfName(name))).toBe(name);
  });

  it('a path that a document writes leads from any scheme to what the editor knows', () => {
    for (const [uri, beside] of [
      ['memfs:/shop/guides/x.install.yaml', 'memfs:/shop/a%20kit.kit.yaml'],
      ['vscode-vfs://host/shop/guides/x.install.yaml', 'vscode-vfs://host/shop/a%20kit.kit.yaml'],
    ] as const) {
      const found = resolvePath(folderOf(nameOfUri(uri)), '../a kit.kit.yaml');
      expect(found).toBe(nameOfUri(beside));
      expect(uriOfName(found)).toBe(beside);
    }
  });

  it('what cannot be decoded stays as it is', () => {
    expect(nameOfUri('memfs:/shop/100%.yaml')).toBe('memfs:///shop/100%.yaml');
  });
});
