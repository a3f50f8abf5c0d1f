import { describe, expect, it } from 'vitest';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';
import { filesBelow, isIgnored } from '../../server/src/workspace/scan';
import { checkFiles } from '../support/engine';

const CONFIG = 'kitproof: config/1\n';
const GUIDE = 'kitproof: install/1\ntitle: A guide\nsections: []\n';

function projectOf(contents: Record<string, string>) {
  const map = new Map(Object.entries(contents));
  const files = memoryFiles(map);
  return { map, files, project: new Project(files, standardPacks()) };
}

/** After a few turns of everything else. */
async function settled<Value>(value: Value): Promise<Value> {
  for (let turn = 0; turn < 3; turn++) await new Promise<void>((resolve) => setImmediate(() => resolve()));
  return value;
}

describe('documents', () => {
  it('are ours by their first key, whatever their name', async () => {
    const { project } = projectOf({
      '/a/plain.yaml': GUIDE,
      '/a/other.install.yaml': 'apiVersion: v1\n',
      '/a/broken.install.yaml': 'kitproof: install/1\ntitle: "open\n',
      '/a/strange.yaml': 'kitproof: instal/1\n',
    });
    expect((await project.open('/a/plain.yaml'))?.kind).toBe('install');
    expect(await project.open('/a/other.install.yaml')).toBeNull();
    expect((await project.open('/a/broken.install.yaml'))?.kind).toBe('install');
    expect(await project.open('/a/strange.yaml')).toMatchObject({ kind: null });
    expect(await project.open('/a/none.yaml')).toBeNull();
  });

  it('stay the same while their text does, and are read again when told', async () => {
    const { map, project } = projectOf({ '/a/g.yaml': GUIDE });
    const before = await project.open('/a/g.yaml');
    project.forget('/a/g.yaml');
    expect(await project.open('/a/g.yaml')).toBe(before);
    map.set('/a/g.yaml', `${GUIDE}# later\n`);
    expect(await project.open('/a/g.yaml')).toBe(before);
    project.forget('/a/g.yaml');
    expect((await project.open('/a/g.yaml'))?.text).toContain('# later');
  });

  it('are what stands there last, where they change while they are read', async () => {
    const { map, files } = projectOf({ '/a/g.yaml': GUIDE });
    const slow = { ...files, read: async (name: string) => settled(await files.read(name)) };
    const project = new Project(slow, standardPacks());
    const first = project.open('/a/g.yaml');
    await settled(null);
    map.set('/a/g.yaml', `${GUIDE}# later\n`);
    project.forget('/a/g.yaml');
    const later = expect.objectContaining({ text: `${GUIDE}# later\n` });
    expect(await Promise.all([first, project.open('/a/g.yaml')])).toEqual([later, later]);
    expect(await project.open('/a/g.yaml')).toEqual(later);
    map.delete('/a/g.yaml');
    project.forget('/a/g.yaml');
    expect(await project.open('/a/g.yaml')).toBeNull();
  });
});

