import { afterEach, describe, expect, it } from 'vitest';
import type { ClientCapabilities, CodeAction, TextDocumentEdit } from 'vscode-languageserver/node.js';
import { type Client, inMemory, PUSHED } from './client';
import { at, FOLDER, files, GUIDE, GUIDE_URI, positionIn, VEHICLE, VEHICLE_URI } from './world';

let client: Client;

afterEach(() => client.end());

/** A client that knows versions, and asks for what takes long when it is chosen. */
const ABLE: ClientCapabilities = {
  workspace: { workspaceEdit: { documentChanges: true } },
  textDocument: {
    ...PUSHED.textDocument,
    codeAction: { dataSupport: true, resolveSupport: { properties: ['edit'] } },
  },
};

const HEAD =
  'kitproof: install/1\ntitle: Shocks\nvehicle: moorhen.vehicle.yaml\nsections:\n  - title: S\n    steps:\n';
/** The axle drops as the bolts come out, for nothing is under it. */
const SHOCKS = `${HEAD}      # First of all.
      - text: Raise the vehicle.
        do: [{ raise: vehicle, with: two-post-lift }]
      - text: Take out the lower bolts.   # both sides
        do:
          - remove: rear-shock.lower-bolt
      - do: [{ snug: rear-shock.lower-bolt }]
      - do: [{ lower: vehicle }]
      - do: [{ torque: rear-shock.lower-bolt }]
`;

/** The same, and the shocks are never tight, nor is the vehicle let down. */
const LEFT = SHOCKS.slice(0, SHOCKS.indexOf('      - do: [{ snug'));

async function opened(text: string, capabilities = ABLE, more: Readonly<Record<string, string>> = {}) {
  client = await inMemory(files(more)).start(capabilities, [FOLDER]);
  await client.open(GUIDE_URI, text);
  return client.push(GUIDE_URI);
}

function ask(text: string, word: string, more: object = {}): Promise<CodeAction[]> {
  const position = at(text, word, 2);
  return client.request('textDocument/codeAction', {
    textDocument: { uri: GUIDE_URI },
    range: { start: position, end: position },
    context: { diagnostics: [], ...more },
  });
}

/** Makes the edits of an action in the open document, as an editor does: all are places of the text as it is. */
async function apply(text: string, action: CodeAction): Promise<string> {
  const [change] = action.edit!.documentChanges as TextDocumentEdit[];
  const offset = ({ line, character }: { line: number; character: number }) =>
    text
      .split('\n')
      .slice(0, line)
      .reduce((sum, one) => sum + one.length + 1, 0) + character;
  const edits = [...change!.edits].reverse() as { range: { start: never; end: never }; newText: string }[];
  let made = text;
  for (const { range, newText } of edits)
    made = made.slice(0, offset(range.start)) + newText + made.slice(offset(range.end));
  await client.change(GUIDE_URI, { text: made });
  return made;
}

const rulesAfter = async (version: number) =>
  (await client.push(GUIDE_URI, (push) => push.version === version)).map(({ code }) => code).sort();

describe('fixes of a finding', () => {
  it('are offered at its place, tried, with the version that they are of', async () => {
    const before = await opened(SHOCKS);
    expect(before.map(({ code }) => code)).toContain('support-axle-before-shock-removal');
    const actions = await ask(SHOCKS, 'remove: rear-shock');
    const support = actions.find(({ title }) =>
      title.startsWith('Support the rear axle with pole jacks first'),
    )!;
    expect(support.title).toMatch(/, and take the pole jacks away .*later \(2 draft steps\)$/);
    expect(support.kind).toBe('quickfix');
    const [change] = support.edit!.documentChanges as TextDocumentEdit[];
    expect(change!.textDocument).toEqual({ uri: GUIDE_URI, version: 1 });
    const text = await apply(SHOCKS, support);
    expect(text).toContain('      # First of all.\n      - text: Raise the vehicle.\n');
    expect(text).toContain('Take out the lower bolts.   # both sides\n');
    expect(text).toContain('      - text: Support the rear axle with pole jacks.\n        draft: true\n');
    const after = await rulesAfter(2);
    expect(after).toContain('draft-step');
    expect(after).not.toContain('support-axle-before-shock-removal');
    expect(after.filter((code) => code !== 'draft-step')).toEqual(
      before
        .map(({ code }) => code)
        .filter((code) => code !== 'support-axle-before-shock-removal')
        .sort(),
    );
  });

  it('clear the mark of a draft', async () => {
    const text = GUIDE.replace('      - id: back\n', '      - id: back\n        draft: true\n');
    await opened(text);
    const [clear] = await ask(text, 'draft: true', { only: ['quickfix'] });
    expect(clear!.title).toContain('take the mark away');
    await apply(text, clear!);
    expect(await rulesAfter(2)).toEqual([]);
  });

  it('are given up when the text changes meanwhile, or nobody wants them', async () => {
    await opened(SHOCKS);
    const asked = ask(SHOCKS, 'remove: rear-shock');
    await client.change(GUIDE_URI, { text: GUIDE });
    expect(await asked).toEqual([]);
    expect(await rulesAfter(2)).toEqual([]);
  });

  it('are worked out at once for a client that cannot ask later, and only when a person asks', async () => {
    const text = `${HEAD}      - do: [{ loosen: bracket.bolt }, { loosen: rear-wheel.nut }]\n`;
    await opened(text, PUSHED);
    const word = 'loosen: bracket';
    const automatic = await ask(text, word, { triggerKind: 2 });
    expect(automatic.length).toBeGreaterThan(0);
    expect(automatic.map(({ title }) => title).join()).not.toContain('Fix all');
    expect(automatic.every(({ edit }) => edit!.changes !== undefined)).toBe(true);
    const invoked = await ask(text, word, { triggerKind: 1 });
    const all = invoked.find(({ title }) => title === 'Fix all 2 findings of left-loose in this file');
    expect(all?.edit?.changes?.[GUIDE_URI]?.length).toBeGreaterThan(0);
  });
});

