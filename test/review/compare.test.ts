import { describe, expect, it } from 'vitest';
import type { ReportedChange } from '../../server/src/review/report';
import { compared, type Texts } from './read';

const VEHICLE = `kitproof: vehicle/1
name: Moorhen
traits: { lockers: [none, fitted], wheelbase: [short, long] }
parts:
  rear-axle: { kind: live-axle, mass: 90 kg, drop: 180 mm, limited-by: [rear-shock] }
  rear-shock: { kind: shock, sided: true, joins: [frame, rear-axle], joints: { top-bolt: { hex: 18 mm, torque: 85 N·m }, lower-bolt: { hex: 18 mm, torque: 85 N·m } } }
  spare-wheel: { kind: wheel, joins: [frame], joints: { nut: { torque: 60 N·m } } }
lines:
  locker-plug: { kind: plug, spans: [frame, rear-axle], slack: 40 mm, when: { lockers: fitted } }
`;

const KIT = `kitproof: kit/1
name: Trail shocks
parts:
  new-shock: { kind: shock, replaces: rear-shock, quantity: 2 }
hardware:
  washer: { quantity: 4, for: new-shock.top-bolt }
`;

const GUIDE = `kitproof: install/1
title: Rear shocks
vehicle: moorhen.vehicle.yaml
kit: trail.kit.yaml
covers: { lockers: any, wheelbase: short }
owes:
  - { check: new-shock.top-bolt, after: 80 km }
sections:
  - title: Off
    steps:
      - id: up
        text: Raise the vehicle.
        do: [{ raise: vehicle, with: two-post-lift }]
        time: 5 min
      - id: plug
        when: { lockers: fitted }
        text: Unplug the locker.
        do: [{ disconnect: locker-plug }]
      - id: carried
        text: Take the axle's weight.
        people: 2
        do: [{ support: rear-axle, with: pole-jacks }]
        caution: { signal: danger, text: The axle drops when the last shock is off. }
      - id: shocks-off
        text: Take both shocks off and scrap them.
        do: [{ unbolt: rear-shock }, { discard: rear-shock }]
  - title: "On"
    steps:
      - id: shocks-on
        text: Bolt the new shocks up.
        do:
          - bolt-up: new-shock
          - torque: [new-shock.top-bolt, new-shock.lower-bolt]
            to: 85 N·m
      - id: plug-on
        when: { lockers: fitted }
        do: [{ connect: locker-plug }]
      - id: jacks-out
        do: [{ unsupport: rear-axle }]
      - id: down
        text: Lower the vehicle.
        do: [{ lower: vehicle }]
`;

const FILES: Texts = {
  'moorhen.vehicle.yaml': VEHICLE,
  'trail.kit.yaml': KIT,
  'shocks.install.yaml': GUIDE,
};

const CARRIED = GUIDE.slice(GUIDE.indexOf('      - id: carried'), GUIDE.indexOf('      - id: shocks-off'));

/** What changes when stretches of a file are written otherwise. */
async function after(...edits: readonly (readonly [string, string])[]): Promise<readonly ReportedChange[]> {
  const files: Record<string, string> = { ...FILES };
  for (const [old, put] of edits) {
    const name = Object.keys(files).find((one) => files[one]!.includes(old));
    if (name === undefined) throw new Error(`Nothing reads ${old}`);
    files[name] = files[name]!.replace(old, put);
  }
  return (await compared(FILES, files, 'shocks.install.yaml')).changes;
}

const sentences = (changes: readonly ReportedChange[]) => changes.map(({ sentence }) => sentence);

describe('what is no change', () => {
  it('is a guide held against itself', async () => {
    const { changes, effects, notes } = await compared(FILES, FILES, 'shocks.install.yaml');
    expect(changes).toEqual([]);
    expect(notes).toEqual([]);
    expect(effects.findings.after).toEqual(effects.findings.before);
  });

  it('is layout, comments, the order of keys, another spelling, and a list of one', async () => {
    expect(
      await after(
        [
          'do: [{ raise: vehicle, with: two-post-lift }]',
          'do:\n          - with: two-post-lift # fast\n            raise: vehicle',
        ],
        ['to: 85 N·m\n', 'to: 85 Nm\n'],
        ['when: { lockers: fitted }', 'when: { lockers: [fitted] }'],
        [
          'Take both shocks off and scrap them.',
          '>-\n          Take both shocks off\n          and scrap them.',
        ],
        ['mass: 90 kg, drop: 180 mm', 'drop: 18 cm, mass: 90 kg'],
        ['covers: { lockers: any, wheelbase: short }', 'covers: { wheelbase: [short] }'],
        ['time: 5 min', 'time: 300 s'],
      ),
    ).toEqual([]);
  });

  it('is a list parted into single operations, and other numbers of steps', async () => {
    const parted = await after([
      '- torque: [new-shock.top-bolt, new-shock.lower-bolt]\n            to: 85 N·m',
      '- { torque: new-shock.top-bolt, to: 85 N·m }\n          - { torque: new-shock.lower-bolt, to: 85 N·m }',
    ]);
    expect(parted).toEqual([]);
    const numbered = await after([
      '      - id: up',
      '      - text: Look at the job.\n        do: [{ check: job-card }]\n      - id: up',
    ]);
    expect(sentences(numbered)).toEqual(['Step 1.1 ("Look at the job.") is new: check job-card.']);
  });
});

