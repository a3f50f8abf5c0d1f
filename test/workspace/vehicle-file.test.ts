import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { applyEdits } from '../../server/src/edit/apply';
import { checkDocuments } from '../../server/src/workspace/check';
import { Guides } from '../../server/src/workspace/guides';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';
import { newVehicleFor } from '../../server/src/workspace/vehicle-file';

const TODAY = '2026-03-14';
const URI = '/shop/lift.install.yaml';

async function made(text: string, more: Readonly<Record<string, string>> = {}) {
  const contents = new Map([[URI, text], ...Object.entries(more)]);
  const project = new Project(memoryFiles(contents), standardPacks());
  const guide = await new Guides(project).open(URI);
  return newVehicleFor(guide!, project, TODAY);
}

async function found(files: Readonly<Record<string, string>>) {
  const project = new Project(memoryFiles(new Map(Object.entries(files))), standardPacks());
  return (await checkDocuments(project, Object.keys(files), { today: TODAY }))!.findings;
}

const RIGHT = readFileSync(
  join(process.cwd(), 'test/procedures/lift-without-vehicle-file/right.install.yaml'),
  'utf8',
);

it('says what a guide names, and the guide is as silent with it', async () => {
  const vehicle = (await made(RIGHT))!;
  expect(vehicle.uri).toBe('/shop/lift.vehicle.yaml');
  expect(vehicle.text).toContain('front-axle: { kind: axle }');
  expect(vehicle.text).toMatch(
    /front-shock:\s+\{ kind: shock, .*joins: \[frame, front-axle\], joints: \{ lower-bolt: \{ torque: 80 N·m \} \} \}/,
  );
  expect(vehicle.text).toMatch(/front-wheel: .*joins: \[front-axle\]/);
  // What the guide brings is no part of the vehicle.
  expect(vehicle.text).not.toContain('lift-coil');
  const text = applyEdits(RIGHT, vehicle.edits)!;
  expect(text).toContain('title: Front lift without any file\nvehicle: lift.vehicle.yaml\n');
  // What comes in the coil's place is for a kit to say.
  const rules = (await found({ [URI]: text, [vehicle.uri]: vehicle.text })).map(({ rule }) => rule);
  expect(rules).toEqual(['left-without']);
});

it('a fault of the guide is found with it as without it', async () => {
  const wrong = RIGHT.replace('{ support: front-axle, with: trolley-jack }', '{ check: front-axle }');
  expect(wrong).not.toBe(RIGHT);
  const rules = (all: Awaited<ReturnType<typeof found>>) => all.map(({ rule }) => rule);
  const before = rules(await found({ [URI]: wrong }));
  expect(before).toContain('support-axle-before-shock-removal');
  const vehicle = (await made(wrong))!;
  const text = applyEdits(wrong, vehicle.edits)!;
  expect(rules(await found({ [URI]: text, [vehicle.uri]: vehicle.text }))).toContain(
    'support-axle-before-shock-removal',
  );
});

it('goes where the guide says that its vehicle file is', async () => {
  const named = RIGHT.replace('sections:', 'vehicle: cars/hen.vehicle.yaml\nsections:');
  const vehicle = (await made(named))!;
  expect(vehicle.uri).toBe('/shop/cars/hen.vehicle.yaml');
  expect(vehicle.edits).toEqual([]);
});

it('is not offered where there is one, where its place is taken, or for a guide that names nothing', async () => {
  const other = 'kitproof: vehicle/1\nname: Moorhen\nparts: {}\n';
  expect(await made(RIGHT, { '/shop/lift.vehicle.yaml': other })).toBeNull();
  const named = RIGHT.replace('sections:', 'vehicle: hen.vehicle.yaml\nsections:');
  expect(await made(named, { '/shop/hen.vehicle.yaml': other })).toBeNull();
  expect(await made('kitproof: install/1\ntitle: Nothing\nsections: []\n')).toBeNull();
  expect(await made('kitproof: install/1\ntitle: [half typed\n')).toBeNull();
});
