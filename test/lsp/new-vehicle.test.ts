import { expect, it } from 'vitest';
import type { CodeAction, TextDocumentEdit } from 'vscode-languageserver/node.js';
import { inMemory, PUSHED } from './client';

const URI = 'file:///shop/spring.install.yaml';
const GUIDE = `kitproof: install/1
title: Bump stops
sections:
  - title: Work
    steps:
      - id: out
        text: Take the old bump stop out.
        do: [{ unbolt: bump-stop }]
      - id: in
        text: Put it back.
        do: [{ bolt-up: bump-stop }, { torque: bump-stop.bolts, to: 22 N·m }]
`;
const CREATES = {
  ...PUSHED,
  workspace: { workspaceEdit: { documentChanges: true, resourceOperations: ['create'] } },
};

async function offered(capabilities: object, line: number): Promise<CodeAction[]> {
  const client = await inMemory(new Map([['/shop/spring.install.yaml', GUIDE]])).start(capabilities, [
    'file:///shop',
  ]);
  await client.open(URI, GUIDE);
  await client.push(URI);
  const at = { line, character: 25 };
  const actions = await client.request<CodeAction[]>('textDocument/codeAction', {
    textDocument: { uri: URI },
    range: { start: at, end: at },
    context: { diagnostics: [] },
  });
  await client.end();
  return actions.filter(({ title }) => title.startsWith('Write spring.vehicle.yaml'));
}

it('a vehicle file is written for a guide without one, and the guide names it', async () => {
  for (const line of [1, 7]) {
    const [action] = await offered(CREATES, line);
    const [create, file, guide] = action!.edit!.documentChanges!;
    expect(create).toEqual({
      kind: 'create',
      uri: 'file:///shop/spring.vehicle.yaml',
      options: { ignoreIfExists: true },
    });
    expect((file as TextDocumentEdit).edits[0]!.newText).toContain('bump-stop: { kind: bump-stop');
    expect((guide as TextDocumentEdit).textDocument).toEqual({ uri: URI, version: 1 });
    expect((guide as TextDocumentEdit).edits[0]!.newText.trim()).toBe('vehicle: spring.vehicle.yaml');
  }
});

it('is not offered between steps, nor to a client that makes no files', async () => {
  expect(await offered(CREATES, 6)).toEqual([]);
  expect(await offered(PUSHED, 1)).toEqual([]);
});
