import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Client, inMemory, PULLING } from './client';
import { at, FOLDER, files, GUIDE, GUIDE_URI } from './world';

const RULES = readFileSync(join(process.cwd(), 'schemas/rules.md'), 'utf8');
const CATALOGUE = '/program of ours/schemas/rules.md';
const LINKING = {
  ...PULLING,
  textDocument: { ...PULLING.textDocument, publishDiagnostics: { codeDescriptionSupport: true } },
};
const LOOSE = GUIDE.replace('          - torque: bracket.bolt\n', '');

interface Found {
  readonly code: string;
  readonly codeDescription?: { readonly href: string };
  readonly tags?: readonly number[];
  readonly range: { readonly start: object };
}

async function pulled(client: Client, text: string): Promise<readonly Found[]> {
  await client.open(GUIDE_URI, text);
  const { items } = await client.request<{ items: readonly Found[] }>('textDocument/diagnostic', {
    textDocument: { uri: GUIDE_URI },
  });
  await client.end();
  return items;
}

describe('a finding leads to what is said of its rule', () => {
  it('in the catalogue beside the program, at its heading', async () => {
    const client = await inMemory(files({ [CATALOGUE]: RULES }), CATALOGUE).start(LINKING, [FOLDER]);
    const [found] = await pulled(client, LOOSE);
    const { href } = found!.codeDescription!;
    expect(href).toMatch(/^file:\/\/\/program%20of%20ours\/schemas\/rules\.md#L\d+$/);
    expect(RULES.split('\n')[Number(href.split('#L')[1]) - 1]).toBe('### left-loose');
  });

  it('in the pack of the house, for a rule of its own', async () => {
    const more = {
      '/shop/kitproof.yaml': 'kitproof: config/1\npacks: [house.rules.yaml]\n',
      '/shop/house.rules.yaml': `kitproof: rules/1
pack: house
rules:
  - id: bracket-marked-first
    core: true
    harm: rework
    says: "{item} is loosened before it is marked."
    reason: It goes back where it was only by a mark.
    source: common practice
    on: { verb: loosen, kind: bracket }
    first: { verb: mark }
`,
      [CATALOGUE]: RULES,
    };
    const client = await inMemory(files(more), CATALOGUE).start(LINKING, [FOLDER]);
    const found = await pulled(client, GUIDE);
    expect(found[0]!.code).toBe('bracket-marked-first');
    expect(found[0]!.codeDescription!.href).toMatch(/^file:\/\/\/shop\/house\.rules\.yaml#L4$/);
  });

  it('nowhere without the catalogue, for a slip of the pen, or where the client knows no links', async () => {
    const bare = await inMemory(files(), CATALOGUE).start(LINKING, [FOLDER]);
    expect((await pulled(bare, LOOSE))[0]!.codeDescription).toBeUndefined();
    const slip = await inMemory(files({ [CATALOGUE]: RULES }), CATALOGUE).start(LINKING, [FOLDER]);
    const [found] = await pulled(slip, GUIDE.replace('unbolt: bracket', 'unbolt: braket'));
    expect(found).toMatchObject({ code: 'unknown-name' });
    expect(found!.codeDescription).toBeUndefined();
    const plain = await inMemory(files({ [CATALOGUE]: RULES }), CATALOGUE).start(PULLING, [FOLDER]);
    expect((await pulled(plain, LOOSE))[0]!.codeDescription).toBeUndefined();
  });
});

describe('what is written for nothing is told as such, for the editor to grey it', () => {
  it.each([
    [
      'never-done',
      'fitted }',
      GUIDE.replace('sections:', 'covers: { lockers: none }\nsections:').replace(
        '      - id: back\n',
        '      - when: { lockers: fitted }\n        do: [{ check: bracket }]\n      - id: back\n',
      ),
    ],
    [
      'unused-waiver',
      'left-off',
      GUIDE.replace(
        'sections:',
        'waive: [{ rule: left-off, because: So it is., by: Sal, until: 2027-01-31 }]\nsections:',
      ),
    ],
    [
      'setting-replaced',
      'adjust: bracket',
      GUIDE.replace(
        '        time: 4 min\n',
        '          - { adjust: bracket, to: 10 mm, when: { lockers: fitted } }\n          - { adjust: bracket, to: 12 mm }\n        time: 4 min\n',
      ),
    ],
  ])('%s', async (rule, word, text) => {
    const client = await inMemory(files()).start(PULLING, [FOLDER]);
    const found = (await pulled(client, text)).filter(({ code }) => code === rule);
    expect(found.map(({ tags }) => tags)).toEqual([[1]]);
    expect(found[0]!.range.start).toMatchObject({ line: at(text, word).line });
  });

  it('a fault is not', async () => {
    const client = await inMemory(files()).start(PULLING, [FOLDER]);
    expect((await pulled(client, LOOSE))[0]!.tags).toBeUndefined();
  });
});

it('the name of a standard rule in a waiver leads to the catalogue', async () => {
  const waived = LOOSE.replace(
    'title:',
    'waive: [{ rule: left-loose, because: Shown so., by: A. Writer, until: 2099-01-01 }]\ntitle:',
  );
  const client = await inMemory(files({ [CATALOGUE]: RULES }), CATALOGUE).start(LINKING, [FOLDER]);
  await client.open(GUIDE_URI, waived);
  const [found] = await client.request<readonly { uri: string; range: { start: { line: number } } }[]>(
    'textDocument/definition',
    { textDocument: { uri: GUIDE_URI }, position: at(waived, 'left-loose') },
  );
  await client.end();
  expect(found!.uri).toBe('file:///program%20of%20ours/schemas/rules.md');
  expect(RULES.split('\n')[found!.range.start.line]).toBe('### left-loose');
});
