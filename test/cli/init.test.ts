import { describe, expect, it } from 'vitest';
import { kitproof } from './program';

describe('init', () => {
  it.each([
    [[], ''],
    [['my/kit'], 'my/kit/'],
  ])('%j writes a repository that passes, with all its steps checked and timed', async (folder, prefix) => {
    const written = await kitproof(['init', ...folder]);
    expect(written.status).toBe(0);
    const files = Object.fromEntries(written.files);
    expect(Object.keys(files).sort()).toEqual(
      ['kitproof.yaml', 'moorhen.vehicle.yaml', 'rear-shocks.install.yaml', 'trail-shocks.kit.yaml'].map(
        (name) => `/shop/${prefix}${name}`,
      ),
    );
    const check = await kitproof(
      ['check', '--format', 'json', '--fail-on', 'info', '--require-cover', '100'],
      { files },
    );
    expect(check.status).toBe(0);
    const report = JSON.parse(check.out);
    expect(report.findings).toEqual([]);
    expect(report.summary).toMatchObject({ files: 4, coverage: { steps: 6, checkedSteps: 6, undecided: 0 } });
    const labour = JSON.parse(
      (await kitproof(['labour', `${prefix}rear-shocks.install.yaml`, '--format', 'json'], { files })).out,
    );
    expect(Object.keys(labour)).toEqual(
      expect.arrayContaining(['version', 'guide', 'atLeast', 'total', 'quoted', 'sections', 'unknown']),
    );
    expect(Object.keys(labour.total)).toEqual(expect.arrayContaining(['lowest', 'highest', 'elapsed']));
    expect(labour).toMatchObject({
      version: 1,
      guide: `${prefix}rear-shocks.install.yaml`,
      atLeast: false,
      unknown: [],
    });
    // 5 + 3 + (8 + 4 × 12 + 25) / 6, then 10 + 5 + 2 × 2.
    expect(labour.total.lowest).toBe(40.5);
    expect(labour.sections.map((one: { highest: number }) => one.highest)).toEqual([21.5, 19]);
  });

  it('leaves alone what is there, and then writes nothing', async () => {
    const { status, err, files } = await kitproof(['init'], { files: { 'moorhen.vehicle.yaml': 'mine' } });
    expect(status).toBe(3);
    expect(err).toBe('kitproof: Nothing was written: moorhen.vehicle.yaml is in this folder already.\n');
    expect([...files]).toEqual([['/shop/moorhen.vehicle.yaml', 'mine']]);
  });

  it('takes no file for a folder', async () => {
    const { status, err, files } = await kitproof(['init', 'notes.md'], { files: { 'notes.md': 'mine' } });
    expect(status).toBe(3);
    expect(err).toBe(
      'kitproof: Nothing was written: notes.md is a file, and kitproof init takes a folder.\n',
    );
    expect([...files]).toEqual([['/shop/notes.md', 'mine']]);
  });
});
