import { expect, it } from 'vitest';
import type { DocumentHighlight } from 'vscode-languageserver/node.js';
import { inMemory, PUSHED } from './client';
import { at, FOLDER, files, GUIDE, GUIDE_URI } from './world';

it('shows every operation on the same thing, what belongs to it included, and where a text names it', async () => {
  const text = GUIDE.replace('Put it back.', 'Put {part:bracket} back.');
  const client = await inMemory(files()).start(PUSHED, [FOLDER]);
  await client.open(GUIDE_URI, text);
  const ask = async (word: string, by: number) => {
    const found = await client.request<DocumentHighlight[]>('textDocument/documentHighlight', {
      textDocument: { uri: GUIDE_URI },
      position: at(text, word, by),
    });
    const lines = text.split('\n');
    return found.map(({ range: { start, end }, kind }) => [
      lines[start.line]!.slice(start.character, end.character),
      kind,
    ]);
  };
  expect(await ask('unbolt: bracket', 10)).toEqual([
    ['bracket.bolt', 3],
    ['bracket', 3],
    ['bracket', 2],
    ['bracket', 3],
    ['bracket.bolt', 3],
  ]);
  expect(await ask('loosen: bracket.bolt', 18)).toEqual([
    ['bracket.bolt', 3],
    ['bracket.bolt', 3],
  ]);
  expect(await ask('title: Bracket off', 2)).toEqual([]);
  await client.end();
});
