import { describe, expect, it } from 'vitest';
import { CLEAN, findings, PLUG, VEHICLE } from './moorhen';
import { kitproof } from './program';

describe('paths', () => {
  const files = {
    'm.vehicle.yaml': VEHICLE,
    'deep/er/g.install.yaml': PLUG.replace('m.vehicle', '../../m.vehicle'),
    'deep/other.yaml': 'a: b\n',
    'drafts/d.install.yaml': 'kitproof: install/1\ntitle: "\n',
    'kitproof.yaml': 'kitproof: config/1\nignore: [drafts/**]\n',
  };
  it.each([
    [['.'], 3],
    [[], 3],
    [['deep'], 1],
    [['deep/er/../er/g.install.yaml'], 1],
    [['/shop/deep'], 1],
    [['**/*.install.yaml'], 1],
    [['drafts/d.install.yaml'], 1],
  ])('%j', async (paths, count) => {
    const { out } = await kitproof(['check', ...paths, '--format', 'json'], { files });
    expect(JSON.parse(out).summary.files).toBe(count);
  });

  it('tell what is wrong in a vehicle that a guide names, where it stands', async () => {
    const broken = { ...files, 'm.vehicle.yaml': `${VEHICLE}colour: red\n` };
    const { out } = await kitproof(['check', 'deep', '--format', 'json'], { files: broken });
    expect(findings(out).map((one) => [one.file, one.rule])).toContainEqual([
      'm.vehicle.yaml',
      'unknown-key',
    ]);
  });
});

describe('standard input', () => {
  it('stands where --stdin-name says, also over a file of that name', async () => {
    const { out, status } = await kitproof(
      ['check', '-', '--stdin-name', 'sub/g.install.yaml', '--format', 'json'],
      {
        files: { 'm.vehicle.yaml': VEHICLE, 'sub/g.install.yaml': 'kitproof: install/1\ntitle: "\n' },
        input: PLUG.replace('m.vehicle', '../m.vehicle'),
      },
    );
    expect(status).toBe(0);
    expect(findings(out).map((one) => [one.file, one.rule])).toEqual([
      ['sub/g.install.yaml', 'left-disconnected'],
    ]);
  });

  it('needs no name', async () => {
    const { out } = await kitproof(['check', '-', '--format', 'json'], {
      input: 'kitproof: vehicle/1\nnam: M\n',
    });
    expect(findings(out)[0]!.file).toBe('standard-input.yaml');
  });
});

describe('standard input with paths', () => {
  const files = { 'guides/m.vehicle.yaml': VEHICLE };
  it('says where paths are looked for when they lead nowhere and it has no name', async () => {
    const lost = await kitproof(['check', '-'], { files, input: CLEAN });
    expect(lost.out).toContain('missing-file');
    expect(lost.err).toContain('--stdin-name PATH says where the document would stand');
    const named = await kitproof(['check', '-', '--stdin-name', 'guides/g.yaml'], { files, input: CLEAN });
    expect(named).toMatchObject({ status: 0, err: '' });
    const wrong = await kitproof(['check', '-', '--stdin-name', 'g.yaml'], { files, input: CLEAN });
    expect(wrong.err).toBe('');
  });
});

describe('a vehicle or a kit by itself', () => {
  it('is told what is wrong in it, once, whoever uses it', async () => {
    const files = {
      'm.vehicle.yaml': `${VEHICLE}  stray: { kind: plgu, spans: [frame] }\n`,
      'a.install.yaml': CLEAN,
      'b.install.yaml': CLEAN,
    };
    for (const paths of [
      ['.'],
      ['m.vehicle.yaml'],
      ['a.install.yaml'],
      ['b.install.yaml', 'a.install.yaml'],
    ]) {
      const { out } = await kitproof(['check', '--format', 'json', ...paths], { files });
      expect(findings(out).map((one) => [one.file, one.rule])).toEqual([
        ['m.vehicle.yaml', 'unknown-part-kind'],
      ]);
    }
  });
});
