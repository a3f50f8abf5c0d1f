import { afterEach, expect, it } from 'vitest';
import type { CodeAction, TextEdit } from 'vscode-languageserver/node.js';
import { type Client, inMemory, PUSHED } from './client';
import { at, FOLDER, files, GUIDE, GUIDE_URI, VEHICLE, VEHICLE_URI } from './world';

let client: Client;

afterEach(() => client.end());

interface Asked {
  readonly guide?: string;
  readonly vehicle?: string;
  readonly more?: Readonly<Record<string, string>>;
  /** Where it is asked, the guide unless told otherwise. */
  readonly uri?: string;
  readonly word: string;
}

/** The titles offered at a word, and what the document becomes by one of them. */
async function offered({ guide = GUIDE, vehicle = VEHICLE, more = {}, uri = GUIDE_URI, word }: Asked) {
  client = await inMemory(files({ '/shop/moorhen.vehicle.yaml': vehicle, ...more })).start(PUSHED, [FOLDER]);
  await client.open(GUIDE_URI, guide);
  await client.open(VEHICLE_URI, vehicle);
  const text = uri === GUIDE_URI ? guide : vehicle;
  const position = at(text, word, 1);
  const actions = await client.request<CodeAction[]>('textDocument/codeAction', {
    textDocument: { uri },
    range: { start: position, end: position },
    context: { diagnostics: [], only: ['refactor.rewrite'] },
  });
  return {
    titles: actions.map(({ title }) => title),
    /** Does it: the changed line, without its indentation, and what is found after. */
    async take(title: string): Promise<{ line: string; found: unknown[] }> {
      const action = actions.find((one) => one.title === title);
      if (action === undefined) throw new Error(`Not offered: ${title}; but ${actions.map((a) => a.title)}`);
      const [changed, edits] = Object.entries(action.edit!.changes!)[0]!;
      const before = changed === GUIDE_URI ? guide : vehicle;
      const after = applied(before, edits);
      for (const { range, newText } of [...edits].reverse())
        await client.change(changed, { range, text: newText });
      const found = await client.push(changed, ({ version }) => (version ?? 0) > 1);
      const old = before.split('\n');
      return {
        line: after
          .split('\n')
          .find((one) => !old.includes(one))!
          .trim(),
        found,
      };
    },
  };
}

function applied(text: string, edits: readonly TextEdit[]): string {
  const lines = text.split('\n');
  const offset = ({ line, character }: { line: number; character: number }) =>
    lines.slice(0, line).join('\n').length + (line > 0 ? 1 : 0) + character;
  return [...edits]
    .sort((a, b) => offset(b.range.start) - offset(a.range.start))
    .reduce(
      (done, { range, newText }) =>
        done.slice(0, offset(range.start)) + newText + done.slice(offset(range.end)),
      text,
    );
}

it('the figure that the data have is written at its operation', async () => {
  const { take } = await offered({ word: 'torque: bracket.bolt' });
  expect(await take('Write its figure here: to: 22 N·m')).toEqual({ line: 'to: 22 N·m', found: [] });
});

it('the figure that an operation uses is put into the words of its step, by reference', async () => {
  const { take } = await offered({ word: 'torque: bracket.bolt' });
  expect(await take('Put its figure into the words')).toEqual({
    line: 'text: Put it back. Torque {torque:bracket.bolt}.',
    found: [],
  });
});

it('words that have the figure are left alone, and so are words on several lines', async () => {
  const has = GUIDE.replace('Put it back.', 'Put it back, {torque:bracket.bolt}.');
  expect((await offered({ guide: has, word: 'torque: bracket.bolt' })).titles).not.toContain(
    'Put its figure into the words',
  );
  await client.end();
  const folded = GUIDE.replace('text: Put it back.', 'text: >-\n          Put it\n          back.');
  expect((await offered({ guide: folded, word: 'torque: bracket.bolt' })).titles).not.toContain(
    'Put its figure into the words',
  );
});

it('a figure that only the guide gives is written into the file that lacks it', async () => {
  const { take, titles } = await offered({
    guide: GUIDE.replace('- torque: bracket.bolt', '- torque: bracket.bolt\n            to: 24 N·m'),
    vehicle: VEHICLE.replace('M8x1.25, torque: 22 N·m', 'M8x1.25'),
    word: 'torque: bracket.bolt',
  });
  expect(titles).not.toContain('Write its figure here: to: 24 N·m');
  expect(await take('Write 24 N·m for bracket.bolt into moorhen.vehicle.yaml')).toEqual({
    line: 'bracket: { kind: bracket, mass: 2 kg, joins: [frame], joints: { bolt: { thread: M8x1.25, torque: 24 N·m } } }',
    found: [],
  });
});

it('the aid that the guide uses elsewhere is said where none is', async () => {
  const lift = (name: string, raise: string) => `      - id: ${name}
        text: Raise it.
        do:
          - ${raise}
          - lower: vehicle
        time: 2 min
`;
  const guide =
    GUIDE + lift('up', '{ raise: vehicle, with: two-post-lift }') + lift('again', 'raise: vehicle');
  const { take } = await offered({
    guide,
    word: 'raise: vehicle\n          - lower',
  });
  expect((await take('Say what with: two-post-lift, as elsewhere in this guide')).line).toBe(
    'with: two-post-lift',
  );
});

it('a standard time is written down as the time of the step', async () => {
  const { take } = await offered({
    guide: GUIDE.replace('        time: 4 min\n', ''),
    more: {
      '/shop/kitproof.yaml': 'kitproof: config/1\ntimes: [shop.times.yaml]\n',
      '/shop/shop.times.yaml':
        'kitproof: times/1\nname: Shop\ntimes:\n  - { verb: [bolt-up, torque], time: 3 min }\n',
    },
    word: 'id: back',
  });
  expect(await take('Write down its standard time, 6 min')).toEqual({ line: 'time: 6 min', found: [] });
});

it('a joint with a thread and no tool gets its spanner, by each standard that differs', async () => {
  const { take, titles } = await offered({ uri: VEHICLE_URI, word: 'top-nut' });
  expect(titles).toEqual([
    'Give rear-shock.top-nut its spanner, 18 mm (ISO 272, ISO 4014, ISO 4032; flange heads differ)',
    'Give rear-shock.top-nut its spanner, 19 mm (DIN 931, DIN 933 (old series); flange heads differ)',
  ]);
  expect(await take(titles[0]!)).toEqual({
    line: 'top-nut: { thread: M12x1.25, nut: plain, hex: 18 mm, torque: 60 N·m }',
    found: [],
  });
});

it('nothing is offered where the tool is known or the thread is not', async () => {
  const vehicle = VEHICLE.replace('thread: M12x1.75', 'thread: odd').replace(
    'M12x1.25,',
    'M12x1.25, key: 6 mm,',
  );
  expect((await offered({ vehicle, uri: VEHICLE_URI, word: 'top-nut' })).titles).toEqual([]);
  await client.end();
  expect((await offered({ vehicle, uri: VEHICLE_URI, word: 'lower-bolt' })).titles).toEqual([]);
});
