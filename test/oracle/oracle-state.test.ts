// Little guides with the findings that the page asks for: a second reading of schemas/semantics.md.
import { describe, expect, test } from 'vitest';
import { type Case, DOWN, findings, UP } from './little-guides.ts';

const CASES: Case[] = [
  { name: 'an empty guide owes nothing', steps: [], expected: [] },
  {
    name: 'a check of an untouched joint is silent',
    steps: [{ torque: 'front-wheel.nut', to: '130 N·m' }],
    expected: [],
  },
  {
    name: 'what was loosened is owed on each side, where it was loosened',
    steps: [{ loosen: 'front-wheel.nut' }, { torque: 'front-wheel.nut', side: 'left' }],
    expected: ['left-loose 1.1.1 front-wheel.nut right'],
  },
  {
    name: 'a torque that differs',
    steps: [{ loosen: 'tray.bolt' }, { torque: 'tray.bolt', to: '26.1 N·m' }],
    expected: ['torque-differs 1.2.1 tray.bolt'],
  },
  {
    name: 'a torque within 1 N·m',
    steps: [{ loosen: 'tray.bolt' }, { torque: 'tray.bolt', to: '26 N·m' }],
    expected: [],
  },
  {
    name: 'a torque in pound-feet',
    steps: [{ loosen: 'tray.bolt' }, { torque: 'tray.bolt', to: '18 lbf·ft' }],
    expected: [],
  },
  {
    name: 'undoing what is out',
    steps: [{ remove: 'tray.bolt' }, { remove: 'tray.bolt' }, { torque: 'tray.bolt' }],
    expected: ['heavy-part-held 1.1.1 tray', 'undo-undone 1.2.1 tray.bolt'],
  },
  {
    name: 'two people hold a heavy part',
    steps: [{ do: [{ remove: 'tray.bolt' }], people: 2 }, { torque: 'tray.bolt' }],
    expected: [],
  },
  {
    name: 'a part off with its bolts in: assumed out, nothing owed for them',
    steps: [{ remove: 'valve' }, { fit: 'valve' }],
    expected: ['loosen-before-remove 1.1.1 valve', 'reach 1.1.1 valve'],
  },
  {
    name: 'what is off is owed',
    steps: [{ do: [{ unbolt: 'tray' }], people: 2 }],
    expected: ['left-off 1.1.1 tray'],
  },
  {
    name: 'what is scrapped is not',
    steps: [{ do: [{ unbolt: 'tray' }, { discard: 'tray' }], people: 2 }],
    expected: [],
  },
  {
    name: 'strict loosening asks for a loosen before every remove',
    steps: [{ remove: 'valve.bolt' }, { torque: 'valve.bolt' }],
    expected: ['loosen-before-remove 1.1.1 valve.bolt', 'reach 1.1.1 valve'],
    extra: { config: { strictLoosening: true } },
  },
  {
    name: 'the last shock lets the axle drop, told at the limiter that went last',
    steps: [
      UP,
      { remove: 'front-shock.low' },
      { snug: 'front-shock.low' },
      DOWN,
      { torque: 'front-shock.low' },
    ],
    expected: ['support-axle-before-shock-removal 1.2.1 front-shock right'],
  },
  {
    name: 'a held axle does not drop',
    steps: [
      UP,
      { support: 'front-axle', with: 'pole-jack' },
      { remove: 'front-shock.low' },
      { snug: 'front-shock.low' },
      { unsupport: 'front-axle' },
      DOWN,
      { torque: 'front-shock.low' },
    ],
    expected: [],
  },
  {
    name: 'the first gone of a chain is enough',
    steps: [
      UP,
      { remove: 'rear-strap.bolt' },
      { snug: 'rear-strap.bolt' },
      DOWN,
      { torque: 'rear-strap.bolt' },
    ],
    expected: ['support-axle-before-shock-removal 1.2.1 rear-strap'],
  },
  {
    name: 'taking the jack away once the limiters are undone',
    steps: [
      UP,
      { support: 'front-axle', with: 'pole-jack' },
      { remove: 'front-shock.low' },
      { unsupport: 'front-axle' },
      { snug: 'front-shock.low' },
      DOWN,
      { torque: 'front-shock.low' },
    ],
    expected: ['unsupport-carrying 1.4.1 front-axle'],
  },
  {
    name: 'a limiter that holds keeps the axle at droop, so nothing stretches',
    steps: [
      UP,
      { support: 'front-axle', with: 'pole-jack' },
      { lower: 'front-axle', by: '180 mm' },
      { unsupport: 'front-axle' },
      DOWN,
    ],
    expected: [],
  },
  {
    name: 'a lowered axle pulls its hoses and twists its bushes',
    steps: [
      UP,
      { support: 'front-axle', with: 'pole-jack' },
      { remove: 'front-shock.low' },
      { lower: 'front-axle', by: '100 mm' },
      { raise: 'front-axle' },
      { snug: 'front-shock.low' },
      { unsupport: 'front-axle' },
      DOWN,
      { torque: 'front-shock.low' },
    ],
    expected: [
      'left-tight-over-travel 1.4.1 front-bar',
      'line-stretched 1.4.1 front-hose left',
      'line-stretched 1.4.1 front-hose right',
    ],
  },
  {
    name: 'unclipped hoses have more slack',
    steps: [
      { loosen: 'front-bar' },
      { unclip: 'front-hose' },
      UP,
      { support: 'front-axle', with: 'pole-jack' },
      { remove: 'front-shock.low' },
      { lower: 'front-axle', by: '120 mm' },
      { remove: 'front-coil' },
      { fit: 'front-coil' },
      { raise: 'front-axle' },
      { snug: 'front-shock.low' },
      { unsupport: 'front-axle' },
      DOWN,
      { torque: ['front-shock.low', 'front-bar'] },
      { clip: 'front-hose' },
    ],
    expected: [],
  },
  {
    name: 'a spring is loaded until the axle hangs where it is free',
    steps: [UP, { remove: 'front-coil', side: 'left' }, { fit: 'front-coil', side: 'left' }, DOWN],
    expected: ['spring-loaded 1.2.1 front-coil left'],
  },
  {
    name: 'a bushed joint torqued in the air',
    steps: [UP, { loosen: 'front-bar.axle-bolt' }, { torque: 'front-bar.axle-bolt' }, DOWN],
    expected: ['torque-off-ride-height 1.3.1 front-bar.axle-bolt'],
  },
  {
    name: 'at: ride-height is held against the state for any joint',
    steps: [
      UP,
      { loosen: 'front-wheel.nut', side: 'left' },
      { torque: 'front-wheel.nut', side: 'left', at: 'ride-height' },
      DOWN,
    ],
    expected: ['not-at-ride-height 1.3.1 front-wheel.nut left'],
  },
  {
    name: 'landing without a wheel: assumed fitted and snug, owing nothing',
    steps: [UP, { unbolt: 'front-wheel', side: 'right' }, DOWN],
    expected: ['wheel-seated-before-ground 1.3.1 front-wheel right'],
  },
  {
    name: 'landing with a suspension joint only started',
    steps: [{ remove: 'front-bar.axle-bolt' }, { start: 'front-bar.axle-bolt' }, UP, DOWN],
    expected: ['joints-snug-before-ground 1.4.1 front-bar.axle-bolt'],
  },
  {
    name: 'a jack at one end wants chocks at the other, and stands before work beneath',
    steps: [
      { raise: 'front', with: 'trolley-jack' },
      { loosen: 'front-shock.top' },
      { torque: 'front-shock.top' },
      { lower: 'front' },
    ],
    expected: [
      'chock-before-jack 1.1.1 front',
      'stands-before-work-beneath 1.2.1 front-shock left',
      'stands-before-work-beneath 1.2.1 front-shock right',
    ],
  },
  {
    name: 'a stand left under what comes down',
    steps: [UP, { support: 'front-axle', with: 'axle-stand' }, DOWN],
    expected: ['stand-left-under 1.3.1 axle-stands'],
  },
  { name: 'a vehicle left up', steps: [UP], expected: ['left-raised 1.1.1 vehicle'] },
];

describe('undoing, carrying, hanging, landing', () => {
  for (const { name, steps, expected, extra } of CASES) {
    test(name, () => expect(findings(steps, extra)).toEqual([...expected].sort()));
  }
});
