import { afterEach, describe, expect, it } from 'vitest';
import type { CompletionItem, CompletionList } from 'vscode-languageserver/node.js';
import { type Client, inMemory, PUSHED } from './client';
import { FOLDER, files, GUIDE, GUIDE_URI, positionIn, VEHICLE, VEHICLE_URI } from './world';

let client: Client;

afterEach(() => client.end());

const MOORHEN = VEHICLE.replace(
  'traits: { lockers: [none, fitted] }',
  'traits: { lockers: [none, fitted], lift: [20 mm, 50 mm] }',
);
const BASE = GUIDE.replace(
  '      - id: back',
  `      - id: look
        optional: true
        do: [{ measure: bracket.bolt, expect: { below: 10 mm }, else: worn }]
      - id: back`,
);
const KIT_URI = 'file:///shop/a.kit.yaml';
const KIT = `kitproof: kit/1
name: A
for: Moorhen
options: { finish: [plain, painted] }
parts:
  cover: { kind: cover }
`;

/** A text with `|` where the cursor is, in the place of a stretch of another; what is offered there, best first. */
async function offered(
  base: string,
  old: string,
  line: string,
  { uri = GUIDE_URI, capabilities = PUSHED as object } = {},
): Promise<CompletionItem[]> {
  expect(base).toContain(old);
  const marked = base.replace(old, line);
  const at = marked.indexOf('|');
  const text = marked.slice(0, at) + marked.slice(at + 1);
  client = await inMemory(files({ '/shop/moorhen.vehicle.yaml': MOORHEN })).start(capabilities, [FOLDER]);
  await client.open(uri, text);
  const { items } = await client.request<CompletionList>('textDocument/completion', {
    textDocument: { uri },
    position: positionIn(text, at),
  });
  return [...items].sort((a, b) => (a.sortText! < b.sortText! ? -1 : 1));
}

const labels = (items: readonly CompletionItem[]) => items.map(({ label }) => label);

describe('in the braces of a text', () => {
  it.each([
    ['the words', 'text: Put it {|', ['part:', 'torque:', 'step:']],
    ['a word half typed', 'text: "Put it {to|} on."', ['part:', 'torque:', 'step:']],
    ['the figures of this step first', 'text: To {torque:|}.', ['bracket.bolt', 'rear-wheel.nut']],
    ['what this step works on first', 'text: To {part:|}.', ['bracket', 'bracket.bolt', 'rear-axle']],
    ['steps by their ids', 'text: After {step:|}.', ['off', 'look', 'back']],
    ['in a caution', 'caution: { signal: notice, text: "See {step:|}." }', ['off', 'look', 'back']],
    ['in a note', 'note: See {|}.', ['part:', 'torque:', 'step:']],
  ])('%s', async (_what, line, words) => {
    const items = await offered(BASE, 'text: Put it back.', line);
    expect(labels(items).slice(0, words.length)).toEqual(words);
  });

  it('nothing in those of a map', async () => {
    expect(labels(await offered(BASE, 'time: 4 min', 'when: { |'))).not.toContain('part:');
  });
});

const KEYS = ['lift', 'lockers', 'done', 'found', 'not'];

describe('in a condition', () => {
  it.each([
    ['keys', 'when: { | }', KEYS],
    ['keys on lines', 'when:\n          |', KEYS],
    ['keys but those that stand there', 'when: { lockers: none, | }', ['lift', 'done', 'found', 'not']],
    ['keys turned round', 'when: { not: { | } }', KEYS],
    ['keys of one of several', 'when: [{ lockers: none }, { | }]', KEYS],
    ['keys of one of several on lines', 'when:\n          - |', KEYS],
    ['keys, deep within', 'when: [{ not: [{ | }] }]', KEYS],
    ['values', 'when: { lockers: |', ['none', 'fitted']],
    ['values in a list', 'when: { lockers: [none, |', ['none', 'fitted']],
    ['values turned round', 'when: { not: { lockers: | } }', ['none', 'fitted']],
    ['bounds of a figure', 'when: { lift: { | } }', ['at-least', 'above', 'at-most', 'below']],
    ['figures within bounds', 'when: { lift: { below: | } }', ['20 mm', '50 mm']],
    ['no bounds of words', 'when: { lockers: { | } }', []],
    ['optional steps', 'when: { done: | }', ['look']],
    ['what is found', 'when: { found: | }', ['worn']],
    [
      'whole conditions',
      'when: |',
      ['{ lockers: none }', '{ lockers: fitted }', '{ lift: 20 mm }', '{ lift: 50 mm }'],
    ],
  ])('%s', async (_what, line, words) => {
    expect(labels(await offered(BASE, 'time: 4 min', line))).toEqual(words);
  });

  it.each([
    ['names', 'covers: { | }', ['lift', 'lockers']],
    ['values', 'covers: { lockers: | }', ['none', 'fitted', 'any']],
    ['values in a list', 'covers: { lockers: [|] }', ['none', 'fitted', 'any']],
  ])('%s of what a guide covers', async (_what, line, words) => {
    expect(labels(await offered(BASE, 'sections:', `${line}\nsections:`))).toEqual(words);
  });

  it('of a vehicle file its traits, of a kit its options too', async () => {
    const part = 'joins: [frame], joints: { bolt';
    const keys = await offered(MOORHEN, part, `when: { | }, ${part}`, { uri: VEHICLE_URI });
    expect(labels(keys)).toEqual(['lift', 'lockers', 'not']);
    await client.end();
    const values = await offered(KIT, 'kind: cover', 'kind: cover, when: { finish: | }', { uri: KIT_URI });
    expect(labels(values)).toEqual(['plain', 'painted']);
    await client.end();
    const both = await offered(KIT, 'kind: cover', 'kind: cover, when: { | }', { uri: KIT_URI });
    expect(labels(both)).toEqual(['finish', 'lift', 'lockers', 'not']);
  });
});

