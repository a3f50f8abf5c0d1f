/** Rule packs and settings in the editor, through the real protocol. */

import { afterEach, describe, expect, it } from 'vitest';
import type { CompletionItem, CompletionList, Hover } from 'vscode-languageserver/node.js';
import { type Client, inMemory, PUSHED } from './client';
import { at, FOLDER, files, positionIn } from './world';

const PACK_URI = 'file:///shop/shop.rules.yaml';
const SETTINGS_URI = 'file:///shop/kitproof.yaml';
const PACK = `kitproof: rules/1
pack: shop
kinds:
  jig: { words: [fixture] }
rules:
  - id: gloves-on
    harm: rework
    watch: { verb: [drill], kind: [bracket], joint: { nut: slotted }, qualifier: { with: [any] } }
    first: { verb: [check], of: { words: [gloves] }, since: { verb: [raise], of: any } }
    says: "{item} is drilled."
    reason: Swarf cuts.
  - id: left-loose
    overrides: true
    harm: rework
    built-in: left-loose
    says: "{item}."
    reason: It falls off.
`;
const SETTINGS = `kitproof: config/1
packs: [shop.rules.yaml]
rules:
  gloves-on: warning
  left-off: off
`;

let client: Client;

afterEach(() => client.end());

async function opened(uri: string, text: string): Promise<void> {
  const capabilities = {
    ...PUSHED,
    textDocument: { ...PUSHED.textDocument, completion: { completionItem: { snippetSupport: true } } },
  };
  const world = files({ '/shop/shop.rules.yaml': PACK, '/shop/kitproof.yaml': SETTINGS });
  client = await inMemory(world).start(capabilities, [FOLDER]);
  await client.open(uri, text);
}

/** What is offered where `|` stands in a text, by its label. */
async function offered(uri: string, marked: string): Promise<Map<string, CompletionItem>> {
  const offset = marked.indexOf('|');
  const text = marked.replace('|', '');
  await opened(uri, text);
  const { items } = await client.request<CompletionList>('textDocument/completion', {
    textDocument: { uri },
    position: positionIn(text, offset),
  });
  return new Map(items.map((item) => [item.label, item]));
}

const inRule = (line: string): string => `${PACK}  - id: fresh\n    harm: rework\n    ${line}\n`;
const about = (item: CompletionItem | undefined): string =>
  typeof item?.documentation === 'object' ? item.documentation.value : (item?.documentation ?? '');

describe('completion in a pack', () => {
  it('offers verbs with what they do, kinds of the packs and of this one, what is acted on, and what always exists', async () => {
    const verbs = await offered(PACK_URI, inRule('watch: { verb: [tor|] }'));
    expect(about(verbs.get('torque'))).toMatch(/final/i);
    expect(verbs.has('disconnect')).toBe(true);
    await client.end();
    const kinds = await offered(PACK_URI, inRule('watch: { kind: [|] }'));
    for (const kind of ['shock', 'brake-hose', 'jig']) expect(kinds.has(kind), kind).toBe(true);
    await client.end();
    const what = await offered(PACK_URI, inRule('watch: { what: [|] }'));
    expect(about(what.get('built-in'))).toContain('a system');
    await client.end();
    const names = await offered(PACK_URI, inRule('watch: { item: [|] }'));
    for (const name of ['battery', 'parking-brake', 'vehicle']) expect(names.has(name), name).toBe(true);
  });

  it('offers states with what they mean, those of what is asked first', async () => {
    const states = await offered(
      PACK_URI,
      inRule('watch: { verb: [disconnect] }\n    needs: { state: [|] }'),
    );
    expect(about(states.get('connected'))).toBe('connected at all its ends');
    expect(states.get('connected')!.sortText! < states.get('loose')!.sortText!).toBe(true);
    await client.end();
    const joints = await offered(
      PACK_URI,
      inRule('watch: { verb: [bleed] }\n    needs: { of: joints, state: | }'),
    );
    expect(joints.get('loose')!.sortText! < joints.get('connected')!.sortText!).toBe(true);
  });

  it('offers the words of of, the qualifiers of the verbs, their values, and properties of joints', async () => {
    const of = await offered(PACK_URI, inRule('first: { verb: [clean], of: | }'));
    expect(about(of.get('axle'))).toBe('the axle that it hangs on');
    expect(of.has('any')).toBe(true);
    await client.end();
    const qualifiers = await offered(PACK_URI, inRule('watch: { verb: [torque], qualifier: { pat| } }'));
    expect([...qualifiers.keys()]).toEqual(expect.arrayContaining(['pattern', 'stages', 'to']));
    expect(qualifiers.has('side')).toBe(false);
    await client.end();
    const values = await offered(PACK_URI, inRule('watch: { verb: [torque], qualifier: { pattern: [|] } }'));
    expect([...values.keys()]).toEqual(expect.arrayContaining(['star', 'in-turn', 'any', 'none']));
    await client.end();
    const aids = await offered(PACK_URI, inRule('watch: { verb: [raise], qualifier: { with: [|] } }'));
    expect(aids.has('two-post-lift')).toBe(true);
    await client.end();
    const properties = await offered(PACK_URI, inRule('watch: { verb: [torque], joint: { nu| } }'));
    expect(about(properties.get('nut'))).toContain('The kind of nut');
    await client.end();
    const nuts = await offered(PACK_URI, inRule('watch: { verb: [torque], joint: { nut: | } }'));
    expect([...nuts.keys()]).toEqual(expect.arrayContaining(['slotted', 'self-locking']));
  });

  it('offers what a rule may ask first, until it asks something', async () => {
    const keys = await offered(PACK_URI, inRule('|'));
    const rank = (label: string) => keys.get(label)!.sortText!;
    for (const family of ['never', 'needs', 'first', 'later', 'next'])
      expect(rank(family) < rank('note')).toBe(true);
    expect(about(keys.get('later'))).toContain('must follow by the end');
    await client.end();
    const asked = await offered(PACK_URI, inRule('never: true\n    |'));
    expect(asked.get('later')!.sortText! < asked.get('core')!.sortText!).toBe(false);
    await client.end();
    const whole = await offered(PACK_URI, `${PACK}  - |\n`);
    expect(whole.get('rule: something first')!.textEdit!.newText).toContain('first: { verb: [');
  });

  it('offers built-in rules with their reasons and settings, ids to override, and what a sentence fills in', async () => {
    const built = await offered(PACK_URI, inRule('built-in: |'));
    expect(about(built.get('left-off'))).not.toBe('');
    await client.end();
    const settings = await offered(PACK_URI, inRule('built-in: left-without\n    with: { | }'));
    expect(settings.has('kinds')).toBe(true);
    await client.end();
    const ids = await offered(PACK_URI, `${PACK}  - overrides: true\n    id: |\n`);
    expect(about(ids.get('left-off'))).not.toBe('');
    await client.end();
    const facts = await offered(PACK_URI, inRule('first: { verb: [clean] }\n    says: "{|'));
    expect([...facts.keys()].sort()).toEqual(['item', 'part', 'related', 'verb']);
  });
});

