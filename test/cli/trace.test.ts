import { describe, expect, it } from 'vitest';
import { VEHICLE } from './moorhen';
import { kitproof } from './program';

const files = {
  'm.vehicle.yaml': VEHICLE,
  'other.install.yaml': `kitproof: install/1
title: Other
vehicle: m.vehicle.yaml
sections:
  - title: S
    id: shared
    steps:
      - text: Think.
      - id: last
        text: "As in {step:last}: {torque:front-wheel.nut}."
        do: [{ check: front-wheel.nut }]
`,
  'g.install.yaml': `kitproof: install/1
title: G
vehicle: m.vehicle.yaml
sections:
  - title: S
    steps:
      - id: nuts
        text: "Bring {part:front-wheel} to {torque:front-wheel.nut}; see {step:plug}, {torque:nothing.nut}."
        do: [{ torque: front-wheel.nut, to: 140 N·m }]
      - id: plug
        when: { lockers: fitted }
        text: "Look; {torque:front-wheel} stays."
        do: [{ check: locker-plug }]
      - do: [{ use: shared, guide: other.install.yaml }]
`,
};

describe('trace', () => {
  it('prints what titles name: the figure of the step, else of the data; what is not known stays', async () => {
    const { out } = await kitproof(['trace', 'g.install.yaml'], { files });
    expect(out).toContain('Bring front wheel to 140 N·m; see step 1.2, {torque:nothing.nut}.');
    expect(out).toContain('Look; 130 N·m stays.');
  });

  it('says so of a step that the variant does not have', async () => {
    for (const at of ['plug', '1.2']) {
      const none = await kitproof(['trace', 'g.install.yaml', '--at', at, '--variant', 'lockers=none'], {
        files,
      });
      expect(none).toMatchObject({ status: 0, err: '' });
      expect(none.out).toContain(`Step ${at} is not done with lockers: none.`);
    }
    const there = await kitproof(['trace', 'g.install.yaml', '--at', 'plug', '--variant', 'lockers=fitted'], {
      files,
    });
    expect(there.out).toContain('stays.');
    expect(there.out).not.toContain('is not done');
    const nowhere = await kitproof(['trace', 'g.install.yaml', '--at', 'plgu'], { files });
    expect(nowhere).toMatchObject({ status: 2, out: '' });
  });
});

describe('trace of a guide that goes on from another', () => {
  const second = `kitproof: install/1
title: Second
vehicle: m.vehicle.yaml
follows: first.install.yaml
sections:
  - title: S
    steps:
      - do: [{ check: front-wheel.nut }]
      - do: [{ bolt-up: front-wheel }]
`;
  const first = `kitproof: install/1
title: First
vehicle: m.vehicle.yaml
leaves: { front-wheel: off }
sections: []
`;

  it('tells what it takes over before the first step, not as changes of that', async () => {
    const world = {
      files: {
        'm.vehicle.yaml': files['m.vehicle.yaml'],
        'g.install.yaml': second,
        'first.install.yaml': first,
      },
    };
    const { out } = await kitproof(['trace', 'g.install.yaml'], world);
    const [, start, one, two] = out.split('\n\n');
    expect(start).toBe(`Before the first step
      front-wheel (left, right)      fitted → off
      front-wheel.nut (left, right)  tight → out
      1 item open
        front-wheel (left, right)  off since 0`);
    expect(one).toContain('changes nothing');
    expect(two).toContain('front-wheel (left, right)      off → fitted');
    const step = await kitproof(['trace', 'g.install.yaml', '--at', '1.1'], world);
    expect(step.out).not.toContain('Before the first step');
  });

  it('says nothing of a start that is as the vehicle arrives', async () => {
    const { out } = await kitproof(['trace', 'g.install.yaml'], { files });
    expect(out).not.toContain('Before the first step');
  });
});
