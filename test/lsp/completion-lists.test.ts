// biome-ignore-all lint/suspicious/noTemplateCurlyInString: the protocol writes places to fill like that.
import { afterEach, describe, expect, it } from 'vitest';
import type { CompletionItem, CompletionList, TextEdit } from 'vscode-languageserver/node.js';
import { openDocument } from '../../server/src/schema/document';
import { type Client, inMemory, PUSHED } from './client';
import { FOLDER, files, GUIDE, GUIDE_URI, positionIn } from './world';

let client: Client;

afterEach(() => client.end());

const CAPABLE = {
  ...PUSHED,
  textDocument: { ...PUSHED.textDocument, completion: { completionItem: { snippetSupport: true } } },
};

interface Offered {
  readonly items: readonly CompletionItem[];
  readonly labels: readonly string[];
  /** The text once an item is taken, with what a writer is to fill in filled in as it is proposed. */
  taken(label: string): string;
}

/** What is offered at `|` in a text, best first. */
async function offered(marked: string, uri = GUIDE_URI): Promise<Offered> {
  const at = marked.indexOf('|');
  const text = marked.slice(0, at) + marked.slice(at + 1);
  client = await inMemory(files()).start(CAPABLE, [FOLDER]);
  await client.open(uri, text);
  const list = await client.request<CompletionList>('textDocument/completion', {
    textDocument: { uri },
    position: positionIn(text, at),
  });
  const items = [...list.items].sort((a, b) => (a.sortText! < b.sortText! ? -1 : 1));
  return {
    items,
    labels: items.map(({ label }) => label),
    taken(label) {
      const { newText } = items.find((one) => one.label === label)!.textEdit as TextEdit;
      return text.slice(0, at) + filledIn(newText) + text.slice(at);
    },
  };
}

/** A snippet as it stands when its proposals are taken: `${1:word}` and `${1|word,…|}` are `word`, and so is every `$1`. */
function filledIn(snippet: string): string {
  const place = /\$\{(\d+)(?::([^}]*)|\|([^,|]*)[^}]*)?\}|\$(\d+)/g;
  const proposals = new Map<string, string>();
  for (const [, number, word, first] of snippet.matchAll(place))
    if (number !== undefined) proposals.set(number, word ?? first ?? '');
  return snippet.replaceAll(place, (_, a, _word, _first, b) => proposals.get(a ?? b) ?? '');
}

const END = GUIDE.trimEnd();

describe('on an empty line', () => {
  it('under the operations of a step the next one is offered, with its dash', async () => {
    const { labels, taken } = await offered(
      END.replace('\n        time: 4 min', '\n          |\n        time: 4 min'),
    );
    expect(labels).toContain('check');
    expect(labels).not.toContain('people');
    expect(taken('check')).toContain('- torque: bracket.bolt\n          - check: \n        time');
  });

  it('deeper than that a qualifier of the operation', async () => {
    const { labels, taken } = await offered(
      END.replace('\n        time: 4 min', '\n            |\n        time: 4 min'),
    );
    expect(labels).toContain('stages');
    expect(labels).not.toContain('check');
    expect(taken('to')).toContain('- torque: bracket.bolt\n            to: \n');
  });

  it('under a key that has no value yet its first element, or a map where that may be', async () => {
    const first = await offered(`${GUIDE.slice(0, GUIDE.indexOf('  - title: Bracket'))}  |`);
    expect(first.labels.slice(0, 3)).toEqual(['section', 'title', 'steps']);
    expect(first.taken('title')).toMatch(/sections:\n {2}- title: $/);
    await client.end();
    const operations = await offered(END.replace(/- bolt-up[\s\S]*$/, '|'));
    expect(operations.taken('torque')).toMatch(/do:\n {10}- torque: $/);
  });

  it('at the column of the steps the next one, whole ones first', async () => {
    const { labels } = await offered(`${END}\n      |`);
    expect(labels[0]).toMatch(/^step: /);
    expect(labels).toContain('text');
    expect(labels).not.toContain('people: ');
  });

  it('where dashes stand under their key, both: the next element and a key of the map around', async () => {
    const flat = END.replaceAll(/^ {10}- /gm, '        - ').replace('\n        time: 4 min', '\n        |');
    const { labels, taken } = await offered(flat);
    expect(labels).toContain('people');
    expect(labels.indexOf('check')).toBeLessThan(labels.indexOf('people'));
    expect(taken('check')).toMatch(/\n {8}- check: $/);
    expect(taken('people')).toMatch(/\n {8}people: $/);
  });

  it('keys alone where there is no list', async () => {
    const { taken } = await offered(`${END}\n        |`);
    expect(taken('people')).toMatch(/\n {8}people: $/);
  });

  it('names of a list of names', async () => {
    const kit = '/shop/a.kit.yaml';
    const text = END.replace('sections:', 'kit:\n  |\nsections:');
    client = await inMemory(files({ [kit]: 'kitproof: kit/1\nname: A\n' })).start(CAPABLE, [FOLDER]);
    await client.open(GUIDE_URI, text.replace('|', ''));
    await client.push(GUIDE_URI);
    const { items } = await client.request<CompletionList>('textDocument/completion', {
      textDocument: { uri: GUIDE_URI },
      position: positionIn(text, text.indexOf('|')),
    });
    expect(items.map(({ label, textEdit }) => [label, (textEdit as TextEdit).newText])).toContainEqual([
      'a.kit.yaml',
      '- a.kit.yaml',
    ]);
  });
});

