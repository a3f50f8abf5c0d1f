import { describe, expect, it } from 'vitest';
import { BARE, CLEAN, guideOf, PLUG, VEHICLE, world } from './moorhen';
import { kitproof } from './program';

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