describe('what a mechanic wants to see first', () => {
  it('is a support that is gone, after what it brings about', async () => {
    const changes = await after([CARRIED, '']);
    expect(sentences(changes).slice(0, 2)).toEqual([
      'New error in step 1.3 "shocks-off": With rear-shock (right) undone, rear-axle drops: nothing holds it.',
      'Step 1.3 "carried" is gone: nothing says any more to support rear-axle with pole-jacks.',
    ]);
    const gone = changes.find(({ kind }) => kind === 'step-removed')!;
    expect(gone).toMatchObject({ level: 'first', after: null, step: { id: 'carried' } });
    expect(gone.before).toEqual({ file: 'shocks.install.yaml', line: 19 });
    expect(gone.from).toContain('DANGER: The axle drops when the last shock is off.');
  });

  it('is a caution that is gone, or weaker, or says that it answers a rule', async () => {
    const caution = '        caution: { signal: danger, text: The axle drops when the last shock is off. }\n';
    expect(sentences(await after([caution, '']))).toEqual([
      'Step 1.3 "carried" has lost its caution (DANGER).',
    ]);
    expect(sentences(await after(['signal: danger', 'signal: notice']))).toEqual([
      'The caution of step 1.3 "carried" is weaker: NOTICE instead of DANGER.',
    ]);
    expect(
      sentences(await after(['signal: danger,', 'signal: danger, covers: chock-before-lift,'])),
    ).toContain(
      'The caution of step 1.3 "carried" now says that it answers chock-before-lift, so that nothing more is told of that there.',
    );
  });

  it('is another torque, with both units, for all joints of a list at once', async () => {
    const changes = await after(['to: 85 N·m\n', 'to: 95 N·m\n']);
    const torque = changes.filter(({ kind }) => kind === 'torque');
    expect(sentences(torque)).toEqual([
      'Step 2.1 "shocks-on" tightens new-shock.top-bolt and new-shock.lower-bolt to 95 N·m (70 lbf·ft) instead of 85 N·m (63 lbf·ft), 12 % more.',
    ]);
    expect(torque[0]).toMatchObject({ level: 'first', from: '85 N·m (63 lbf·ft)', to: '95 N·m (70 lbf·ft)' });
  });

  it('is a torque of the vehicle, with the steps that tighten by it or by a figure of their own', async () => {
    const changes = await after([
      'lower-bolt: { hex: 18 mm, torque: 85 N·m }',
      'lower-bolt: { hex: 18 mm, torque: 95 N·m }',
    ]);
    expect(sentences(changes.filter(({ kind }) => kind === 'torque'))).toContain(
      'new-shock.lower-bolt and rear-shock.lower-bolt: torque is 95 N·m (70 lbf·ft) instead of 85 N·m (63 lbf·ft) in moorhen.vehicle.yaml; step 2.1 "shocks-on" says a figure of its own.',
    );
  });

  it('is a wider cover, a duty that is gone, a waiver, one person instead of two', async () => {
    expect((await after(['wheelbase: short', 'wheelbase: any']))[0]).toMatchObject({
      sentence: 'The guide now also covers wheelbase: long.',
      level: 'first',
      after: { file: 'shocks.install.yaml', line: 5 },
    });
    expect(sentences(await after(['owes:\n  - { check: new-shock.top-bolt, after: 80 km }\n', '']))).toEqual([
      'The hand-over sheet no longer asks to check new-shock.top-bolt after 80 km.',
    ]);
    const waived = await after([
      'id: shocks-off\n',
      'id: shocks-off\n        waive: [{ rule: support-axle-before-shock-removal, because: A rig holds it, by: A. Writer, until: 2026-12-31 }]\n',
    ]);
    expect(sentences(waived)).toContain(
      'support-axle-before-shock-removal is now waived in step 1.4 "shocks-off", by A. Writer, until 2026-12-31: A rig holds it.',
    );
    const [alone] = await after(['        people: 2\n', '']);
    expect(alone).toMatchObject({
      level: 'first',
      sentence: 'Step 1.3 "carried" is for one person instead of 2 people.',
    });
  });
});

