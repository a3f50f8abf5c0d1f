import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { kitproof } from './program';

const VEHICLE = `kitproof: vehicle/1
name: Moorhen
parts:
  front-axle: { kind: live-axle }
  front-wheel: { kind: wheel, sided: true, joins: [front-axle], joints: { nut: { bolts: 5, torque: 130 N·m } } }
  front-bracket: { kind: bracket, sided: true, joins: [front-axle], joints: { bolt: { torque: 22 N·m } } }
  rear-bracket: { kind: bracket, sided: true, joins: [frame], joints: { bolt: { torque: 22 N·m } } }
`;
/** Two slips, and a joint that nobody tightens. */
const GUIDE = `kitproof: install/1
title: "Brackets"   # both
vehicle: m.vehicle.yaml
sections:
  - title: S
    steps:
      - { text: 'Loosen it.', do: [{ loosen: front-brackt.bolt }] }
      # Once more.
      - do:
          - check: front-wheel.nut
            sdie: left
`;
const MENDED = GUIDE.replace('brackt', 'bracket').replace('sdie', 'side');
const files = { 'm.vehicle.yaml': VEHICLE, 'g.install.yaml': GUIDE };

describe('check --fix', () => {
  it('puts slips right, says so, and tells what is left', async () => {
    const { status, out, err, files: after } = await kitproof(['check', '--fix'], { files });
    expect(after.get('/shop/g.install.yaml')).toBe(MENDED);
    expect(after.get('/shop/m.vehicle.yaml')).toBe(VEHICLE);
    expect([status, err]).toEqual([1, '']);
    expect(out).toContain(`Fixed 2 slips in 1 file:
  g.install.yaml:7:46  Write front-bracket.bolt  unknown-name
  g.install.yaml:11:13  Write "side"  unknown-key

g.install.yaml:7:38  error  left-loose
`);
    const again = await kitproof(['check', '--fix', 'g.install.yaml'], {
      files: { ...files, 'g.install.yaml': MENDED },
    });
    expect(again.out.startsWith('Nothing was changed: ')).toBe(true);
    expect(again.files.get('/shop/g.install.yaml')).toBe(MENDED);
  });

  it('changes nothing without being asked', async () => {
    const { files: after, out } = await kitproof(['check'], { files });
    expect(after.get('/shop/g.install.yaml')).toBe(GUIDE);
    expect(out).not.toContain('Fixed');
  });

  it('leaves alone what more than one name could have been meant by, and what adds work', async () => {
    const text = GUIDE.replace('front-brackt', 'rear-bracke')
      .replace('sdie', 'side')
      .replace('front-wheel.nut', 'frnt-whel.nut');
    const { files: after } = await kitproof(['check', '--fix'], {
      files: { ...files, 'g.install.yaml': text },
    });
    expect(after.get('/shop/g.install.yaml')).toBe(text.replace('rear-bracke.', 'rear-bracket.'));
  });

  it('takes a slip back to the file where it stands, if that is checked too, and to no other', async () => {
    const slip = VEHICLE.replace('sided: true, joins: [frame]', 'sidde: true, joins: [frame]');
    const world = { files: { 'm.vehicle.yaml': slip, 'g.install.yaml': MENDED } };
    const alone = await kitproof(['check', '--fix', 'g.install.yaml'], world);
    expect(alone.files.get('/shop/m.vehicle.yaml')).toBe(slip);
    expect(alone.out).toContain('fix: Write "sided"');
    const both = await kitproof(['check', '--fix'], world);
    expect(both.files.get('/shop/m.vehicle.yaml')).toBe(VEHICLE);
    expect(both.out).toContain('Fixed 1 slip in 1 file:\n  m.vehicle.yaml:');
  });

  it('goes on where one slip hid another', async () => {
    const text = GUIDE.replace('{ loosen: front-brackt.bolt }', '{ losen: front-brackt.bolt }');
    const { files: after } = await kitproof(['check', '--fix'], {
      files: { ...files, 'g.install.yaml': text },
    });
    expect(after.get('/shop/g.install.yaml')).toBe(MENDED);
  });

  it('tells programs what was fixed, and of each finding which fixes are safe', async () => {
    const { out } = await kitproof(['check', '--fix', '--format', 'json'], { files });
    const report = JSON.parse(out);
    expect(Object.keys(report)).toEqual(['version', 'fixed', 'findings', 'summary']);
    expect(report.fixed).toEqual([
      {
        file: 'g.install.yaml',
        line: 7,
        column: 46,
        rule: 'unknown-name',
        title: 'Write front-bracket.bolt',
      },
      { file: 'g.install.yaml', line: 11, column: 13, rule: 'unknown-key', title: 'Write "side"' },
    ]);
    const before = JSON.parse((await kitproof(['check', '--format', 'json'], { files })).out);
    const slip = before.findings.find(({ rule }: { rule: string }) => rule === 'unknown-name');
    expect(slip.fixes).toEqual([{ title: 'Write front-bracket.bolt', safe: true }]);
  });

  it('does not overwrite what was changed meanwhile, and says what it could not write', async () => {
    let reads = 0;
    const io = {
      files: {
        kind: async (name: string) =>
          name.startsWith('/shop/') && name.includes('.yaml') ? ('file' as const) : null,
        list: async () => [],
        read: async (name: string) =>
          name.endsWith('m.vehicle.yaml')
            ? VEHICLE
            : name.endsWith('g.install.yaml')
              ? `${GUIDE}${++reads > 2 ? '#\n' : ''}`
              : null,
      },
    };
    const changed = await kitproof(['check', '--fix', 'g.install.yaml'], { io });
    expect([changed.status, changed.err]).toEqual([
      3,
      'kitproof: g.install.yaml was changed meanwhile; it was not fixed.\n',
    ]);
    const replace = async () => {
      throw new Error('the disk is full');
    };
    const full = await kitproof(['check', '--fix'], { files, io: { replace } });
    expect([full.status, full.err]).toEqual([
      3,
      'kitproof: Cannot write g.install.yaml, so it was not fixed: the disk is full\n',
    ]);
  });

  it('has no use for standard input', async () => {
    const { status, err } = await kitproof(['check', '--fix', '-'], { input: GUIDE });
    expect([status, err.split(';')[0]]).toEqual([2, 'kitproof: --fix changes files']);
  });

  it('leaves a text alone that is not written in UTF-8', async () => {
    const text = `${GUIDE}# caf\uFFFD\n`;
    const { files: after } = await kitproof(['check', '--fix'], {
      files: { ...files, 'g.install.yaml': text },
    });
    expect(after.get('/shop/g.install.yaml')).toBe(text);
  });
});

describe('on the disk', () => {
  it('a file is replaced whole, through links, with its mode, and nothing is left beside it', () => {
    const folder = mkdtempSync(join(tmpdir(), 'kitproof-fix-'));
    const file = join(folder, 'real.install.yaml');
    writeFileSync(join(folder, 'm.vehicle.yaml'), VEHICLE);
    writeFileSync(file, GUIDE.replaceAll('\n', '\r\n'));
    chmodSync(file, 0o640);
    symlinkSync('real.install.yaml', join(folder, 'g.install.yaml'));
    execFileSync(process.execPath, ['esbuild.mjs'], { stdio: 'ignore' });
    execFileSync(
      process.execPath,
      [join(process.cwd(), 'dist/cli.js'), 'check', '--fix', '--fail-on', 'never', 'g.install.yaml'],
      { cwd: folder },
    );
    expect(readFileSync(file, 'utf8')).toBe(MENDED.replaceAll('\n', '\r\n'));
    expect(statSync(file).mode & 0o777).toBe(0o640);
    expect(readdirSync(folder).sort()).toEqual(['g.install.yaml', 'm.vehicle.yaml', 'real.install.yaml']);
  });
});
