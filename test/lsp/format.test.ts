import { afterEach, expect, it } from 'vitest';
import type { TextEdit } from 'vscode-languageserver/node.js';
import { applyEdits } from '../../server/src/edit/apply';
import { Lines } from '../../server/src/text/lines';
import { type Client, inMemory, PUSHED } from './client';
import { FOLDER, files, GUIDE, GUIDE_URI, VEHICLE, VEHICLE_URI } from './world';

let client: Client;

afterEach(() => client.end());

async function formatted(uri: string, text: string): Promise<string> {
  await client.open(uri, text);
  const edits = await client.request<TextEdit[]>('textDocument/formatting', {
    textDocument: { uri },
    options: { tabSize: 8, insertSpaces: false },
  });
  const lines = new Lines(text);
  const placed = edits.map(({ range, newText }) => ({
    place: { uri, span: { start: lines.offsetAt(range.start), end: lines.offsetAt(range.end) } },
    text: newText,
  }));
  return applyEdits(text, placed)!;
}

it('lays a document out, whatever the editor thinks of tabs, and touches nothing that is in order', async () => {
  client = await inMemory(files()).start(PUSHED, [FOLDER]);
  expect(client.initialized.capabilities.documentFormattingProvider).toBe(true);
  const untidy = GUIDE.replaceAll(/^ +(- )?/gm, (blanks) => blanks.replaceAll(' ', '  ').replace('-', '- '))
    .replace('text: Take the bracket off.', 'text:   Take the bracket off.   # "gently"  ')
    .replace('time: 5 min', 'time: {low: 4 min,likely: 5 min ,high: 6 min}');
  expect(await formatted(GUIDE_URI, untidy)).toBe(
    GUIDE.replace('text: Take the bracket off.', 'text: Take the bracket off.   # "gently"').replace(
      'time: 5 min',
      'time: { low: 4 min, likely: 5 min, high: 6 min }',
    ),
  );
  expect(await formatted(VEHICLE_URI, VEHICLE)).toBe(VEHICLE);
});

it('leaves a text with a mistake as it is, and what is none of ours', async () => {
  client = await inMemory(files()).start(PUSHED, [FOLDER]);
  const broken = GUIDE.replace('title: Bracket off and on', 'title:   "Bracket off and on');
  expect(await formatted(GUIDE_URI, broken)).toBe(broken);
  expect(await formatted('file:///shop/other.yaml', 'a:    [ 1 ]\n')).toBe('a:    [ 1 ]\n');
});
