import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openDocument } from '../../server/src/schema/document';

const FOLDERS = ['samples', 'server/src/rules/packs'];
for (const folder of FOLDERS) {
  for (const name of readdirSync(folder).filter((file) => file.endsWith('.yaml'))) {
    test(name, () => {
      const text = readFileSync(join(folder, name), 'utf8');
      const open = openDocument(name, text);
      expect(
        open.findings.map((finding) => {
          const { start, end } = finding.place.span;
          return `${text.slice(0, start).split('\n').length}: ${text.slice(start, end)}: ${finding.rule}: ${finding.message}`;
        }),
      ).toEqual([]);
      expect(open.kind).not.toBeNull();
    });
  }
}
