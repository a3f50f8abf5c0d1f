import { expect, it } from 'vitest';
import type {
  CallHierarchyIncomingCall,
  CallHierarchyItem,
  CallHierarchyOutgoingCall,
} from 'vscode-languageserver/node.js';
import { inMemory, PUSHED } from './client';
import { at, FOLDER, files, GUIDE, GUIDE_URI } from './world';

const USER = `kitproof: install/1
title: User
vehicle: moorhen.vehicle.yaml
sections:
  - title: First
    steps: [{ do: [{ use: { guide: bracket.install.yaml, section: Bracket } }] }]
  - title: Second
    steps: [{ do: [{ use: { guide: bracket.install.yaml, section: Bracket } }, { use: { section: First } }] }]
`;
const USER_URI = `${FOLDER}/user.install.yaml`;

it('tells which sections take which others', async () => {
  const client = await inMemory(files({ '/shop/user.install.yaml': USER })).start(PUSHED, [FOLDER]);
  const prepare = (uri: string, position: object) =>
    client.request<CallHierarchyItem[]>('textDocument/prepareCallHierarchy', {
      textDocument: { uri },
      position,
    });
  const [bracket] = await prepare(GUIDE_URI, at(GUIDE, 'title: Bracket\n', 8));
  expect(bracket).toMatchObject({ name: 'Bracket', detail: 'bracket.install.yaml', uri: GUIDE_URI });
  // A `use` stands for what it takes.
  expect(await prepare(USER_URI, at(USER, 'section: Bracket', 10))).toEqual([bracket]);
  const incoming = await client.request<CallHierarchyIncomingCall[]>('callHierarchy/incomingCalls', {
    item: bracket,
  });
  expect(incoming.map(({ from, fromRanges }) => [from.name, fromRanges.length])).toEqual([
    ['First', 1],
    ['Second', 1],
  ]);
  const outgoing = await client.request<CallHierarchyOutgoingCall[]>('callHierarchy/outgoingCalls', {
    item: incoming[1]!.from,
  });
  expect(outgoing.map(({ to }) => `${to.detail} ${to.name}`)).toEqual([
    'bracket.install.yaml Bracket',
    'user.install.yaml First',
  ]);
  await client.end();
});
