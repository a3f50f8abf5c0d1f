import { expect, it } from 'vitest';
import type { SemanticTokens } from 'vscode-languageserver/node.js';
import { type Client, inMemory, PUSHED } from './client';
import { FOLDER, files, GUIDE, GUIDE_URI, VEHICLE, VEHICLE_URI } from './world';

async function words(client: Client, uri: string, text: string, range?: object): Promise<string[]> {
  const legend = client.initialized.capabilities.semanticTokensProvider!.legend.tokenTypes;
  const method =
    range === undefined ? 'textDocument/semanticTokens/full' : 'textDocument/semanticTokens/range';
  const { data } = await client.request<SemanticTokens>(method, { textDocument: { uri }, range });
  const lines = text.split('\n');
  const found: string[] = [];
  let line = 0;
  let character = 0;
  for (let at = 0; at < data.length; at += 5) {
    if (data[at]! > 0) character = 0;
    line += data[at]!;
    character += data[at + 1]!;
    found.push(`${lines[line]!.slice(character, character + data[at + 2]!)} ${legend[data[at + 3]!]}`);
  }
  return found;
}

it('tells verbs, parts, joints, traits, values and figures apart', async () => {
  const text = GUIDE.replace(
    '      - id: back',
    '      - id: back\n        when: { lockers: fitted }',
  ).replace('- torque: bracket.bolt', '- { torque: bracket.bolt, to: 22 N·m, with: blocks }');
  const client = await inMemory(files()).start(PUSHED, [FOLDER]);
  await client.open(GUIDE_URI, text);
  const found = await words(client, GUIDE_URI, text);
  for (const word of [
    'loosen keyword',
    'bracket class',
    'bolt property',
    'lockers enum',
    'fitted enumMember',
    'torque keyword',
    '22 N·m number',
    'blocks interface',
    'back method',
    '5 min number',
  ])
    expect(found).toContain(word);
  expect(found.filter((word) => word === 'bolt property')).toHaveLength(2);
  const line = text.split('\n').findIndex((one) => one.includes('loosen'));
  const only = await words(client, GUIDE_URI, text, {
    start: { line, character: 0 },
    end: { line, character: 99 },
  });
  expect(only.sort()).toEqual(['bolt property', 'bracket class', 'loosen keyword']);
  await client.open(VEHICLE_URI, VEHICLE);
  const vehicle = await words(client, VEHICLE_URI, VEHICLE);
  for (const word of [
    'rear-axle class',
    'live-axle type',
    'top-nut property',
    '90 kg number',
    'lockers enum',
  ])
    expect(vehicle).toContain(word);
  await client.open(GUIDE_URI, 'kitproof: install/1\nsections: [{{\n');
  await words(client, GUIDE_URI, 'kitproof: install/1\nsections: [{{\n');
  await client.end();
});
