import { expect, test } from 'vitest';
import { AskedCounter } from '../../server/src/check/asked';
import { checkGuide } from '../../server/src/check/check';
import { bindGuideOf } from '../../server/src/workspace/engine';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';

const VEHICLE = `kitproof: vehicle/1
name: Moorhen
traits: { lockers: [none, fitted] }
parts:
  rear-axle: { kind: live-axle, limited-by: [rear-shock] }
  rear-wheel: { kind: wheel, sided: true, joins: [rear-axle], joints: { nut: { torque: 130 N·m } } }
  rear-shock:
    kind: shock
    sided: true
    joins: [frame, rear-axle]
    joints: { bolt: { thread: M12x1.75, torque: 90 N·m }, nut: { nut: self-locking, bushed: false, torque: 60 N·m } }
lines:
  locker-plug: { kind: plug, spans: [frame, rear-axle], slack: 60 mm, when: { lockers: fitted } }
`;

const guide = (steps: string) => `kitproof: install/1
title: Shocks
vehicle: moorhen.vehicle.yaml
sections:
  - title: All
    steps:
${steps}`;

const STEPS = guide(`      - do: [{ raise: vehicle, with: two-post-lift }]
      - do: [{ support: rear-axle, with: pole-jacks }]
      - when: { lockers: fitted }
        do: [{ disconnect: locker-plug }]
      - do: [{ unbolt: rear-shock }]
      - do: [{ bolt-up: rear-shock, new: [nut] }, { torque: rear-shock }]
      - when: { lockers: fitted }
        do: [{ connect: locker-plug }]
      - do: [{ unsupport: rear-axle }, { lower: vehicle }]
`);

async function counted(text: string) {
  const files = new Map([
    ['/p/moorhen.vehicle.yaml', VEHICLE],
    ['/p/a.install.yaml', text],
  ]);
  const project = new Project(memoryFiles(files), standardPacks());
  const closure = await project.closureOf((await project.open('/p/a.install.yaml'))!);
  const run = (counter?: AskedCounter) => {
    const model = bindGuideOf(closure);
    const work = checkGuide(model, closure.rulebook, '2026-01-31', counter);
    for (let turn = work.next(); ; turn = work.next())
      if (turn.done === true) return { model, check: turn.value };
  };
  const counter = new AskedCounter(closure.rulebook);
  const { model, check } = run(counter);
  return { asked: counter.result(), model, check, plain: run().check };
}

test('a question is counted once for an item, a side and an operation', async () => {
  const { asked } = await counted(STEPS);
  const of = (rule: string) => ({ times: asked.get(rule)?.times, items: asked.get(rule)?.items });
  // Two joints on two sides are torqued.
  expect(of('torque-without-figure')).toEqual({ times: 4, items: 2 });
  // One nut of two joints is of the sort that is used once.
  expect(of('new-locking-nut')).toEqual({ times: 2, items: 1 });
  // A limiter on each side is undone, by its first joint.
  expect(of('support-axle-before-shock-removal').times).toBeGreaterThanOrEqual(2);
  // One aid is taken away, at both corners of one axle: one operation.
  expect(of('unsupport-carrying')).toEqual({ times: 1, items: 1 });
  // What is owed is asked of what was open: four joints, though all of them are tight in the end.
  expect(of('left-loose')).toEqual({ times: 4, items: 2 });
  expect(of('left-disconnected')).toEqual({ times: 1, items: 1 });
  // Nothing of the kind is done.
  expect(asked.has('loaded-bar-let-go')).toBe(false);
  expect(asked.has('relieve-fuel-before-opening')).toBe(false);
});

test('it is known in which variants a rule was asked, and in which steps', async () => {
  const { asked, model } = await counted(STEPS);
  const fitted = model.world.literal('lockers', ['fitted'])!;
  expect(asked.get('left-disconnected')?.set).toBe(model.world.diagrams.and(fitted, model.universe));
  expect(asked.get('left-loose')?.set).toBe(model.universe);
  expect([...asked.get('torque-without-figure')!.steps]).toEqual(['1.5']);
});

test('every finding was asked for, and counting changes nothing', async () => {
  const { asked, check, plain } = await counted(
    STEPS.replace('      - do: [{ support: rear-axle, with: pole-jacks }]\n', '').replace(', new: [nut]', ''),
  );
  expect(check.findings.map(({ rule }) => rule)).toEqual(
    expect.arrayContaining(['support-axle-before-shock-removal', 'new-locking-nut']),
  );
  expect(check.findings).toEqual(plain.findings);
  for (const { rule, item, operation } of check.raw)
    expect(asked.has(rule), `${rule} ${item} ${operation}`).toBe(true);
});
