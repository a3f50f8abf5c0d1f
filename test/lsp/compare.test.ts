import { expect, it } from 'vitest';
import type { CompareAnswer } from '../../server/src/lsp/compare-types';
import { memoryFiles } from '../../server/src/workspace/memory';
import { RevisionError } from '../../server/src/workspace/revisions';
import { inMemory, PUSHED } from './client';
import { FOLDER, files, GUIDE, GUIDE_URI } from './world';

/** A repository whose last commit has the files of the tests. */
const filesAt = async (_folder: string, revision: string) => {
  if (revision !== 'HEAD') throw new RevisionError(`There is no revision "${revision}" in this repository.`);
  return { ...memoryFiles(files()), close: () => undefined };
};

it('compares the text as it stands in the editor with a revision', async () => {
  const client = await inMemory(files(), null, '2026-03-14', { filesAt }).start(PUSHED, [FOLDER]);
  const compare = (revision = 'HEAD', uri = GUIDE_URI) =>
    client.request<CompareAnswer>('kitproof/compare', { uri, revision });
  await client.open(GUIDE_URI, GUIDE);
  expect(await compare()).toEqual({
    page: expect.stringContaining('1 guide compared; nothing changed in meaning in it.'),
  });
  await client.change(GUIDE_URI, { text: GUIDE.replace('Put it back.', 'Put it back, arrow up.') });
  const { page } = (await compare()) as { page: string };
  expect(page).toContain('HEAD → what stands in the editor');
  expect(page).toContain('<ins>, arrow up</ins>');
  expect(page).toContain('--vscode-editor-background');
  expect(page).not.toContain('<script');
  expect(await compare('nowhere')).toEqual({ problem: 'There is no revision "nowhere" in this repository.' });
  expect(await compare('HEAD', 'file:///shop/moorhen.vehicle.yaml')).toEqual({
    problem: 'This is no guide, so there is nothing to compare.',
  });
  await client.end();
});

it('says so where no revision can be read', async () => {
  const client = await inMemory(files()).start(PUSHED, [FOLDER]);
  expect(await client.request('kitproof/compare', { uri: GUIDE_URI, revision: 'HEAD' })).toEqual({
    problem: 'A browser cannot read the revisions of a repository.',
  });
  await client.end();
});
