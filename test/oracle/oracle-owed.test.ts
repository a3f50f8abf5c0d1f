// Little guides with the findings that the page asks for: a second reading of schemas/semantics.md.
import { describe, expect, test } from 'vitest';
import { type Case, findings } from './little-guides.ts';

const CASES: Case[] = [
  {
    name: 'a self-locking nut is used up once out, and new: makes it fresh',
    steps: [
      { loosen: 'front-shock.top', side: 'left' },
      { torque: 'front-shock.top', side: 'left' },
      { remove: 'front-shock.top' },
      { torque: 'front-shock.top', side: 'left', new: ['nut'] },
      { torque: 'front-shock.top', side: 'right' },
    ],
    expected: ['new-locking-nut 1.5.1 front-shock.top right'],
  },
  {
    name: 'a slotted nut wants its pin after the torque',
    steps: [
      { loosen: 'tie-rod.nut' },
      { renew: 'tie-rod.nut.pin' },
      { torque: 'tie-rod.nut' },
      { check: 'alignment' },
    ],
    expected: ['pin-after-torque 1.2.1 tie-rod.nut'],
  },
  {
    name: 'a slotted nut without its pin',
    steps: [{ loosen: 'tie-rod.nut' }, { torque: 'tie-rod.nut' }, { check: 'alignment' }],
    expected: ['left-without-pin 1.1.1 tie-rod.nut'],
  },
  {
    name: 'a taper holds until it is freed, and wants seating again',
    steps: [
      { remove: 'tie-rod.nut' },
      { free: 'tie-rod.taper' },
      { remove: 'tie-rod' },
      { fit: 'tie-rod' },
      { torque: 'tie-rod.nut', new: ['pin'] },
      { check: 'alignment' },
    ],
    expected: ['left-unseated 1.2.1 tie-rod.taper'],
  },
  {
    name: 'steering undone is owed its alignment, which owes may hand over',
    steps: [{ loosen: 'tie-rod.nut' }, { torque: 'tie-rod.nut', new: ['pin'] }],
    expected: [],
    extra: { guide: { owes: [{ check: 'alignment', before: 'road' }] } },
  },
  {
    name: 'alignment is neither done nor owed',
    steps: [{ loosen: 'tie-rod.nut' }, { torque: 'tie-rod.nut', new: ['pin'] }],
    expected: ['alignment-after-arms-or-steering 1.1.1 tie-rod.nut'],
  },
  {
    name: 'an open hose: disconnected, then unbled',
    steps: [{ disconnect: 'front-hose' }, { connect: 'front-hose', side: 'left' }],
    expected: ['left-disconnected 1.1.1 front-hose right', 'left-unbled 1.1.1 front-hose left'],
  },
  {
    name: 'bled but not checked',
    steps: [{ disconnect: 'front-hose' }, { connect: 'front-hose' }, { bleed: 'front-hose' }],
    expected: ['left-unchecked 1.1.1 front-hose left', 'left-unchecked 1.1.1 front-hose right'],
  },
  {
    name: 'a retracting cable is held first',
    steps: [{ disconnect: 'cable.axle' }, { connect: 'cable' }],
    expected: ['retracting-cable-held 1.1.1 cable'],
  },
  {
    name: 'the aid on a cable must come off',
    steps: [{ hold: 'cable', with: 'locking-pliers' }, { disconnect: 'cable.axle' }, { connect: 'cable' }],
    expected: ['left-held 1.1.1 cable'],
  },
  {
    name: 'the aid on what is scrapped goes with it',
    steps: [{ hold: 'hook', with: 'wire' }, { unbolt: 'hook' }, { discard: 'hook' }],
    expected: [],
  },
  {
    name: 'a place and a side have their own state',
    steps: [
      { loosen: 'hook.bolt' },
      { torque: 'hook.bolt', station: 'front' },
      { torque: 'hook.bolt', station: 'rear', side: 'left' },
    ],
    expected: ['left-loose 1.1.1 hook.bolt rear/right'],
  },
  {
    name: 'side: each repeats an unsided operation',
    steps: [
      {
        do: [
          { loosen: 'valve.bolt' },
          { torque: 'valve.bolt' },
          { remove: 'front-wheel.nut' },
          { torque: 'front-wheel.nut' },
        ],
        side: 'each',
      },
    ],
    expected: ['reach 1.1.1 valve'],
  },
  { name: 'nothing is done to what a variant does not have', steps: [{ disconnect: 'plug' }], expected: [] },
  {
    name: 'in the variant that has it, it is owed',
    steps: [{ disconnect: 'plug' }],
    expected: ['left-disconnected 1.1.1 plug'],
    extra: { variant: { lockers: 'fitted' } },
  },
  {
    name: 'kit parts: the old one still on, the new one owed from its fit',
    steps: [{ 'bolt-up': 'long-bar' }],
    expected: [
      'left-loose 1.1.1 long-bar.axle-bolt',
      'left-loose 1.1.1 long-bar.frame-bolt',
      'old-part-still-on 1.1.1 long-bar',
    ],
    extra: { kit: true },
  },
  {
    name: 'kit parts left in the box, where they exist',
    steps: [],
    expected: ['left-unused 0 long-bar', 'left-unused 0 plate'],
    extra: { kit: true, variant: { lift: '50 mm' } },
  },
  {
    name: 'a drilled hole is owed its protection',
    steps: [
      { offer: 'plate' },
      { drill: 'plate.hole', to: '5 mm' },
      { drill: 'plate.hole', to: '13 mm' },
      { deburr: 'plate.hole' },
      { 'bolt-up': 'plate' },
      { torque: 'plate.bolt' },
      { discard: 'long-bar' },
    ],
    expected: ['left-unprotected 1.3.1 plate.hole'],
    extra: { kit: true, variant: { lift: '50 mm' } },
  },
  {
    name: 'an optional step is done or not',
    steps: [
      { do: [{ loosen: 'tray.bolt' }], optional: true, id: 'look' },
      { do: [{ torque: 'tray.bolt' }], when: { not: { done: 'look' } } },
    ],
    expected: [],
    extra: { variant: { 'done:look': 'no' } },
  },
  {
    name: 'an optional step that is done',
    steps: [{ do: [{ loosen: 'tray.bolt' }], optional: true }],
    expected: ['left-loose 1.1.1 tray.bolt'],
    extra: { variant: { 'done:1.1': 'yes' } },
  },
  {
    name: 'a branch that nobody measured is told where it is asked for',
    steps: [
      { do: [{ check: 'x' }], when: { found: 'worn' } },
      { measure: 'bush', expect: { below: '10 mm' }, else: 'worn' },
      { do: [{ check: 'x' }], when: { found: 'worn' } },
    ],
    expected: ['found-without-measure 1.1 worn'],
  },
  {
    name: 'a caution covers a rule in its step',
    steps: [
      { do: [{ loosen: 'tray.bolt' }], caution: { signal: 'notice', text: 'x', covers: ['left-loose'] } },
    ],
    expected: [],
  },
  {
    name: 'leaves excuses what is so',
    steps: [{ loosen: 'tray.bolt' }],
    expected: [],
    extra: { guide: { leaves: { 'tray.bolt': 'loose' } } },
  },
  {
    name: 'leaves tells what is not so',
    steps: [],
    expected: ['leaves-not-so 0 tray.bolt'],
    extra: { guide: { leaves: { 'tray.bolt': 'loose' } } },
  },
  {
    name: 'given opens nothing by itself',
    steps: [],
    expected: [],
    extra: { guide: { given: { tray: 'off', 'hook.bolt': 'loose' } } },
  },
  {
    name: 'a part given off owes its joints from the fit',
    steps: [{ fit: 'tray' }],
    expected: ['left-loose 1.1.1 tray.bolt'],
    extra: { guide: { given: { tray: 'off' } } },
  },
  {
    name: 'given narrows to the side of the guide',
    steps: [{ fit: 'front-wheel' }],
    expected: ['do-done 1.1.1 front-wheel right', 'left-loose 1.1.1 front-wheel.nut left'].slice(1),
    extra: { guide: { side: 'left', given: { 'front-wheel': 'off' } } },
  },
  {
    name: 'a switch that is not put back',
    steps: [{ switch: 'parking-brake', to: 'off' }],
    expected: ['left-switched 1.1.1 parking-brake'],
  },
  {
    name: 'a value used before it is recorded',
    steps: [{ set: 'threads', to: 'recorded' }, { record: 'threads' }],
    expected: ['recorded-first 1.1.1 threads'],
  },
  {
    name: 'a rule that is off says nothing',
    steps: [{ loosen: 'tray.bolt' }],
    expected: [],
    extra: { config: { rules: { 'left-loose': 'off' } } },
  },
];

describe('pieces, lines, kits, conditions, what is owed', () => {
  for (const { name, steps, expected, extra } of CASES) {
    test(name, () => expect(findings(steps, extra)).toEqual([...expected].sort()));
  }
});
