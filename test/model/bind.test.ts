import { describe, expect, it } from 'vitest';
import { parseFixture } from '../support/fixture';
import { bind, jointOf, lineOf, partOf } from './support';
import { UPLAND } from './upland';

describe('a guide with vehicle and kit', () => {
  const { model } = bind(parseFixture(UPLAND).files);

  it('binds without a finding', () => {
    expect(model.findings).toEqual([]);
    expect(model.steps.every((step) => step.checked)).toBe(true);
    expect(model.withoutVehicle).toBe(false);
  });

  it('merges pack, file and self', () => {
    const wheel = partOf(model, 'front-wheel');
    expect(wheel.attributes).toMatchObject({ wheel: true, system: 'wheels', reach: 'outside' });
    expect(wheel.mass).toBe(32);
    expect(wheel.instances.map((instance) => instance.side)).toEqual(['left', 'right']);
    expect(jointOf(model, 'front-wheel.nut')).toMatchObject({ bolts: 5, hex: '21 mm', thread: 'M14x1.5' });
    expect(partOf(model, 'front-axle').kinds).toEqual(['live-axle', 'axle']);
  });

  it('ties parts, lines and limiters', () => {
    const axle = partOf(model, 'front-axle');
    expect(axle.limitedBy).toEqual([[partOf(model, 'front-shock')], [partOf(model, 'long-shock')]]);
    expect(partOf(model, 'front-shock').joins).toEqual(['frame', axle]);
    expect(lineOf(model, 'front-hose').heldBy).toBe(partOf(model, 'front-hose-bracket'));
    expect(lineOf(model, 'front-hose')).toMatchObject({ lineType: 'hydraulic', slack: 60, slackFree: 220 });
  });

  it('lets a kit part take over joints, sides and joins', () => {
    const shock = partOf(model, 'long-shock');
    expect(shock.sided).toBe(true);
    expect(shock.quantity).toBe(2);
    expect(shock.joins).toEqual(['frame', partOf(model, 'front-axle')]);
    expect([...shock.joints.keys()]).toEqual(['top-nut', 'lower-bolt']);
    const lower = jointOf(model, 'long-shock.lower-bolt');
    expect(lower.torque?.nominal).toBe(95);
    expect(lower.hex).toBe('18 mm');
    expect(lower.takesOver?.joint).toBe(jointOf(model, 'front-shock.lower-bolt'));
    expect([...(lower.takesOver?.newPieces ?? [])]).toEqual([]);
    expect(jointOf(model, 'long-shock.top-nut').takesOver?.newPieces.has('nut')).toBe(true);
    expect(partOf(model, 'lift-coil').freeAt).toBe(170);
  });

  it('keeps bushes and pieces as the joint says', () => {
    expect(jointOf(model, 'front-shock.lower-bolt').bushed).toBe(true);
    expect(jointOf(model, 'front-shock.top-nut').bushed).toBe(false);
    expect([...jointOf(model, 'front-shock.top-nut').singleUse]).toEqual([['nut', 'out']]);
  });

  it('turns conditions into sets of variants', () => {
    const { world } = model;
    const fitted = world.literal('lockers', ['fitted'])!;
    expect(model.things.get('front-locker-plug')!.presence).toBe(fitted);
    expect(model.steps[1]!.guard).toBe(fitted);
    expect(model.universe).toBe(1);
    const torque = model.steps[2]!.operations.at(-1)!;
    expect(torque.figure.map(({ set, value }) => [set, value === 'maker' ? value : value.nominal])).toEqual([
      [world.literal('wheelbase', ['long']), 140],
      [1, 95],
    ]);
  });

  it('takes the last of several stages for the figure, of the operation and of the data', () => {
    const project = UPLAND.replace(/to: \[\{ when.*/, 'stages: [27 N·m, 41 N·m, 54 N·m]').replace(
      'torque: 22 N·m',
      'stages: [10 N·m, 22 N·m]',
    );
    const bound = bind(parseFixture(project).files).model;
    expect(bound.findings).toEqual([]);
    expect(bound.steps[2]!.operations.at(-1)!.figure).toMatchObject([{ set: 1, value: { nominal: 54 } }]);
    expect(jointOf(bound, 'front-hose-bracket.bolt').torque?.nominal).toBe(22);
  });

  it('binds what steps and operations say', () => {
    const [lift, , springs] = model.steps;
    expect(lift).toMatchObject({
      path: '1.1',
      id: 'lift',
      title: 'Lift the vehicle.',
      people: 1,
      passes: [['left', 'right']],
    });
    expect(lift!.time).toEqual({ low: 12, likely: 12, high: 12, eachSide: false });
    expect(lift!.operations.map((operation) => operation.path)).toEqual(['1.1.1', '1.1.2']);
    expect(lift!.operations[0]!.aids[0]).toMatchObject({
      name: 'two-post-lift',
      known: true,
      workUnder: true,
    });
    expect(springs).toMatchObject({ people: 2, hasCaution: true });
    expect([...springs!.covered]).toEqual(['spring-loaded']);
    expect(springs!.operations[2]!.by?.nominal).toBe(120);
    expect(springs!.title).toContain('support front-axle');
  });
});
