import { expect, it } from 'vitest';
import type { SelectionRange } from 'vscode-languageserver/node.js';
import { inMemory, PUSHED } from './client';
import { at, FOLDER, files, GUIDE, GUIDE_URI } from './world';

it('grows from the name to the operation, the step, the section and the whole', async () => {
  const client = await inMemory(files()).start(PUSHED, [FOLDER]);
  await client.open(GUIDE_URI, GUIDE);
  const [grown] = await client.request<SelectionRange[]>('textDocument/selectionRange', {
    textDocument: { uri: GUIDE_URI },
    positions: [at(GUIDE, 'loosen: bracket.bolt', 9)],
  });
  const lines = GUIDE.split('\n');
  const texts: string[] = [];
  for (let one: SelectionRange | undefined = grown; one !== undefined; one = one.parent) {
    const { start, end } = one.range;
    const text = lines.slice(start.line, end.line + 1);
    text[text.length - 1] = text.at(-1)!.slice(0, end.character);
    texts.push(text.join('\n').slice(start.character));
  }
  expect(texts[0]).toBe('bracket');
  expect(texts[1]).toBe('bracket.bolt');
  expect(texts[2]).toBe('loosen: bracket.bolt');
  expect(texts.some((text) => text.startsWith('id: off') && text.trim().endsWith('5 min'))).toBe(true);
  expect(texts.some((text) => text.startsWith('title: Bracket\n'))).toBe(true);
  expect(texts.at(-1)).toBe(GUIDE);
  texts.forEach((text, index) => {
    expect(texts[index + 1]?.length ?? Number.POSITIVE_INFINITY).toBeGreaterThan(text.length);
  });
  await client.end();
});
