import { describe, expect, it } from 'vitest';
import { kitproof } from './program';

const VEHICLE = `kitproof: vehicle/1
name: Moorhen
traits: { lockers: [none, fitted] }
parts:
  front-axle: { kind: live-axle }
  front-wheel: { kind: wheel, sided: true, joins: [front-axle], joints: { nut: { bolts: 5, torque: 130 N·m } } }
lines:
  locker-plug: { kind: plug, spans: [frame, front-axle], when: { lockers: fitted } }
`;
const guideOf = (steps: string, head = '') =>
  `kitproof: install/1\ntitle: G\nvehicle: m.vehicle.yaml\n${head}sections:\n  - title: S\n    steps:\n${steps}`;
const CLEAN = guideOf('      - do: [{ check: front-wheel.nut }]\n');
const PLUG = guideOf('      - do: [{ disconnect: locker-plug }]\n');
const BARE = guideOf('      - do: [{ check: front-wheel.nut }]\n      - text: Think.\n');

const world = (guide: string) => ({ files: { 'm.vehicle.yaml': VEHICLE, 'g.install.yaml': guide } });
const findings = (out: string) =>
  JSON.parse(out).findings as { rule: string; line: number; column: number; file: string }[];

describe('exit status', () => {
  it.each([
    [CLEAN, [], 0],
    [CLEAN, ['--fail-on', 'info'], 0],
    [PLUG, [], 0],
    [PLUG, ['--fail-on', 'warning'], 1],
    [PLUG, ['--fail-on', 'info'], 1],
    [PLUG, ['--fail-on', 'never'], 0],
    [BARE, ['--fail-on', 'warning'], 0],
    [BARE, ['--fail-on', 'info'], 1],
    [BARE, ['--require-cover', '50'], 0],
    [BARE, ['--require-cover', '50.1'], 1],
    [BARE, ['--require-cover', '95%', '--fail-on', 'never'], 1],
    [`${CLEAN}  - steps: 1\n`, [], 1],
  ])('%#', async (guide, words, status) => {
    expect((await kitproof(['check', 'g.install.yaml', ...words], world(guide))).status).toBe(status);
  });
});

describe('json', () => {
  it('has exactly its fields, in order', async () => {
    const { out } = await kitproof(['check', '--format', 'json'], world(PLUG));
    const report = JSON.parse(out);
    expect(Object.keys(report)).toEqual(['version', 'findings', 'summary']);
    expect(Object.keys(report.summary)).toEqual(['files', 'errors', 'warnings', 'infos', 'coverage']);
    expect(report.findings).toHaveLength(1);
    expect(Object.keys(report.findings[0])).toEqual(
      'file line column endLine endColumn rule severity harm message variants related fixes'.split(' '),
    );
    expect(report.findings[0]).toMatchObject({
      file: 'g.install.yaml',
      line: 7,
      column: 16,
      endLine: 7,
      endColumn: 39,
      rule: 'left-disconnected',
      severity: 'warning',
      variants: [{ lockers: ['fitted'] }],
    });
    expect(report.summary).toEqual({
      files: 2,
      errors: 0,
      warnings: 1,
      infos: 0,
      coverage: { steps: 1, checkedSteps: 1, undecided: 0, waived: 0 },
    });
  });

  it('has no harm where the mistake is in the writing, and the titles of fixes', async () => {
    const { out } = await kitproof(
      ['check', '--format', 'json'],
      world(guideOf('      - do: [{ lowr: vehicle }]\n')),
    );
    expect(JSON.parse(out).findings[0]).toMatchObject({
      harm: null,
      severity: 'error',
      fixes: [{ title: expect.any(String) }],
    });
  });

  it('counts columns in UTF-16 units', async () => {
    const guide = guideOf('      - { text: "🔧", do: [{ disconnect: locker-plug }] }\n');
    const { out } = await kitproof(['check', '--format', 'json'], world(guide));
    expect(findings(out)[0]!.column).toBe('      - { text: "🔧", do: [{ '.length + 1);
  });

  it('is the same whatever order the files are asked in', async () => {
    const files = { ...world(PLUG).files, 'a.install.yaml': BARE };
    const a = await kitproof(['check', 'g.install.yaml', 'a.install.yaml', '--format', 'json'], { files });
    const b = await kitproof(
      ['check', 'a.install.yaml', 'g.install.yaml', 'a.install.yaml', '--format', 'json'],
      { files },
    );
    expect(a.out).toBe(b.out);
  });
});

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