describe('configuration', () => {
  it('is the nearest above, merged with nothing', async () => {
    const { project } = projectOf({
      '/r/kitproof.yaml': `${CONFIG}strict-loosening: true\nrules: { some-rule: off }\n`,
      '/r/kits/kitproof.yaml': `${CONFIG}rounding: { hours: 0.25 }\nrules: { other-rule: warning }\n`,
      '/r/kits/deep/g.yaml': GUIDE,
      '/r/g.yaml': GUIDE,
    });
    const deep = await project.configurationOf('/r/kits/deep/g.yaml');
    expect(deep).toMatchObject({ folder: '/r/kits', strictLoosening: false, hourStep: 0.25 });
    expect([...deep.rules.keys()]).toEqual(['other-rule']);
    expect(deep.rules.get('other-rule')).toMatchObject({ on: true, severity: 'warning', harm: null });
    const outer = await project.configurationOf('/r/g.yaml');
    expect(outer).toMatchObject({ folder: '/r', strictLoosening: true, hourStep: 0.1 });
    expect(outer.rules.get('some-rule')).toMatchObject({ on: false });
  });

  it('is not looked for above the folder that holds .git', async () => {
    const { project } = projectOf({
      '/r/kitproof.yaml': CONFIG,
      '/r/inner/.git/HEAD': '',
      '/r/inner/kits/g.yaml': GUIDE,
      '/r/worktree/.git': 'gitdir: elsewhere\n',
      '/r/worktree/g.yaml': GUIDE,
      '/r/plain/g.yaml': GUIDE,
    });
    expect((await project.configurationOf('/r/inner/kits/g.yaml')).document).toBeNull();
    expect((await project.configurationOf('/r/worktree/g.yaml')).document).toBeNull();
    expect((await project.configurationOf('/r/plain/g.yaml')).folder).toBe('/r');
  });

  it('passes over a file of that name that is not ours', async () => {
    const { project } = projectOf({
      '/r/kitproof.yaml': CONFIG,
      '/r/a/kitproof.yaml': 'something: else\n',
      '/r/a/g.yaml': GUIDE,
    });
    expect((await project.configurationOf('/r/a/g.yaml')).folder).toBe('/r');
  });

  it('leaves alone what it is told to ignore', async () => {
    const { files, project } = projectOf({
      '/r/kitproof.yaml': `${CONFIG}ignore: [drafts/**]\n`,
      '/r/drafts/g.yaml': GUIDE,
      '/r/g.yaml': GUIDE,
      '/r/node_modules/g.yaml': GUIDE,
      '/r/.hidden/g.yaml': GUIDE,
      '/r/readme.md': '',
    });
    const found = await filesBelow(files, '/r');
    expect(found).toEqual(['/r/drafts/g.yaml', '/r/g.yaml', '/r/kitproof.yaml']);
    const ignored = await Promise.all(
      found.map(async (name) => isIgnored(await project.configurationOf(name), name)),
    );
    expect(ignored).toEqual([true, false, false]);
  });
});

describe('what a guide depends on', () => {
  it('is all that it leads to, once, also in circles, and by what is missing', async () => {
    const { project } = projectOf({
      '/r/kitproof.yaml': `${CONFIG}packs: [house.rules.yaml]\ntimes: [shop.times.yaml]\n`,
      '/r/house.rules.yaml': 'kitproof: rules/1\npack: house\nrules: []\n',
      '/r/shop.times.yaml': 'kitproof: times/1\ntimes: []\n',
      '/r/v/m.vehicle.yaml': 'kitproof: vehicle/1\nname: M\n',
      '/r/k.kit.yaml': 'kitproof: kit/1\nname: K\n',
      '/r/g/a.install.yaml':
        'kitproof: install/1\ntitle: A\nvehicle: ../v/m.vehicle.yaml\nkit: [../k.kit.yaml, ../gone.kit.yaml]\nfollows: b.install.yaml\nsections: []\n',
      '/r/g/b.install.yaml':
        'kitproof: install/1\ntitle: B\nsections:\n  - title: S\n    steps:\n      - do: [{ use: { guide: a.install.yaml, section: S } }]\n',
    });
    const guide = (await project.open('/r/g/a.install.yaml'))!;
    const closure = await project.closureOf(guide);
    expect([...closure.documents.keys()].sort()).toEqual([
      '/r/g/a.install.yaml',
      '/r/g/b.install.yaml',
      '/r/k.kit.yaml',
      '/r/v/m.vehicle.yaml',
    ]);
    expect(closure.housePacks.map((pack) => pack.uri)).toEqual(['/r/house.rules.yaml']);
    expect(closure.times.map((times) => times.uri)).toEqual(['/r/shop.times.yaml']);
    expect(closure.library.packs[0]?.uri).toBe('kitproof://packs/base.rules.yaml');
    expect(closure.library.packs.at(-1)?.uri).toBe('/r/house.rules.yaml');
    for (const name of [
      '/r/gone.kit.yaml',
      '/r/v/m.vehicle.yaml',
      '/r/house.rules.yaml',
      '/r/kitproof.yaml',
    ]) {
      expect(project.dependentsOf(name)).toEqual(['/r/g/a.install.yaml']);
    }
    expect(project.dependentsOf('/r/v/other.kit.yaml')).toEqual([]);
  });

  it('lets the place keys of its vehicle stand in it', async () => {
    const { project } = projectOf({
      '/m.vehicle.yaml':
        'kitproof: vehicle/1\nname: M\nparts:\n  beam: { places: { station: [front, rear] } }\n',
      '/g.yaml':
        'kitproof: install/1\ntitle: A\nvehicle: m.vehicle.yaml\nsections:\n  - title: S\n    steps:\n      - do: [{ remove: beam, station: front }]\n',
    });
    const guide = (await project.open('/g.yaml'))!;
    const closure = await project.closureOf(guide);
    expect(closure.opened(guide).findings).toEqual([]);
  });
});

