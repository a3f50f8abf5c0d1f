/** What the pointer tells by the trade's arithmetic: tyres, weights, holes, spanners. */

import { afterEach, expect, it } from 'vitest';
import type { CompletionList, Hover } from 'vscode-languageserver/node.js';
import { type Client, inMemory, PUSHED } from './client';
import { at, FOLDER, files } from './world';

let client: Client;

afterEach(() => client.end());

const VEHICLE = `kitproof: vehicle/1
name: Moorhen
parts:
  front-axle: { kind: live-axle, droop: 90 mm, bump: 80 mm }
  track-bar: { kind: track-bar, joins: [frame, front-axle], length: 880 mm, rise: 60 mm }
  front-wheel: { kind: wheel, mass: 32 kg, joins: [front-axle], tyre: 225/65R17, joints: { nut: { thread: M14x1.5, torque: 130 N·m } } }
  plate: { kind: bracket, mass: 1 kg, joins: [frame], holes: { hole: { size: 13 mm, bolt: M12x1.75 }, thread: { tap: M8 } } }
lines:
  hose: { kind: brake-hose, spans: [frame, front-axle], length: 290 mm, across: 140 mm, rise: 100 mm }
`;
const KIT = `kitproof: kit/1
name: Wheels
for: Moorhen
options: { lift: [0 mm, 50 mm] }
parts:
  trail-wheel: { replaces: front-wheel, mass: 60 kg, tyre: 265/65R17 }
clearances:
  - { tyre: 265/65R17, wheel-width: 8 in }
`;
const GUIDE = `kitproof: install/1
title: Wheels
vehicle: m.vehicle.yaml
kit: k.kit.yaml
sections:
  - title: Work
    steps:
      - do:
          - check: trail-wheel
          - check: front-wheel.nut
          - drill: plate.hole
          - drill: plate.thread
          - check: [track-bar, hose]
`;

async function hover(name: string, word: string, by: number): Promise<string> {
  const all = { '/shop/m.vehicle.yaml': VEHICLE, '/shop/k.kit.yaml': KIT, '/shop/g.install.yaml': GUIDE };
  client = await inMemory(files(all)).start(PUSHED, [FOLDER]);
  const uri = `${FOLDER}/${name}`;
  const text = all[`/shop/${name}` as keyof typeof all];
  await client.open(uri, text);
  const params = { textDocument: { uri }, position: at(text, word, by) };
  const found = await client.request<Hover | null>('textDocument/hover', params);
  return found === null ? '' : (found.contents as { value: string }).value;
}

const CHANGE = [
  '776 mm (30.6 in) across',
  '7.2 % more than 225/65R17: at 100 km/h shown the vehicle does 107.2 km/h',
  'Gearing 6.7 % longer; the axle comes up by 26 mm',
];

it('a tyre in a kit: its sizes, and what it does in place of the vehicle’s', async () => {
  const said = await hover('k.kit.yaml', 'tyre: 265', 8);
  for (const one of CHANGE) expect(said).toContain(one);
});

it('a row of a table of clearances: its sizes against the vehicle’s own, and what a key says', async () => {
  const said = await hover('k.kit.yaml', '- { tyre', 12);
  for (const one of CHANGE) expect(said).toContain(one);
  await client.end();
  expect(await hover('k.kit.yaml', 'clearances', 3)).toContain(
    'The largest tyre that clears with this kit on',
  );
  await client.end();
  expect(await hover('k.kit.yaml', 'wheel-width: 8', 14)).toContain('203 mm');
});

it('a tyre in a vehicle: its sizes alone', async () => {
  const said = await hover('m.vehicle.yaml', 'tyre: 225', 8);
  expect(said).toContain('724 mm (28.5 in) across, 2275 mm around');
  expect(said).not.toContain('Gearing');
});

it('a wheel in a guide: the same, and how many hands it asks for', async () => {
  const said = await hover('g.install.yaml', 'check: trail-wheel', 10);
  for (const one of CHANGE) expect(said).toContain(one);
  expect(said).toContain('Asks for a jack or hoist: the guideline is 25 kg close to the body, 15 kg at arm');
});

