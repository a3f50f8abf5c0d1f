/** Takes the README's pictures of the printed guide anew: two pages of a sample's PDF. Needs `dist/`, Chromium and Debian's `poppler-utils`. */

import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const folder = mkdtempSync(join(tmpdir(), 'kitproof-pages-'));
const pdf = join(folder, 'guide.pdf');
const run = (program, ...words) => execFileSync(program, words, { encoding: 'utf8' });
run('node', 'dist/cli.js', 'guide', 'samples/upland-50.install.yaml', '--pdf', pdf);
const pages = run('pdftotext', '-layout', pdf, '-').split('\f');
for (const [name, words] of [
  ['printed-steps', 'Figure 4.2'],
  ['printed-torques', 'As their steps come'],
]) {
  const page = String(pages.findIndex((text) => text.includes(words)) + 1);
  run(
    'pdftoppm',
    '-r',
    '84',
    '-f',
    page,
    '-l',
    page,
    '-png',
    '-singlefile',
    pdf,
    join('client', 'pictures', name),
  );
}
rmSync(folder, { recursive: true });
