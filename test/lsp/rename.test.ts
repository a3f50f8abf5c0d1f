import { afterEach, expect, it } from 'vitest';
import type { TextEdit, WorkspaceEdit } from 'vscode-languageserver/node.js';
import { checkDocuments } from '../../server/src/workspace/check';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';
import { type Client, inMemory, PUSHED } from './client';
import { at, FOLDER } from './world';

const VEHICLE = `kitproof: vehicle/1
name: Moorhen
traits: { lockers: [none, fitted] }
parts:
  rear-axle: { kind: live-axle, mass: 90 kg, drop: 150 mm, limited-by: [rear-shock.lower-bolt] }
  rear-shock:
    kind: shock
    sided: true
    joins: [frame, rear-axle]
    joints: { top-nut: { torque: 60 N·m }, lower-bolt: { torque: 90 N·m } }
lines:
  plug: { kind: plug, spans: [frame, rear-axle], when: { lockers: fitted } }
`;
const KIT = `kitproof: kit/1
title: Long shocks
for: [Moorhen]
parts:
  long-shock: { replaces: rear-shock, joints: { lower-bolt: { torque: 95 N·m } } }
hardware:
  washer: { quantity: 2, for: [long-shock.lower-bolt] }
`;
const COMMON = `kitproof: install/1
title: Common
vehicle: moorhen.vehicle.yaml
sections:
  - id: out
    title: Shocks out
    steps:
      - text: "Take out {part:rear-shock.lower-bolt}."
        do: [{ remove: 'rear-shock.lower-bolt' }]
`;
const GUIDE = `kitproof: install/1
title: Shocks
vehicle: moorhen.vehicle.yaml
kit: long.kit.yaml
covers: { lockers: any }
sections:
  - title: Work
    steps:
      - id: unplug
        optional: true
        when: { lockers: fitted }
        do: [{ disconnect: plug }]
      - when: { done: unplug }
        text: As in {step:unplug}, with {torque:long-shock.lower-bolt}.
        do: [{ connect: plug }]
      - do:
          - { measure: bush, expect: { below: 2 mm }, else: worn }
          - torque: long-shock.lower-bolt
      - { when: { found: worn }, do: [{ renew: rear-shock.lower-bolt }] }
`;
const FILES: Readonly<Record<string, string>> = {
  '/shop/moorhen.vehicle.yaml': VEHICLE,
  '/shop/long.kit.yaml': KIT,
  '/shop/common.install.yaml': COMMON,
  '/shop/shocks.install.yaml': GUIDE,
};
const uriOf = (name: string) => `file://${name}`;

let client: Client;
afterEach(() => client.end());

async function start(): Promise<void> {
  client = await inMemory(new Map([['/shop/.git', ''], ...Object.entries(FILES)])).start(PUSHED, [FOLDER]);
}

const place = (name: string, word: string, by: number) => ({
  textDocument: { uri: uriOf(name) },
  position: at(FILES[name]!, word, by),
});

/** All files with the edits made. */
function applied(edit: WorkspaceEdit): Record<string, string> {
  const made: Record<string, string> = { ...FILES };
  for (const [uri, edits] of Object.entries(edit.changes!)) {
    const name = uri.slice('file://'.length);
    const lines = made[name]!.split('\n');
    const inOrder = [...edits].sort(
      (a: TextEdit, b: TextEdit) =>
        b.range.start.line - a.range.start.line || b.range.start.character - a.range.start.character,
    );
    for (const { range, newText } of inOrder) {
      const line = lines[range.start.line]!;
      lines[range.start.line] =
        line.slice(0, range.start.character) + newText + line.slice(range.end.character);
    }
    made[name] = lines.join('\n');
  }
  return made;
}

async function rename(
  name: string,
  word: string,
  by: number,
  newName: string,
): Promise<Record<string, string>> {
  return applied(
    await client.request<WorkspaceEdit>('textDocument/rename', { ...place(name, word, by), newName }),
  );
}

const replaced = (from: RegExp, to: string) =>
  Object.fromEntries(Object.entries(FILES).map(([name, text]) => [name, text.replaceAll(from, to)]));