describe('what is done otherwise', () => {
  it('is one operation for another', async () => {
    const changes = await after(['{ discard: rear-shock }', '{ swing: rear-shock }']);
    expect(sentences(changes)).toContain(
      'Step 1.4 "shocks-off" now says to swing rear-shock instead of to discard rear-shock.',
    );
  });

  it('is a step that moved, told as one move', async () => {
    const changes = await after([CARRIED, ''], ['      - id: shocks-on', `${CARRIED}      - id: shocks-on`]);
    expect(sentences(changes.filter(({ kind }) => kind === 'step-moved'))).toEqual([
      'Step 2.1 "carried" now comes after step 1.3 "shocks-off"; before, it came after step 1.2 "plug".',
    ]);
    expect(changes.some(({ kind }) => kind === 'step-removed' || kind === 'step-added')).toBe(false);
  });

  it('is work that went to another step', async () => {
    const changes = await after(
      ['do: [{ unbolt: rear-shock }, { discard: rear-shock }]', 'do: [{ unbolt: rear-shock }]'],
      ['          - bolt-up: new-shock', '          - discard: rear-shock\n          - bolt-up: new-shock'],
    );
    expect(sentences(changes)).toEqual([
      'Discard rear-shock is now done in step 2.1 "shocks-on" instead of step 1.4 "shocks-off".',
    ]);
  });

  it('is other variants, for a step and for an operation', async () => {
    const changes = await after([
      '      - id: plug\n        when: { lockers: fitted }',
      '      - id: plug\n        when: { wheelbase: short }',
    ]);
    expect(sentences(changes)).toContain(
      'Step 1.2 "plug" is now done always; before, only with lockers: fitted.',
    );
    const one = await after(['{ discard: rear-shock }', '{ discard: rear-shock, when: { lockers: none } }']);
    expect(sentences(one)).toContain(
      'Step 1.4 "shocks-off" now says to discard rear-shock only with lockers: none; before, always.',
    );
  });

  it('is a narrower cover, told where it stands and not of the data beneath', async () => {
    const changes = await after(['lockers: any, wheelbase', 'lockers: none, wheelbase']);
    expect(changes.filter(({ kind }) => kind === 'covers')).toMatchObject([
      {
        sentence: 'The guide no longer covers lockers: fitted.',
        level: 'first',
        before: { file: 'shocks.install.yaml', line: 5 },
      },
    ]);
    expect(changes.filter(({ kind }) => kind === 'data')).toEqual([]);
    const data = await after(['slack: 40 mm, when: { lockers: fitted }', 'slack: 40 mm']);
    expect(sentences(data)).toContain(
      'locker-plug: fitted to is no longer said; it was only with lockers: fitted in moorhen.vehicle.yaml.',
    );
  });

  it('is a caution of injury that reads otherwise, told first', async () => {
    for (const [signal, level] of [
      ['danger', 'first'],
      ['caution', 'work'],
    ] as const) {
      const files = (text: string) => ({ ...FILES, 'shocks.install.yaml': text });
      const old = GUIDE.replace('signal: danger', `signal: ${signal}`);
      const now = old.replace('when the last shock is off', 'as soon as the last shock is off');
      const { changes } = await compared(files(old), files(now), 'shocks.install.yaml');
      expect(changes).toMatchObject([{ kind: 'caution-changed', level }]);
    }
  });

  it('is the kit: parts, their number, hardware', async () => {
    const box = (count: number) => ({
      ...FILES,
      'trail.kit.yaml': `${KIT}  nut: { quantity: ${count}, for: new-shock.top-bolt }\n`.replace(
        '4',
        `${count}`,
      ),
    });
    expect(sentences((await compared(box(6), box(8), 'shocks.install.yaml')).changes)).toContain(
      'The box holds 8 each of nut and washer instead of 6.',
    );
    expect(sentences(await after(['washer: { quantity: 4,', 'washer: { quantity: 2,']))).toContain(
      'The box holds 2 washer instead of 4.',
    );
    const changes = await after([
      'hardware:\n',
      '  shim: { kind: spacer, joins: [frame], quantity: 2 }\nhardware:\n',
    ]);
    expect(sentences(changes)).toContain('shim is new in the kit (2).');
  });

  it('is nothing where the vehicle changed in what the guide does not touch', async () => {
    const other = {
      ...FILES,
      'moorhen.vehicle.yaml': VEHICLE.replace('nut: { torque: 60 N·m }', 'nut: { torque: 70 N·m }'),
    };
    const { changes, untouched } = await compared(FILES, other, 'shocks.install.yaml');
    expect([changes, untouched]).toEqual([[], 1]);
  });

  it('is another name, told once, for parts and for joints', async () => {
    const renamed = async (...names: [string, string][]) => {
      const files = Object.entries(FILES).map(([name, text]) => [
        name,
        names.reduce((all, [from, to]) => all.replaceAll(from, to), text),
      ]);
      return sentences((await compared(FILES, Object.fromEntries(files), 'shocks.install.yaml')).changes);
    };
    expect(await renamed(['rear-shock', 'rear-damper'], ['locker-plug', 'lock-plug'])).toEqual([
      'rear-shock is now called rear-damper, in the data and in the steps.',
      'locker-plug is now called lock-plug, in the data and in the steps.',
    ]);
    expect(await renamed(['top-bolt', 'upper-bolt'])).toEqual([
      'new-shock.top-bolt is now called new-shock.upper-bolt, in the data and in the steps.',
      'rear-shock.top-bolt is now called rear-shock.upper-bolt, in the data and in the steps.',
    ]);
  });

  it('is another part where its data differ, whatever its name', async () => {
    const changes = await after(
      ['  rear-shock: { kind: shock', '  rear-damper: { kind: shock, mass: 9 kg'],
      ['limited-by: [rear-shock]', 'limited-by: [rear-damper]'],
      ['replaces: rear-shock', 'replaces: rear-damper'],
      [
        'do: [{ unbolt: rear-shock }, { discard: rear-shock }]',
        'do: [{ unbolt: rear-damper }, { discard: rear-damper }]',
      ],
    );
    expect(sentences(changes)).toContain('rear-damper is new in moorhen.vehicle.yaml.');
    expect(changes.some(({ kind }) => kind === 'renamed')).toBe(false);
  });
});

