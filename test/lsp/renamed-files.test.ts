import { expect, it } from 'vitest';
import type { WorkspaceEdit } from 'vscode-languageserver/node.js';
import { inMemory, PUSHED } from './client';
import { FOLDER, GUIDE, VEHICLE } from './world';

const CLIENT = {
  ...PUSHED,
  workspace: { fileOperations: { willRename: true }, workspaceEdit: { documentChanges: true } },
};
const OTHER = `kitproof: install/1
title: Other
vehicle: moorhen.vehicle.yaml
follows: bracket.install.yaml
sections:
  - title: W
    steps: [{ do: [{ use: { guide: bracket.install.yaml, section: Bracket } }] }]
`;

async function edits(oldUri: string, newUri: string, guide = GUIDE): Promise<string[]> {
  const contents = new Map([
    ['/shop/bracket.install.yaml', guide],
    ['/shop/bracket.svg', '<svg/>'],
    ['/shop/other.install.yaml', OTHER],
    ['/shop/moorhen.vehicle.yaml', VEHICLE],
    ['/shop/kitproof.yaml', 'kitproof: config/1\npacks: [rules/house.rules.yaml]\n'],
    ['/shop/rules/house.rules.yaml', 'kitproof: rules/1\npack: house\n'],
  ]);
  const client = await inMemory(contents).start(CLIENT, [FOLDER]);
  const edit = await client.request<WorkspaceEdit | null>('workspace/willRenameFiles', {
    files: [{ oldUri, newUri }],
  });
  await client.end();
  return (edit?.documentChanges ?? []).flatMap((one) => {
    const { textDocument, edits: list } = one as {
      textDocument: { uri: string };
      edits: { newText: string }[];
    };
    return list.map(({ newText }) => `${textDocument.uri.slice(FOLDER.length + 1)}: ${newText}`);
  });
}

it('every path to a renamed file is changed', async () => {
  expect(await edits(`${FOLDER}/moorhen.vehicle.yaml`, `${FOLDER}/cars/moorhen.vehicle.yaml`)).toEqual([
    'bracket.install.yaml: cars/moorhen.vehicle.yaml',
    'other.install.yaml: cars/moorhen.vehicle.yaml',
  ]);
  expect(await edits(`${FOLDER}/rules/house.rules.yaml`, `${FOLDER}/rules/ours.rules.yaml`)).toEqual([
    'kitproof.yaml: rules/ours.rules.yaml',
  ]);
});

it('a guide that moves takes its own paths with it', async () => {
  expect(await edits(`${FOLDER}/bracket.install.yaml`, `${FOLDER}/old/bracket.install.yaml`)).toEqual([
    'bracket.install.yaml: ../moorhen.vehicle.yaml',
    'other.install.yaml: old/bracket.install.yaml',
    'other.install.yaml: old/bracket.install.yaml',
  ]);
});

it('a folder takes its files with it; what nobody names changes nothing', async () => {
  expect(await edits(`${FOLDER}/rules`, `${FOLDER}/packs`)).toEqual([
    'kitproof.yaml: packs/house.rules.yaml',
  ]);
  expect(await edits(`${FOLDER}/notes.txt`, `${FOLDER}/notes.md`)).toEqual([]);
});

it('a picture is followed where it goes', async () => {
  const pictured = GUIDE.replace(
    'text: Put it back.',
    'text: Put it back.\n        figure: { file: bracket.svg, alt: The bracket. }',
  );
  expect(await edits(`${FOLDER}/bracket.svg`, `${FOLDER}/pictures/bracket.svg`, pictured)).toEqual([
    'bracket.install.yaml: pictures/bracket.svg',
  ]);
});