describe('the vehicles that a kit is held against', () => {
  const vehicle = (name: string) => `kitproof: vehicle/1\nname: ${name}\n`;
  const KIT = 'kitproof: kit/1\nname: K\n';
  const of = async (contents: Record<string, string>, name: string) => {
    const { project } = projectOf(contents);
    const closure = await project.closureOf((await project.open(name))!);
    return closure.library.vehicles!.map((one) => one.uri);
  };

  it('are those of the nearest folder above it', async () => {
    const contents = {
      '/r/a.vehicle.yaml': vehicle('A'),
      '/r/kits/deep/k.kit.yaml': KIT,
      '/r/own/b.vehicle.yaml': vehicle('B'),
      '/r/own/k.kit.yaml': KIT,
    };
    expect(await of(contents, '/r/kits/deep/k.kit.yaml')).toEqual(['/r/a.vehicle.yaml']);
    expect(await of(contents, '/r/own/k.kit.yaml')).toEqual(['/r/own/b.vehicle.yaml']);
  });

  it('are not looked for above the configuration or the repository', async () => {
    const contents = {
      '/a.vehicle.yaml': vehicle('A'),
      '/r/kitproof.yaml': CONFIG,
      '/r/kits/k.kit.yaml': KIT,
      '/s/.git/HEAD': '',
      '/s/k.kit.yaml': KIT,
    };
    expect(await of(contents, '/r/kits/k.kit.yaml')).toEqual([]);
    expect(await of(contents, '/s/k.kit.yaml')).toEqual([]);
  });

  it('of a guide are its own', async () => {
    const contents = {
      '/a.vehicle.yaml': vehicle('A'),
      '/b.vehicle.yaml': vehicle('B'),
      '/g.yaml': 'kitproof: install/1\ntitle: G\nvehicle: b.vehicle.yaml\nsections: []\n',
    };
    expect(await of(contents, '/g.yaml')).toEqual(['/b.vehicle.yaml']);
  });
});

describe('a path that leads nowhere', () => {
  const files = {
    'guides/common.install.yaml': 'kitproof: install/1\ntitle: C\nsections: []\n',
    'guides/comon.vehicle.yaml': 'kitproof: vehicle/1\nname: C\n',
    'cars/wren.vehicle.yaml': 'kitproof: vehicle/1\nname: Wren\nparts: { lamp: {} }\n',
    'guides/g.install.yaml': `kitproof: install/1
title: G
vehicle: ../cars/wran.vehicle.yaml
kit: far-away.kit.yaml
follows: comon.install.yaml
sections:
  - title: S
    steps:
      - do: [{ check: lamp }]
      - do: [{ use: { guide: cmmon.install.yaml, section: T } }]
`,
  };

  it('is told with the file beside it that is meant, of the kind that is wanted', async () => {
    const { findings } = await checkFiles(files);
    const told = findings.filter(({ rule }) => rule === 'missing-file');
    expect(told.map(({ message, fixes }) => [message, fixes[0]?.edits[0]?.text])).toEqual([
      [
        'There is no vehicle file at "../cars/wran.vehicle.yaml"; did you mean "../cars/wren.vehicle.yaml"?',
        '../cars/wren.vehicle.yaml',
      ],
      ['There is no kit file at "far-away.kit.yaml".', undefined],
      [
        'There is no guide file at "comon.install.yaml"; did you mean "common.install.yaml"?',
        'common.install.yaml',
      ],
      [
        'There is no guide file at "cmmon.install.yaml"; did you mean "common.install.yaml"?',
        'common.install.yaml',
      ],
    ]);
  });

  it('is looked at again when anything comes or goes beside it', async () => {
    const project = new Project(
      memoryFiles(new Map(Object.entries(files).map(([name, text]) => [`/r/${name}`, text]))),
      standardPacks(),
    );
    await project.closureOf((await project.open('/r/guides/g.install.yaml'))!);
    for (const name of [
      '/r/cars/wran.vehicle.yaml',
      '/r/cars/new.vehicle.yaml',
      '/r/guides/new.install.yaml',
    ])
      expect(project.dependentsOf(name), name).toEqual(['/r/guides/g.install.yaml']);
    expect(project.dependentsOf('/r/elsewhere/new.install.yaml')).toEqual([]);
  });
});
