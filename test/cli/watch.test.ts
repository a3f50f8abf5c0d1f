import { mkdirSync, mkdtempSync, realpathSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { diskFiles } from '../../server/src/workspace/disk';
import { nameOfPath } from '../../server/src/workspace/paths';
import { kitproof } from './program';
import { GUIDE, VEHICLE } from './reporters/support';

let shop: string;
beforeEach(() => {
  shop = nameOfPath(realpathSync(mkdtempSync(join(tmpdir(), 'kitproof-watch-'))));
  write({ '.git': '', 'guides/b.install.yaml': GUIDE, 'guides/moorhen.vehicle.yaml': VEHICLE });
});
afterEach(() => rmSync(shop, { recursive: true, force: true }));

function write(files: Readonly<Record<string, string>>): void {
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(join(shop, path, '..'), { recursive: true });
    writeFileSync(join(shop, path), text);
  }
}

/** Saves as editors do that never leave half a file: a new one in the place of the old. */
function replace(path: string, text: string): void {
  write({ [`${path}~`]: text });
  renameSync(join(shop, `${path}~`), join(shop, path));
}

/** A watch that runs, until it is interrupted. */
function watching(words: readonly string[] = ['guides'], terminal = false) {
  let all = '';
  let taken = 0;
  let interrupt = (): void => {};
  const say = (text: string) => {
    all += text;
  };
  const io = {
    files: diskFiles,
    folder: shop,
    out: say,
    err: say,
    outIsTerminal: terminal,
    untilInterrupted: () =>
      new Promise<void>((resolve) => {
        interrupt = resolve;
      }),
  };
  const done = kitproof(['check', '--watch', '--color', 'never', ...words], { io });
  return {
    done,
    interrupt: () => interrupt(),
    /** What the next check says, once it is through. */
    async next(): Promise<string> {
      const isThere = () => all.indexOf('Ctrl-C ends.', taken);
      while (isThere() < 0) await new Promise((resolve) => setTimeout(resolve, 10));
      const said = all.slice(taken, isThere());
      taken = isThere() + 'Ctrl-C ends.'.length;
      return said;
    },
    get all() {
      return all;
    },
  };
}

describe('a check that watches', () => {
  it('checks again what changes, however it is saved, and ends when it is interrupted', async () => {
    const watch = watching();
    expect(await watch.next()).toContain('2 errors in 2 files.');
    const better = GUIDE.replace('brackett', 'bracket');
    replace('guides/b.install.yaml', better);
    let said = await watch.next();
    expect(said).toContain('1 error in 2 files.');
    expect(said).toContain('Checked anew: guides/b.install.yaml changed. Watching 2 files;');
    write({ 'guides/b.install.yaml': GUIDE });
    expect(await watch.next()).toContain('2 errors in 2 files.');
    write({ 'guides/moorhen.vehicle.yaml': VEHICLE.replace('bracket:', 'brackett:') });
    said = await watch.next();
    expect(said).toContain('guides/moorhen.vehicle.yaml changed.');
    expect(said).not.toContain('Neither vehicle nor kit has "brackett"');
    watch.interrupt();
    expect((await watch.done).status).toBe(0);
  });

  it('sees files and folders come and go', async () => {
    const watch = watching();
    await watch.next();
    write({ 'guides/more/deep/c.install.yaml': GUIDE });
    expect(await watch.next()).toContain('guides/more/deep/c.install.yaml:3:10');
    renameSync(join(shop, 'guides/more'), join(shop, 'guides/other'));
    let said = await watch.next();
    while (!said.includes('guides/other/deep/c.install.yaml:3:10')) said = await watch.next();
    rmSync(join(shop, 'guides/other'), { recursive: true });
    said = await watch.next();
    while (!said.includes('in 2 files.')) said = await watch.next();
    rmSync(join(shop, 'guides'), { recursive: true });
    said = await watch.next();
    while (!said.includes('kitproof: ')) said = await watch.next();
    write({ 'guides/b.install.yaml': GUIDE });
    said = await watch.next();
    while (!said.includes('in 1 file.')) said = await watch.next();
    watch.interrupt();
    await watch.done;
    expect(watch.all).not.toMatch(/\n {4}at |internal fault/);
  });

  it('sees what stands elsewhere and is read, or looked for', async () => {
    write({ 'guides/b.install.yaml': GUIDE.replace('vehicle: ', 'vehicle: ../vehicles/') });
    const watch = watching(['guides/b.install.yaml']);
    expect(await watch.next()).toContain('There is no vehicle file');
    write({ 'guides/other.install.yaml': GUIDE, 'top.install.yaml': GUIDE });
    write({ 'vehicles/moorhen.vehicle.yaml': VEHICLE });
    let said = await watch.next();
    expect(said).toContain('2 errors in 1 file.');
    expect(said).toContain('Checked anew: vehicles/moorhen.vehicle.yaml changed.');
    write({ 'kitproof.yaml': 'kitproof: config/1\nrules: { left-loose: off }\n' });
    said = await watch.next();
    expect(said).toContain('kitproof.yaml changed.');
    expect(said).not.toContain('left-loose');
    watch.interrupt();
    await watch.done;
  });

  it('leaves alone what says nothing to it, and begins each time on a clear screen', async () => {
    const watch = watching(['.', '--format', 'text', '--format', 'json=report.json'], true);
    expect(await watch.next()).not.toContain('\u001b');
    write({ 'guides/other.yaml': 'a: 1\n', 'guides/note.txt': 'x', 'guides/.hidden/x.install.yaml': GUIDE });
    write({ 'guides/b.install.yaml': GUIDE });
    replace('guides/moorhen.vehicle.yaml', `${VEHICLE}# Another line.\n`);
    const said = await watch.next();
    expect(said.startsWith('\n\u001b[2J\u001b[3J\u001b[Hguides')).toBe(true);
    expect(said).toContain('Checked anew: guides/moorhen.vehicle.yaml changed.');
    watch.interrupt();
    await watch.done;
  });

  it('that can read nothing ends at once', async () => {
    const { status, err } = await kitproof(['check', '--watch', 'none.install.yaml'], {
      io: { files: diskFiles, folder: shop },
    });
    expect(status).toBe(3);
    expect(err).toContain('Cannot read none.install.yaml');
  });
});