describe('the day', () => {
  const guide = guideOf(
    '      - do: [{ disconnect: locker-plug }]\n        waive: [{ rule: left-disconnected, because: Shipped so., by: A. Fitter, until: 2026-03-20 }]\n',
  );
  it('is today, or what --as-of says', async () => {
    const rules = async (...words: string[]) =>
      findings((await kitproof(['check', '--format', 'json', ...words], world(guide))).out).map(
        (one) => one.rule,
      );
    expect(await rules()).toEqual([]);
    expect(await rules('--as-of', '2026-03-20')).toEqual([]);
    expect(await rules('--as-of', '2026-03-21')).toContain('left-disconnected');
  });

  it('a waiver is counted in the summary', async () => {
    const { out } = await kitproof(['check', 'g.install.yaml'], world(guide));
    expect(out).toContain('waived: 1 (list them with --waived).');
  });

  it('what is waived is listed on demand, with who accepts it, why and until when', async () => {
    const text = await kitproof(['check', 'g.install.yaml', '--waived'], world(guide));
    expect(text.out).toContain(`Waived
  g.install.yaml:7:16  left-disconnected
    locker-plug is unplugged or opened and never connected again. (only with lockers: fitted)
    A. Fitter, until 2026-03-20: Shipped so.

No findings in 1 file.
Steps checked: 1 of 1 (100 %); undecided: 0; waived: 1.
`);
    const json = await kitproof(['check', 'g.install.yaml', '--waived', '--format', 'json'], world(guide));
    expect(JSON.parse(json.out).waived).toMatchObject([
      {
        file: 'g.install.yaml',
        line: 7,
        column: 16,
        rule: 'left-disconnected',
        message: 'locker-plug is unplugged or opened and never connected again.',
        variants: [{ lockers: ['fitted'] }],
        because: 'Shipped so.',
        by: 'A. Fitter',
        until: '2026-03-20',
        waiver: { file: 'g.install.yaml', line: 8, column: 25 },
      },
    ]);
    const none = await kitproof(['check', 'g.install.yaml', '--waived'], world(CLEAN));
    expect(none.out).toContain('Nothing is waived.\n');
    const plain = await kitproof(['check', 'g.install.yaml', '--format', 'json'], world(guide));
    expect(JSON.parse(plain.out)).not.toHaveProperty('waived');
  });
});