describe('what is known of an offered word', () => {
  const ASKING = {
    textDocument: {
      ...PUSHED.textDocument,
      completion: { completionItem: { resolveSupport: { properties: ['documentation'] } } },
    },
  };
  const resolved = async (item: CompletionItem) => {
    expect(item.documentation).toBeUndefined();
    const { documentation } = await client.request<CompletionItem>('completionItem/resolve', item);
    return (documentation as { value: string }).value;
  };

  it('is told when it is asked for: of a name what the pointer on it would tell, in this step', async () => {
    const items = await offered(BASE, '- torque: bracket.bolt', '- torque: |', { capabilities: ASKING });
    const said = await resolved(items.find(({ label }) => label === 'bracket.bolt')!);
    expect(said).toContain('22 N·m');
    expect(said).toContain('before this step');
    await client.end();
    const aids = await offered(BASE, '- torque: bracket.bolt', '- raise: vehicle\n            with: |', {
      capabilities: ASKING,
    });
    expect(await resolved(aids.find(({ label }) => label === 'two-post-lift')!)).toContain('raises');
  });

  it('of a key, a verb and a name in a text too', async () => {
    const keys = await offered(BASE, 'time: 4 min', 'pe|', { capabilities: ASKING });
    expect(await resolved(keys.find(({ label }) => label === 'people')!)).toContain('How many people');
    await client.end();
    const names = await offered(BASE, 'Put it back.', 'Put {part:|} back.', { capabilities: ASKING });
    expect(await resolved(names[0]!)).toContain('Mass 2 kg');
  });

  it('goes along for a client that cannot ask', async () => {
    const keys = await offered(BASE, 'time: 4 min', 'pe|');
    const people = keys.find(({ label }) => label === 'people')!;
    expect(people.documentation).toMatchObject({ value: expect.stringContaining('How many people') });
    expect(people.data).toBeUndefined();
  });

  it('is nothing for an item of a list that is long gone', async () => {
    const items = await offered(BASE, 'time: 4 min', 'pe|', { capabilities: ASKING });
    const item = { ...items[0]!, data: { list: 99, index: 0 } };
    expect(await client.request('completionItem/resolve', item)).toEqual(item);
    const bare = { label: 'x' };
    expect(await client.request('completionItem/resolve', bare)).toEqual(bare);
  });
});

describe('what hours are made of', () => {
  const TIMES =
    'kitproof: times/1\naccess: { undertray: 6 min, dash: 9 min }\ntimes:\n  - { verb: check, time: 1 min, skill: brake fitter }\n';
  const times = async (old: string, line: string) =>
    labels(await offered(TIMES, old, line, { uri: 'file:///shop/a.times.yaml' }));

  it('offers the skills that are named already, and the places that may be got to', async () => {
    const guide = BASE.replace('      - id: off\n', '      - id: off\n        skill: electrician\n');
    expect(
      labels(await offered(guide, '      - id: back\n', '      - id: back\n        skill: |\n')),
    ).toContain('electrician');
    await client.end();
    expect(await times('time: 1 min', 'time: 1 min, access: |')).toEqual(['undertray', 'dash']);
    await client.end();
    expect(await times('time: 1 min,', 'access: dash, |')).toContain('hex');
    await client.end();
    expect(await times('dash: 9 min', '|')).toContain('wheel-arch-liner');
  });

  it('offers what an allowance is for, and what it is of', async () => {
    const config = 'kitproof: config/1\nallowances: { personal: 5 %, on: job-time }\n';
    const uri = 'file:///shop/kitproof.yaml';
    const keys = labels(await offered(config, 'on: job-time', '|', { uri }));
    expect(keys).toEqual(expect.arrayContaining(['on', 'fatigue', 'delay', 'other']));
    expect(keys).not.toContain('personal');
    await client.end();
    expect(labels(await offered(config, 'on: job-time', 'on: |', { uri }))).toEqual([
      'job-time',
      'shift-time',
    ]);
  });
});
