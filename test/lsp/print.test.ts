import { expect, it } from 'vitest';
import type { PrintAnswer, PrintParams } from '../../server/src/lsp/print-types';
import { inMemory, PUSHED } from './client';
import { FOLDER, files, GUIDE, GUIDE_URI } from './world';

const ask = (more: Partial<PrintParams>): PrintParams => ({
  uri: GUIDE_URI,
  form: 'html',
  sheet: false,
  paper: 'a4',
  ...more,
});

it('prints the text as it stands in the editor, for the variant that is asked for', async () => {
  const client = await inMemory(files()).start(PUSHED, [FOLDER]);
  const when = GUIDE.replace(
    'text: Put it back.',
    'text: Put it back with {part:bracket}.\n        when: { lockers: fitted }',
  );
  await client.open(GUIDE_URI, when);
  const print = (more: Partial<PrintParams>) => client.request<PrintAnswer>('kitproof/print', ask(more));
  const page = (await print({})) as { text: string };
  expect(page.text).toContain('Put it back with <b>bracket</b>.');
  expect(page.text).toContain('only with lockers: fitted');
  const markdown = (await print({ form: 'markdown', variant: { lockers: 'none' } })) as { text: string };
  expect(markdown.text).toContain('Take the bracket off.');
  expect(markdown.text).not.toContain('Put it back');
  const sheet = (await print({ form: 'html', sheet: true, paper: 'letter' })) as { text: string };
  expect(sheet.text).toContain('Torque sheet');
  expect(sheet.text).toContain('size:letter');
  await client.end();
});

it('says why there is no PDF where nothing prints, and why a vehicle is not printed', async () => {
  const client = await inMemory(files()).start(PUSHED, [FOLDER]);
  const print = (more: Partial<PrintParams>) => client.request<PrintAnswer>('kitproof/print', ask(more));
  expect(await print({ form: 'pdf' })).toEqual({ problem: expect.stringContaining('open it and print it') });
  expect(await print({ uri: 'file:///shop/moorhen.vehicle.yaml' })).toEqual({
    problem: 'This is no guide, so there is nothing to print.',
  });
  await client.end();
});