/** What is found, without names. */
async function rules(files: Readonly<Record<string, string>>): Promise<string[]> {
  const project = new Project(memoryFiles(new Map(Object.entries(files))), standardPacks());
  const check = (await checkDocuments(project, Object.keys(files), { today: '2026-03-14' }))!;
  return check.findings.map(({ rule, place: { uri }, operation }) => `${uri} ${operation ?? ''} ${rule}`);
}

it('a joint is renamed across four files: where it is declared, taken over, named and spoken of', async () => {
  await start();
  const wanted = replaced(/lower-bolt/g, 'bottom-bolt');
  for (const [name, word, by] of [
    ['/shop/moorhen.vehicle.yaml', 'lower-bolt: {', 3],
    ['/shop/long.kit.yaml', 'lower-bolt: {', 3],
    ['/shop/common.install.yaml', "rear-shock.lower-bolt'", 14],
    ['/shop/shocks.install.yaml', 'torque: long-shock.lower-bolt', 22],
  ] as const)
    expect(await rename(name, word, by, 'bottom-bolt')).toEqual(wanted);
  expect(await rules(wanted)).toEqual(await rules(FILES));
});

it('a part is renamed with what belongs to it, and from a place in the middle of a name', async () => {
  await start();
  const wanted = replaced(/rear-shock/g, 'hind-shock');
  expect(await rename('/shop/moorhen.vehicle.yaml', '  rear-shock:', 4, 'hind-shock')).toEqual(wanted);
  expect(await rename('/shop/common.install.yaml', '{part:rear-shock', 8, 'hind-shock')).toEqual(wanted);
});

it('kit items, traits, steps and what is found are renamed', async () => {
  await start();
  expect(await rename('/shop/shocks.install.yaml', 'torque: long-shock', 10, 'tall-shock')).toEqual(
    replaced(/long-shock/g, 'tall-shock'),
  );
  expect(await rename('/shop/shocks.install.yaml', 'lockers: any', 2, 'diff-locks')).toEqual(
    replaced(/lockers/g, 'diff-locks'),
  );
  expect(await rename('/shop/shocks.install.yaml', '{step:unplug', 8, 'plug-off')).toEqual(
    replaced(/unplug/g, 'plug-off'),
  );
  expect(await rename('/shop/shocks.install.yaml', 'found: worn', 8, 'soft')).toEqual(
    replaced(/worn/g, 'soft'),
  );
});

it('says beforehand what will be renamed', async () => {
  await start();
  const prepared = await client.request<{ placeholder: string; range: { start: object } }>(
    'textDocument/prepareRename',
    place('/shop/shocks.install.yaml', 'torque: long-shock.lower-bolt', 22),
  );
  expect(prepared.placeholder).toBe('lower-bolt');
  expect(prepared.range.start).toEqual(at(GUIDE, 'torque: long-shock.lower-bolt', 19));
  const nothing = await client.request(
    'textDocument/prepareRename',
    place('/shop/shocks.install.yaml', 'title: Shocks', 9),
  );
  expect(nothing).toBeNull();
});

it('refuses in words what no file here declares, what is no name and what is one already', async () => {
  await start();
  const refused = (word: string, by: number, newName: string, name = '/shop/moorhen.vehicle.yaml') =>
    expect(client.request('textDocument/rename', { ...place(name, word, by), newName })).rejects;
  await refused('kind: shock', 8, 'damper').toThrow('"shock" is no kind that a file of this folder declares');
  await refused('  rear-shock:', 4, 'two words').toThrow(
    '"two words" is no name: letters, digits and hyphens are.',
  );
  await refused('  rear-shock:', 4, 'rear-axle').toThrow(
    'There is a part, line or joint "rear-axle" already.',
  );
  await refused('lower-bolt: {', 3, 'top-nut').toThrow(
    'There is a part, line or joint "rear-shock.top-nut" already.',
  );
});

it('leaves a step of the same name in another guide alone', async () => {
  const twin = '/shop/twin.install.yaml';
  const text = GUIDE.replace('title: Shocks', 'title: Twin\nfollows: shocks.install.yaml');
  client = await inMemory(new Map([...Object.entries(FILES), [twin, text]])).start(PUSHED, [FOLDER]);
  const edit = await client.request<WorkspaceEdit>('textDocument/rename', {
    ...place('/shop/shocks.install.yaml', '- id: unplug', 7),
    newName: 'plug-off',
  });
  expect(Object.keys(edit.changes!)).toEqual([uriOf('/shop/shocks.install.yaml')]);
});