it('a mass in a vehicle: how many hands', async () => {
  expect(await hover('m.vehicle.yaml', 'mass: 32 kg', 8)).toContain('Asks for 2 people');
  await client.end();
  expect(await hover('m.vehicle.yaml', 'mass: 1 kg', 8)).not.toContain('Asks for');
});

it('a joint without a tool: its spanner by standard', async () => {
  const said = await hover('g.install.yaml', 'check: front-wheel.nut', 10);
  expect(said).toContain(
    'Its file says no spanner; by standard 21 mm (ISO 272, ISO 4014, ISO 4032) or 22 mm',
  );
});

it('a track bar: what the kit’s lift does with it', async () => {
  const said = await hover('g.install.yaml', 'check: [track-bar', 12);
  // √(880² - 60²) - √(880² - 110²) = 4.9
  expect(said).toContain(
    "The axle goes 4.9 mm towards the bar's end at the frame with 50 mm of lift (a bar of 885 mm would keep it)",
  );
});

it('a line: what it bridges, and what it has to spare', async () => {
  const said = await hover('g.install.yaml', 'track-bar, hose', 13);
  expect(said).toContain(
    'Its ends are 172 mm apart as the vehicle stands, 236 mm with front-axle at full droop, 141 mm at the bump stop: 54 mm to spare.',
  );
});

it('a hole: what its bolt asks for, and the drills to its size', async () => {
  const said = await hover('g.install.yaml', 'drill: plate.hole', 10);
  expect(said).toContain('Clearance of M12x1.75: 13 mm fine, 13.5 mm medium, 14.5 mm coarse');
  expect(said).toContain('Drills: 3.5 mm, 6.5 mm then 13 mm');
  await client.end();
  const tapped = await hover('g.install.yaml', 'drill: plate.thread', 10);
  expect(tapped).toContain('Drill for tapping M8: 6.8 mm');
  expect(tapped).toContain('Drills: 3.5 mm then 6.8 mm');
});

/** What is offered where a value stands for one of a vehicle. */
async function offered(joint: string, word: string): Promise<string[]> {
  const text = `kitproof: vehicle/1\nname: Moorhen\nparts:\n  plate:\n    kind: bracket\n    ${joint}\n`;
  client = await inMemory(files({ '/shop/m.vehicle.yaml': text })).start(PUSHED, [FOLDER]);
  const uri = `${FOLDER}/m.vehicle.yaml`;
  await client.open(uri, text);
  const params = { textDocument: { uri }, position: at(text, word, word.length) };
  const list = await client.request<CompletionList>('textDocument/completion', params);
  return list.items.map(({ label }) => label);
}

it.each([
  ['joints: { bolt: { thread: M12x1.75, hex: 1 } }', 'hex: ', ['18 mm', '19 mm']],
  ['joints: { bolt: { thread: 3/8-16, hex: 1 } }', 'hex: ', ['9/16 in']],
  ['joints: { bolt: { thread: M12x1.75, key: 1 } }', 'key: ', ['10 mm']],
  ['holes: { hole: { bolt: M12x1.75, size: 1 } }', 'size: ', ['13 mm', '13.5 mm', '14.5 mm']],
  ['holes: { hole: { tap: M8, size: 1 } }', 'size: ', ['6.8 mm']],
])('completion of %s', async (text, word, all) => {
  expect((await offered(text, word)).sort()).toEqual(all.sort());
});

it('completion of classes, threads and tyres; none of a torque that was worked out', async () => {
  expect(await offered('joints: { bolt: { class: 1 } }', 'class: ')).toContain('"10.9"');
  await client.end();
  expect(await offered('joints: { bolt: { thread: M } }', 'thread: ')).toContain('M8x1.25');
  await client.end();
  expect(await offered('tyre: 2', 'tyre: ')).toContain('225/65R17');
  await client.end();
  const torques = await offered('joints: { bolt: { thread: M8x1.25, class: "8.8", torque: 2 } }', 'torque: ');
  expect(torques).toEqual(['90 N·m']); // the example of the schema, which is the same everywhere
});
