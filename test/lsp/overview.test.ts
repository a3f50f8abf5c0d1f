import { expect, it } from 'vitest';
import type { OverviewView } from '../../server/src/lsp/guide-view-types';
import { inMemory, PUSHED } from './client';
import { FOLDER, files, GUIDE, GUIDE_URI } from './world';

it('tells the guides of the folders, with what was found in each', async () => {
  const wrong = GUIDE.replace('          - torque: bracket.bolt\n', '').replace(
    'title: Bracket off and on',
    'title: ""',
  );
  const client = await inMemory(files({ '/shop/wrong.install.yaml': wrong })).start(PUSHED, [FOLDER]);
  await client.push(`${FOLDER}/wrong.install.yaml`, ({ diagnostics }) => diagnostics.length > 0);
  await client.request('kitproof/checkWorkspace', {});
  const { guides } = await client.request<OverviewView>('kitproof/overview', {});
  expect(guides).toEqual([
    { uri: GUIDE_URI, title: 'Bracket off and on', findings: { error: 0, warning: 0, info: 0 } },
    {
      uri: `${FOLDER}/wrong.install.yaml`,
      title: 'wrong.install.yaml',
      findings: { error: 1, warning: 0, info: 0 },
    },
  ]);
  await client.end();
});
