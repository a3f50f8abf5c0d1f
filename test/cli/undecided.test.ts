import { describe, expect, it } from 'vitest';
import { undecidedInWords } from '../../server/src/check/undecided-in-words';
import { kitproof } from './program';

const GUIDE = `kitproof: install/1
title: G
sections:
  - title: S
    steps:
      - do: [{ raise: vehicle, with: two-post-lift }]
      - do: [{ unbolt: rear-shock }, { discard: rear-shock }]
      - text: Think.
      - do: [{ lower: vehicle }]
  - title: Later
    steps:
      - text: Think again.
`;

describe('what was not decided', () => {
  it('is told as what to write, with the steps that were not checked', async () => {
    const files = { 'g.install.yaml': GUIDE };
    const { out } = await kitproof(['check', '--undecided', '--fail-on', 'never'], { files });
    expect(out).toContain('    heavy-part-held: say the mass of rear-shock (mass: 3 kg)\n');
    expect(out).toContain('    left-without: say in a kit file which part takes the place of rear-shock');
    expect(out).toContain('Steps not checked, or not all of them\n  g.install.yaml\n    1.3, 2.1\n');
    expect(out).toContain('Steps checked: 3 of 5 (60 %), not 1.3 and 2.1; undecided: ');
    const json = await kitproof(['check', '--undecided', '--fail-on', 'never', '--format', 'json'], {
      files,
    });
    expect(JSON.parse(json.out).unchecked).toEqual([
      { file: 'g.install.yaml', step: '1.3', undeclared: [] },
      { file: 'g.install.yaml', step: '2.1', undeclared: [] },
    ]);
  });

  it('beside a vehicle file is also what that does not declare, be it ever so far from all it does', async () => {
    const files = {
      'm.vehicle.yaml':
        'kitproof: vehicle/1\nname: M\nparts: { guard: { kind: bracket, mass: 2 kg, joints: { bolt: { torque: 9 N·m } } } }\n',
      'g.install.yaml': `kitproof: install/1
title: G
vehicle: m.vehicle.yaml
sections:
  - title: S
    steps:
      - do: [{ unbolt: [tail-pipe, guard] }]
      - do: [{ bolt-up: [tail-pipe, guard] }, { torque: [tail-pipe, guard], to: 9 N·m }]
      - do: [{ check: guard }]
`,
    };
    const { out } = await kitproof(['check', '--undecided'], { files });
    expect(out).toContain('unknown-name: declare tail-pipe in the vehicle file');
    expect(out).toContain('    1.1 (not declared: tail-pipe), 1.2 (not declared: tail-pipe)\n');
    expect(out).toContain('Steps checked: 1 of 3 (33 %), not 1.1 and 1.2; undecided: ');
    const short = await kitproof(['check'], { files });
    expect(short.out.replaceAll('\n', ' ')).toMatch(
      /not 1\.1 and 1\.2; undecided: \d+ \(list them with --undecided\)/,
    );
  });

  it('names the guide of a step where there are several, and no steps where they are many', async () => {
    const thought = '      - text: Think.\n';
    const two = await kitproof(['check', '--fail-on', 'never'], {
      files: { 'a.install.yaml': GUIDE, 'b.install.yaml': GUIDE.slice(0, GUIDE.indexOf('  - title: Later')) },
    });
    expect(two.out.replaceAll('\n', ' ')).toContain(
      'not a.install.yaml 1.3, a.install.yaml 2.1 and b.install.yaml 1.3;',
    );
    const many = await kitproof(['check', '--fail-on', 'never'], {
      files: { 'a.install.yaml': GUIDE + thought.repeat(3) },
    });
    expect(many.out).toContain('Steps checked: 3 of 8 (37 %); undecided');
  });

  it.each([
    ['declaration', 'declare front-caliper in the vehicle file'],
    ['slack', 'say the slack of front-caliper (slack: 60 mm)'],
    ['paths.over', 'say the slack that front-caliper has on the path over (paths: { over: 50 mm })'],
    ['colour', 'say colour of front-caliper'],
    ['constructor', 'say constructor of front-caliper'],
  ])('%s', (property, words) => {
    expect(undecidedInWords({ rule: 'r', item: 'front-caliper', property })).toBe(words);
  });
});