describe('fixes of many findings', () => {
  it('close the open list, the last debt first', async () => {
    const text = `${HEAD}      - do: [{ isolate: battery }]\n      - do: [{ raise: vehicle, with: two-post-lift }]\n      - do: [{ loosen: bracket.bolt }]\n`;
    expect((await opened(text)).map(({ code }) => code).sort()).toEqual([
      'left-isolated',
      'left-loose',
      'left-raised',
    ]);
    const actions = await ask(text, 'loosen: bracket');
    const close = actions.find(({ title }) => title === 'Close the open list (3 debts)')!;
    expect(close.edit).toBeUndefined();
    const worked = await client.request<CodeAction>('codeAction/resolve', close);
    const made = await apply(text, worked);
    expect(await rulesAfter(2)).toEqual(['draft-step', 'draft-step', 'draft-step']);
    const order = ['torque: bracket.bolt', 'lower: vehicle', 'restore: battery'].map((one) =>
      made.indexOf(one),
    );
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(order[0]).toBeGreaterThan(0);
  });

  it('close what can only be closed when something else is', async () => {
    await opened(LEFT);
    const [close] = await ask(LEFT, 'Shocks', { only: ['source.kitproof.closeOpenList'] });
    const made = await apply(LEFT, await client.request<CodeAction>('codeAction/resolve', close!));
    // The joint is snug as the vehicle comes down, and gets its torque on the wheels.
    const order = ['snug: rear-shock.lower-bolt', 'lower: vehicle', 'torque: rear-shock.lower-bolt'];
    expect(order.map((one) => made.indexOf(one) > made.indexOf('remove: '))).toEqual([true, true, true]);
    expect((await rulesAfter(2)).filter((code) => String(code).startsWith('left-'))).toEqual([]);
  });

  it('close in halves what is closed by no one thing: a bushed part goes back on, and is tightened on the wheels', async () => {
    const text = LEFT.replace(
      '          - remove: rear-shock.lower-bolt\n',
      '          - support: rear-axle\n            with: pole-jacks\n          - unbolt: rear-shock\n',
    );
    expect((await opened(text)).map(({ code }) => code)).toEqual(['left-raised', 'left-off']);
    const offered = await ask(text, 'unbolt: rear-shock', { triggerKind: 1 });
    const close = offered.find(({ title }) => title === 'Close the open list (2 debts)')!;
    const made = await apply(text, close);
    const order = [
      'Put the rear shock on with its bolts and snug the rear shock.',
      'bolt-up: rear-shock',
      'snug: rear-shock',
      'unsupport: rear-axle',
      'lower: vehicle',
      'torque: rear-shock',
    ].map((one) => made.indexOf(one));
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(order[0]).toBeGreaterThan(text.length - 20);
    expect(new Set(await rulesAfter(2))).toEqual(new Set(['draft-step']));
  });

  it('are in the menu of the whole guide, where they are asked for', async () => {
    const text = LEFT.replace('two-post-lift', 'two-post-lifft');
    await opened(text);
    const quick = await ask(text, 'Shocks');
    expect(quick.filter(({ kind }) => kind?.startsWith('source'))).toEqual([]);
    const actions = await ask(text, 'Shocks', { only: ['source'] });
    expect(actions.map(({ kind }) => kind)).toEqual([
      'source.fixAll.kitproof',
      'source.kitproof.closeOpenList',
      'source.kitproof.order',
    ]);
    const slips = await client.request<CodeAction>('codeAction/resolve', actions[0]!);
    expect(await apply(text, slips)).toBe(LEFT);
  });

  it('are not made in a text that has changed since they were offered', async () => {
    await opened(LEFT);
    const [close] = await ask(LEFT, 'Shocks', { only: ['source.kitproof.closeOpenList'] });
    await client.change(GUIDE_URI, { text: `${LEFT}# more\n` });
    expect((await client.request<CodeAction>('codeAction/resolve', close!)).edit).toBeUndefined();
  });
});

it('a document that is no guide has the fixes that its findings carry', async () => {
  await opened(GUIDE);
  const text = VEHICLE.replace('sided: true', 'sidded: true');
  await client.open(VEHICLE_URI, text);
  const found = await client.push(VEHICLE_URI, ({ diagnostics }) => diagnostics.length > 0);
  const start = positionIn(text, text.indexOf('sidded'));
  const [fix] = await client.request<CodeAction[]>('textDocument/codeAction', {
    textDocument: { uri: VEHICLE_URI },
    range: { start, end: start },
    context: { diagnostics: found },
  });
  expect(fix).toMatchObject({ title: 'Write "sided"', isPreferred: true });
});
