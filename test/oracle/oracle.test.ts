// Guides alone, guides that use others, and the variants of a guide.
import { describe, expect, test } from 'vitest';
import { stringify } from 'yaml';
import { standardPacks } from './example.ts';
import { DOWN, UP, VEHICLE } from './little-guides.ts';
import { listVariables, listVariants, runOracle } from './oracle.ts';
import type { Raw } from './raw.ts';

const packs = standardPacks();

describe('a guide alone', () => {
  const alone = (steps: Raw[], guide: Raw = {}): string[] => {
    const text = stringify({
      kitproof: 'install/1',
      title: 'T',
      ...guide,
      sections: [{ title: 'S', steps }],
    });
    return runOracle({ 'g.install.yaml': text }, 'g.install.yaml', packs, {}).map((one) =>
      `${one.rule} ${one.operation} ${one.item} ${one.side}`.trim(),
    );
  };
  test('a guessed shock limits the axle that shares its front or rear', () => {
    const found = alone([
      {
        do: [
          UP,
          { clean: 'front-axle' },
          { remove: 'front-shock.lower-bolt' },
          { snug: 'front-shock.lower-bolt' },
          DOWN,
          { torque: 'front-shock.lower-bolt', to: 'maker' },
        ],
      },
    ]);
    expect(found).toEqual(['support-axle-before-shock-removal 1.1.3 front-shock right']);
  });
  test('a final torque without a figure anywhere', () => {
    expect(alone([{ do: [{ loosen: 'door.bolt' }, { torque: 'door.bolt' }] }])).toEqual([
      'torque-without-figure 1.1.2 door.bolt',
    ]);
  });
});

describe('use', () => {
  test('runs the steps of another guide in place, with names exchanged', () => {
    const files = {
      'v.vehicle.yaml': VEHICLE,
      'g.install.yaml': stringify({
        kitproof: 'install/1',
        vehicle: 'v.vehicle.yaml',
        sections: [
          {
            title: 'S',
            steps: [
              { do: [{ use: { guide: 'other.install.yaml', section: 'two', with: { panel: 'tray' } } }] },
            ],
          },
        ],
      }),
      'other.install.yaml': stringify({
        kitproof: 'install/1',
        sections: [
          { title: 'one', steps: [] },
          { title: 'two', steps: [{ do: [{ loosen: 'panel.bolt' }] }] },
        ],
      }),
    };
    expect(runOracle(files, 'g.install.yaml', packs, {})).toEqual([
      { rule: 'left-loose', operation: '1.1.1/2.1.1', item: 'tray.bolt', side: '' },
    ]);
  });
});

describe('variants', () => {
  const guide = `
kitproof: install/1
vehicle: v.vehicle.yaml
covers: { lockers: fitted }
sections:
  - steps:
      - { optional: true, do: [{ check: x, else: worn }], when: { load: { at-least: 100 kg } } }
`;
  const files = { 'v.vehicle.yaml': VEHICLE, 'g.install.yaml': guide };
  test('variables are traits, optional steps and branches, within covers', () => {
    expect(listVariables(files, 'g.install.yaml')).toEqual([
      { name: 'lockers', values: ['fitted'] },
      { name: 'load', values: ['0 kg', '50 kg', '100 kg', '250 kg', '400 kg'] },
      { name: 'done:1.1', values: ['yes', 'no'] },
      { name: 'found:worn', values: ['yes', 'no'] },
    ]);
  });
  test('variants are their product', () => {
    expect(listVariants(files, 'g.install.yaml')).toHaveLength(20);
  });
});