describe('whole steps, sections and rules', () => {
  const RULES = 'kitproof: rules/1\npack: House\nrules:\n  ';
  it.each([
    ['a step behind a dash', `${END}\n      - |`, /^step: /, GUIDE_URI],
    ['a step on an empty line', `${END}\n      |`, /^step: /, GUIDE_URI],
    ['a section behind a dash', `${END}\n  - |`, /^section$/, GUIDE_URI],
    ['a rule', `${RULES}- |`, /^rule: /, 'file:///shop/a.rules.yaml'],
  ])('%s reads as it is meant, wherever the line begins', async (_what, text, which, uri) => {
    const { labels, taken } = await offered(text, uri);
    const wholes = labels.filter((label) => which.test(label));
    expect(wholes.length).toBeGreaterThan(0);
    for (const label of wholes) {
      const { findings, value } = openDocument(uri, taken(label), { ours: true });
      expect(
        findings
          .map(({ message }) => message)
          .filter((one) => !/has no value|has no operations|is empty/.test(one)),
        taken(label),
      ).toEqual([]);
      expect(value).not.toBeNull();
    }
  });
});

it('the places of a whole step let choose what makes sense there', async () => {
  const { items } = await offered(`${END}\n      |`);
  const body = (label: string) =>
    (items.find((one) => one.label === label)!.textEdit as TextEdit).newText.split('\n');
  expect(body('step: take a part off')).toEqual([
    '- text: Take the {part:$1} off.',
    '        do:',
    '          - unbolt: ${1|rear-wheel,rear-shock,bracket|}',
    '        time: ${9:10 min}',
  ]);
  expect(body('step: carry a part while another comes off')[2]).toMatch(/^ {10}- support: \$\{1\|rear-axle,/);
  expect(body('step: carry a part while another comes off')[3]).toMatch(/with: \$\{2\|pole-jacks,/);
});

describe('what is likely comes first', () => {
  const typing = (line: string) => END.replace('- bolt-up: bracket', line);
  it.each([
    ['- raise: |', 'vehicle'],
    ['- support: |', 'vehicle'],
    ['- { raise: vehicle, with: |', 'two-post-lift'],
    ['- { lower: vehicle, with: |', 'two-post-lift'],
  ])('%s', async (line, first) => {
    const { labels } = await offered(typing(line));
    expect(labels[0]).toBe(first);
  });

  it('keys in the order in which they are written, what is needed marked', async () => {
    const { items, labels } = await offered('kitproof: install/1\n|');
    expect(labels.slice(0, 5)).toEqual(['title', 'sections', 'id', 'vehicle', 'kit']);
    expect(items.slice(0, 3).map(({ labelDetails }) => labelDetails?.description)).toEqual([
      'needed',
      'needed',
      undefined,
    ]);
  });
});