describe('completion in kitproof.yaml', () => {
  it('offers ids of all packs with their reasons, and what may be said of them', async () => {
    const ids = await offered(SETTINGS_URI, `${SETTINGS}  |\n`);
    expect(about(ids.get('left-loose'))).toBe('It falls off.');
    expect(about(ids.get('left-raised'))).not.toBe('');
    expect(ids.has('gloves-on')).toBe(false);
    await client.end();
    const words = await offered(SETTINGS_URI, `${SETTINGS}  left-raised: |\n`);
    expect([...words.keys()]).toEqual(expect.arrayContaining(['on', 'off', 'error', 'warning', 'info']));
  });
});

describe('hover', () => {
  async function hover(uri: string, text: string, word: string, by = 1): Promise<string> {
    const found = await client.request<Hover | null>('textDocument/hover', {
      textDocument: { uri },
      position: at(text, word, by),
    });
    return found === null ? '' : (found.contents as { value: string }).value;
  }

  it('tells what a rule of a pack looks at and asks, and whether it counts here', async () => {
    await opened(PACK_URI, PACK);
    const said = await hover(PACK_URI, PACK, 'gloves-on');
    expect(said).toContain('Swarf cuts.');
    expect(said).toContain('Looks at every drill of');
    expect(said).toContain('came earlier, with no raise of anything since');
    expect(said).toContain('On here');
    expect(await hover(PACK_URI, PACK, 'id: left-loose', 5)).toContain('It falls off.');
  });

  it('tells what the words of a rule mean', async () => {
    await opened(PACK_URI, PACK);
    expect(await hover(PACK_URI, PACK, '[drill]', 2)).toContain('**drill**');
    expect(await hover(PACK_URI, PACK, 'nut: slotted')).toContain('The kind of nut');
    expect(await hover(PACK_URI, PACK, 'of: any', 5)).toContain('anything at all');
    expect(await hover(PACK_URI, PACK, 'bracket')).toContain('A kind of the pack base');
    expect(await hover(PACK_URI, PACK, 'first:')).toContain('must have come earlier');
    expect(await hover(PACK_URI, PACK, 'built-in: left-loose', 12)).toContain('It falls off.');
  });

  it('tells of an id in kitproof.yaml its rule', async () => {
    await opened(SETTINGS_URI, SETTINGS);
    expect(await hover(SETTINGS_URI, SETTINGS, 'gloves-on')).toContain('Looks at every drill');
    expect(await hover(SETTINGS_URI, SETTINGS, 'left-off')).toContain('Off here');
  });
});