describe('words, times and papers', () => {
  it('come last, with what they were', async () => {
    const changes = await after(
      ['Raise the vehicle.', 'Raise the vehicle to chest height.'],
      ['time: 5 min', 'time: { low: 4 min, likely: 6 min, high: 9 min }'],
      ['signal: danger', 'signal: notice'],
    );
    expect(changes.map(({ level, sentence }) => [level, sentence])).toEqual([
      ['first', 'The caution of step 1.3 "carried" is weaker: NOTICE instead of DANGER.'],
      ['words', 'The words of step 1.1 "up" changed.'],
      ['words', 'Step 1.1 "up" takes 6 min (4 to 9 min) instead of 5 min.'],
    ]);
    expect(changes[1]).toMatchObject({
      from: 'Raise the vehicle.',
      to: 'Raise the vehicle to chest height.',
    });
  });
});

describe('what stands outside the guide', () => {
  it('is told where it changes the hours, though the guide says the same', async () => {
    const allowing = (personal: string) => ({
      ...FILES,
      'kitproof.yaml': `kitproof: config/1\nallowances: { personal: ${personal}, on: job-time }\n`,
    });
    const { changes } = await compared(allowing('5 %'), allowing('50 %'), 'shocks.install.yaml');
    expect(sentences(changes)).toEqual([
      'The guide says what it said; rules, standard times or settings that count for it changed.',
    ]);
  });
});

describe('what could not be read', () => {
  it('is told, and the rest is compared', async () => {
    const broken = { ...FILES, 'shocks.install.yaml': GUIDE.replace('time: 5 min', 'time: [') };
    const { notes } = await compared(broken, FILES, 'shocks.install.yaml');
    expect(notes[0]).toMatch(
      /in reading the old shocks\.install\.yaml: what could not be read there is not compared\.$/,
    );
  });

  it('are files that a version names and does not have', async () => {
    const { 'trail.kit.yaml': _, ...less } = FILES;
    const { notes } = await compared(FILES, less, 'shocks.install.yaml');
    expect(notes).toEqual(['The new version names trail.kit.yaml, which is not there.']);
  });
});