describe('text', () => {
  it('never says that anything was certified, and defers to those who may', async () => {
    for (const guide of [CLEAN, PLUG, BARE]) {
      const { out } = await kitproof(['check'], world(guide));
      expect(out).toContain('It certifies nothing');
      expect(out).toMatch(/vehicle maker's data, local rules and a\s+qualified person come first/);
      expect(out.toLowerCase()).not.toMatch(/\b(safe|proved|proven|approved)\b/);
    }
  });

  it('has colour when asked, at a terminal, and not where NO_COLOR is set', async () => {
    const coloured = async (words: string[], io = {}) =>
      (await kitproof(['check', ...words], { ...world(PLUG), io })).out.includes('\u001b[');
    const terminal = { outIsTerminal: true, columns: 100 };
    expect(await coloured([])).toBe(false);
    expect(await coloured(['--color', 'always'])).toBe(true);
    expect(await coloured([], terminal)).toBe(true);
    expect(await coloured(['--color', 'never'], terminal)).toBe(false);
    expect(await coloured([], { ...terminal, environment: { NO_COLOR: '1' } })).toBe(false);
    expect(await coloured([], { ...terminal, environment: { NO_COLOR: '' } })).toBe(true);
    expect(await coloured(['--color', 'always'], { environment: { NO_COLOR: '1' } })).toBe(true);
  });

  it('keeps to the width of the terminal', async () => {
    const guide = guideOf(`      - { text: "${'long '.repeat(60)}", do: [{ disconnect: locker-plug }] }\n`);
    const { out } = await kitproof(['check'], {
      ...world(guide),
      io: { outIsTerminal: true, columns: 72, environment: { NO_COLOR: '1' } },
    });
    for (const line of out.split('\n'))
      if (!line.startsWith('g.install.yaml')) expect(line.length).toBeLessThanOrEqual(74);
  });

  it('lists what was not decided when asked', async () => {
    const guide =
      'kitproof: install/1\ntitle: G\nsections:\n  - title: S\n    steps:\n      - do: [{ unbolt: steering-box }, { bolt-up: steering-box }, { torque: steering-box, to: 90 N·m }]\n';
    const plain = await kitproof(['check'], { files: { 'g.install.yaml': guide } });
    const asked = await kitproof(['check', '--undecided'], { files: { 'g.install.yaml': guide } });
    const json = JSON.parse(
      (await kitproof(['check', '--undecided', '--format', 'json'], { files: { 'g.install.yaml': guide } }))
        .out,
    );
    expect(plain.out).toContain('(list them with --undecided)');
    expect(json.undecided.length).toBe(json.summary.coverage.undecided);
    expect(json.undecided).toContainEqual({
      file: 'g.install.yaml',
      rule: 'heavy-part-held',
      item: 'steering-box',
      property: 'mass',
    });
    expect(asked.out).toContain('heavy-part-held: say the mass of steering-box (mass: 3 kg)');
  });
});

describe('progress', () => {
  it('is shown on a terminal for long runs, and is gone at the end', async () => {
    const files: Record<string, string> = { 'm.vehicle.yaml': VEHICLE };
    for (let index = 0; index < 60; index++) files[`g${index}.install.yaml`] = PLUG;
    const slow = async (name: string) => {
      await new Promise((resolve) => {
        setTimeout(resolve, 20);
      });
      return files[name.slice('/shop/'.length)] ?? null;
    };
    const io = (errIsTerminal: boolean) => ({
      errIsTerminal,
      files: {
        read: slow,
        kind: async (name: string) => (name === '/shop' ? ('folder' as const) : null),
        list: async () => Object.keys(files).map((name) => ({ name, kind: 'file' as const })),
      },
    });
    const shown = await kitproof(['check'], { io: io(true) });
    expect(shown.err).toMatch(/Reading \d+ of 61 {2}g\d+\.install\.yaml/);
    expect(shown.err.endsWith('\r\u001b[K')).toBe(true);
    expect((await kitproof(['check'], { io: io(false) })).err).toBe('');
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

describe('files that are not ours', () => {
  const files = {
    'a/x.install.yaml': 'title: The key was forgotten\n',
    'a/compose.yaml': 'services: 1\n',
    'g.yaml': CLEAN,
    'm.vehicle.yaml': VEHICLE,
  };
  it('are told of where they are named so, or named one by one; the rest is checked all the same', async () => {
    const note = (path: string) =>
      `kitproof: ${path} has no key "kitproof", so it is no document of ours; a document begins with a line such as "kitproof: install/1".\n`;
    const all = await kitproof(['check'], { files });
    // In a folder another program may use such an ending: it is told, and fails nothing.
    expect(all).toMatchObject({ status: 0, err: note('a/x.install.yaml') });
    expect(all.out).toContain('in 2 files');
    for (const path of ['a/compose.yaml', 'a/x.install.yaml']) {
      expect(await kitproof(['check', path], { files })).toEqual({
        status: 3,
        out: '',
        err: note(path),
        files: expect.anything(),
      });
    }
    const found = await kitproof(['check', 'g.yaml', 'a/compose.yaml'], { files });
    expect(found).toMatchObject({ status: 0, err: note('a/compose.yaml') });
    const asked = await kitproof(['check', 'g.yaml', 'a/x.install.yaml'], { files });
    expect(asked).toMatchObject({ status: 3, err: note('a/x.install.yaml') });
    expect(found.out).toContain('in 1 file');
  });

  it.each([
    ['e.kit.yaml', '', 'e.kit.yaml is empty; a document begins with a line such as "kitproof: kit/1".'],
    ['photo.jpg', 'JFIF\0\u0001', 'photo.jpg is no text;'],
    ['notes.md', 'Take the wheels off: all of them.\n', 'notes.md has no key "kitproof"'],
  ])('%s is told in one line', async (name, text, sentence) => {
    const { status, out, err } = await kitproof(['check', name], { files: { [name]: text } });
    expect({ status, out }).toEqual({ status: 3, out: '' });
    expect(err.split('\n').filter(Boolean)).toHaveLength(1);
    expect(err).toContain(sentence);
  });

  it.each(['', 'Some prose.\n', 'title: X\n'])('%j on standard input likewise', async (input) => {
    const { status, out, err } = await kitproof(['check', '-', '--format', 'json'], { input });
    expect({ status, out }).toEqual({ status: 3, out: '' });
    expect(err).toContain('kitproof: Standard input ');
    expect(err.split('\n').filter(Boolean)).toHaveLength(1);
  });

  it('others in folders are left alone', async () => {
    const { status, err } = await kitproof(['check', 'b'], {
      files: { 'b/compose.yaml': 'services: 1\n', 'b/g.yaml': CLEAN, 'b/m.vehicle.yaml': VEHICLE },
    });
    expect({ status, err }).toEqual({ status: 0, err: '' });
  });

  it('alone in a folder are nothing to check', async () => {
    const { status, err } = await kitproof(['check', 'a'], { files });
    expect(status).toBe(3);
    expect(err).toContain('a/x.install.yaml has no key');
    expect((await kitproof(['check', 'c'], { files: { 'c/compose.yaml': 'services: 1\n' } })).err).toContain(
      'There is nothing to check in c',
    );
  });
});

describe('the first key', () => {
  const body = 'title: G\nsections:\n  - title: S\n    steps:\n      - do: [{ check: front-wheel.nut }]\n';
  it.each([
    '---\nkitproof: install/1\n',
    '\uFEFF---\n# Ours\n\nkitproof: install/1\n',
    '# Ours\n\n--- # here\nkitproof: install/1\n',
    '%YAML 1.2\n---\nkitproof: install/1\n',
    '---\r\n\r\nkitproof: install/1\r\n',
  ])('%j begins a document of ours', async (head) => {
    const { status, out } = await kitproof(['check', 'g.yaml'], { files: { 'g.yaml': head + body } });
    expect(status).toBe(0);
    expect(out).toContain('Steps checked: 1 of 1');
  });

  it.each([
    ['kitprof: install/1\n', 1],
    ['---\n# c\nKitproof: install/1\n', 3],
    ['\uFEFF\nkit-proof: "kit/1"\n', 2],
    ['KITPROOF : vehicle/2\n', 1],
    ['{ kitproff: install/1 }\n# ', 1],
  ])('%j is ours, misspelt', async (head, line) => {
    for (const words of [['g.yaml'], ['.']]) {
      const { status, out } = await kitproof(['check', '--format', 'json', ...words], {
        files: { 'g.yaml': head + (head.startsWith('{') ? '' : body) },
      });
      expect(status).toBe(1);
      expect(JSON.parse(out).findings).toMatchObject([
        {
          rule: 'unknown-key',
          line,
          message: expect.stringContaining('did you mean kitproof?'),
          fixes: [{ title: 'Write "kitproof"' }],
        },
      ]);
    }
  });

  it.each([
    'kitprof: yes\n',
    'waterproof: install/1\n',
    'title: X\nkitprof: install/1\n',
    'Kitproof is a tool.\n',
  ])('%j is not ours', async (text) => {
    expect((await kitproof(['check', '.'], { files: { 'g.yaml': text } })).err).toContain('nothing to check');
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

it('an unknown kind or aid says where the words are', async () => {
  const files = {
    'm.vehicle.yaml': `${VEHICLE}  flux: { kind: zorblax, spans: [frame, front-axle] }\n`,
    'g.install.yaml': guideOf('      - do: [{ raise: vehicle, with: zorblax }, { lower: vehicle }]\n'),
  };
  const { out } = await kitproof(['check', '--format', 'json'], { files });
  const messages = JSON.parse(out).findings.map((one: { message: string }) => one.message);
  expect(messages).toContain(
    'Neither the rule packs nor this file have a kind "zorblax"; the words there are stand in schemas/words.md, or declare it under kinds:.',
  );
  expect(messages).toContain(
    'No rule pack knows the aid "zorblax"; the words there are stand in schemas/words.md, or declare it under aids: in a rules file.',
  );
});
