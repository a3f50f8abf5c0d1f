import { expect, it } from 'vitest';
import type { InlayHint } from 'vscode-languageserver/node.js';
import { inMemory, PUSHED } from './client';
import { FOLDER, files, GUIDE, GUIDE_URI } from './world';

/** The hints, each with the text before it in its line. */
async function hints(text: string, shown?: object): Promise<string[]> {
  const client = await inMemory(files()).start(PUSHED, [FOLDER], {
    initializationOptions: shown === undefined ? {} : { hints: { kind: false, time: false, ...shown } },
  });
  await client.open(GUIDE_URI, text);
  const found = await client.request<InlayHint[]>('textDocument/inlayHint', {
    textDocument: { uri: GUIDE_URI },
    range: { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } },
  });
  await client.end();
  const lines = text.split('\n');
  return found.map(({ label, position: { line, character } }) => {
    const before = lines[line]!.slice(0, character).trim();
    return `${before} [${label}] ${lines[line]!.slice(character)}`.trim();
  });
}

it('the guessed kind and the running time are shown from the start', async () => {
  const text = GUIDE.replace('vehicle: moorhen.vehicle.yaml\n', '').replaceAll('bracket', 'rear-shock');
  expect(await hints(text)).toEqual([
    '- loosen: rear-shock.bolt [a shock?]',
    '- id: off [5 min]',
    '- id: back [9 min]',
  ]);
});

it('the number that a step is printed with, before the step', async () => {
  expect(await hints(GUIDE, { number: true })).toEqual(['- [1.1] id: off', '- [1.2] id: back']);
});

it('a figure in the other unit, not where both stand there', async () => {
  const text = GUIDE.replace('- torque: bracket.bolt', '- { torque: bracket.bolt, to: 22 N·m }').replace(
    '- unbolt: bracket',
    "- unbolt: bracket\n          - { torque: bracket.bolt, to: '22 N·m (16 lbf·ft)' }",
  );
  expect(await hints(text, { unit: true })).toEqual(['- { torque: bracket.bolt, to: 22 N·m [16 lbf·ft]  }']);
});

it('the state that a step leaves a thing in', async () => {
  expect(await hints(GUIDE, { state: true })).toEqual([
    '- loosen: bracket.bolt [→ out]',
    '- unbolt: bracket [→ off]',
    '- bolt-up: bracket [→ fitted]',
    '- torque: bracket.bolt [→ final]',
  ]);
});

it('each can be switched off, and a text that is half typed has none', async () => {
  expect(await hints(GUIDE, {})).toEqual([]);
  expect(
    await hints('kitproof: install/1\nsections: [{{\n', { number: true, unit: true, state: true }),
  ).toEqual([]);
});
