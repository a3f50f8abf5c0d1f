import { afterEach, expect, it } from 'vitest';
import type { ClientCapabilities, CodeAction, TextEdit } from 'vscode-languageserver/node.js';
import { applyEdits } from '../../server/src/edit/apply';
import { Lines } from '../../server/src/text/lines';
import { type Client, inMemory, PUSHED } from './client';
import { FOLDER, files, GUIDE, GUIDE_URI, VEHICLE, VEHICLE_URI } from './world';

let client: Client;

afterEach(() => client.end());

const RESOLVING: ClientCapabilities = {
  textDocument: {
    ...PUSHED.textDocument,
    codeAction: { dataSupport: true, resolveSupport: { properties: ['edit'] } },
  },
};
/** A slip in each, and in the guide a bolt that nobody tightens, which is no slip. */
const SLIPPED = GUIDE.replace('unbolt: bracket', 'unbolt: braket').replace(
  '          - torque: bracket.bolt\n',
  '',
);
const VEHICLE_SLIPPED = VEHICLE.replace('sided: true, joins', 'sidded: true, joins');

/** What an editor asks for when it saves and is told to fix all: all of the document, of its own accord. */
function onSave(uri: string, text: string, kind: string): Promise<CodeAction[]> {
  const lines = text.split('\n').length;
  return client.request('textDocument/codeAction', {
    textDocument: { uri },
    range: { start: { line: 0, character: 0 }, end: { line: lines, character: 0 } },
    context: { diagnostics: [], only: [kind], triggerKind: 2 },
  });
}

function applied(uri: string, text: string, { edit }: CodeAction): string {
  expect(Object.keys(edit!.changes!)).toEqual([uri]);
  const lines = new Lines(text);
  const edits = (edit!.changes![uri] as TextEdit[]).map(({ range, newText }) => ({
    place: { uri, span: { start: lines.offsetAt(range.start), end: lines.offsetAt(range.end) } },
    text: newText,
  }));
  return applyEdits(text, edits)!;
}

it.each(['source.fixAll.kitproof', 'source.fixAll'])(
  'on saving with %s, slips of the pen are put right, and nothing else',
  async (kind) => {
    client = await inMemory(files({ '/shop/moorhen.vehicle.yaml': VEHICLE_SLIPPED })).start(RESOLVING, [
      FOLDER,
    ]);
    await client.open(GUIDE_URI, SLIPPED);
    const actions = await onSave(GUIDE_URI, SLIPPED, kind);
    expect(actions.map((action) => action.kind)).toEqual(['source.fixAll.kitproof']);
    expect(actions[0]!.edit).toBeUndefined();
    const worked = await client.request<CodeAction>('codeAction/resolve', actions[0]!);
    // The slip in the vehicle file waits until that is saved.
    expect(applied(GUIDE_URI, SLIPPED, worked)).toBe(SLIPPED.replace('braket', 'bracket'));
  },
);

it('so it is in a document of any kind, and for a client that asks nothing later', async () => {
  client = await inMemory(files()).start(PUSHED, [FOLDER]);
  await client.open(VEHICLE_URI, VEHICLE_SLIPPED);
  const [action] = await onSave(VEHICLE_URI, VEHICLE_SLIPPED, 'source.fixAll');
  expect(applied(VEHICLE_URI, VEHICLE_SLIPPED, action!)).toBe(VEHICLE);
});

it('nothing is offered where there is nothing to put right, or nobody asked for it', async () => {
  client = await inMemory(files()).start(PUSHED, [FOLDER]);
  const loose = GUIDE.replace('          - torque: bracket.bolt\n', '');
  await client.open(GUIDE_URI, loose);
  expect(await onSave(GUIDE_URI, loose, 'source.fixAll')).toEqual([]);
  await client.open(VEHICLE_URI, VEHICLE_SLIPPED);
  expect(await onSave(VEHICLE_URI, VEHICLE_SLIPPED, 'source.organizeImports')).toEqual([]);
});
