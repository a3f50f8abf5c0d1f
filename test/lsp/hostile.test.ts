import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Client, inMemory, PULLING, PUSHED } from './client';
import { at, FOLDER, files, GUIDE, GUIDE_URI, replacing, sample } from './world';

const insert = (line: number, character: number, text: string) => ({
  range: { start: { line, character }, end: { line, character } },
  text,
});

async function stillAlive(client: Client): Promise<void> {
  const version = await client.change(GUIDE_URI, { text: GUIDE });
  expect(await client.push(GUIDE_URI, (push) => push.version === version)).toEqual([]);
}

it('survives texts that are made to hurt, and answers each', async () => {
  const client = await inMemory(files()).start(PUSHED);
  await client.open(GUIDE_URI, GUIDE);
  const hostile = [
    '',
    '\uFEFF',
    'kitproof: install/1',
    'kitproof: install/9\n',
    `kitproof: install/1\ntitle: ${'['.repeat(3000)}`,
    `kitproof: install/1\n${'}'.repeat(3000)}`,
    'kitproof: install/1\na: &a [*a, *a]\nsections: *a\n',
    `kitproof: install/1\ntitle: ${'x'.repeat(200_000)}\n`,
    `kitproof: install/1\nsections:\n${'  - steps: [{ do: [{ use: { guide: bracket.install.yaml } }] }]\n'.repeat(50)}`,
    'kitproof: install/1\nvehicle: bracket.install.yaml\nfollows: bracket.install.yaml\n',
    'kitproof: install/1\n__proto__: { constructor: 1 }\nsections: []\n',
    '\0\0\0\r\r\n\u2028kitproof: install/1\r',
  ];
  for (const text of hostile) {
    const version = await client.change(GUIDE_URI, { text });
    await client.push(GUIDE_URI, (push) => push.version === version);
  }
  await stillAlive(client);
  await client.end();
}, 60_000);

it('takes ranges outside the text, backwards, and in the middle of line breaks', async () => {
  const client = await inMemory(files()).start(PUSHED);
  await client.open(GUIDE_URI, GUIDE.replaceAll('\n', '\r\n'));
  for (const change of [
    insert(10_000, 10_000, 'x'),
    insert(0, 99_999, '\n'),
    { range: { start: { line: 9, character: 4 }, end: { line: 2, character: 0 } }, text: 'y' },
    { range: { start: { line: 0, character: 0 }, end: { line: 1e9, character: 1e9 } }, text: GUIDE },
  ]) {
    const version = await client.change(GUIDE_URI, change);
    await client.push(GUIDE_URI, (push) => push.version === version);
  }
  await stillAlive(client);
  await client.end();
});

it('takes several changes in one go, each of the text that the one before left', async () => {
  const client = await inMemory(files()).start(PUSHED);
  await client.open(GUIDE_URI, GUIDE);
  const broken = GUIDE.replace('bolt-up: bracket', 'bolt-up: brakett');
  const version = await client.change(
    GUIDE_URI,
    replacing(GUIDE, 'bolt-up: bracket', 'bolt-up: brakett'),
    replacing(broken, 'brakett', 'bracket'),
  );
  expect(await client.push(GUIDE_URI, (push) => push.version === version)).toEqual([]);
  await client.end();
});

it('answers the last of edits that come faster than checks, and every request between them', async () => {
  const text = sample('upland-50.install.yaml');
  const uri = 'file:///shop/upland-50.install.yaml';
  const client = await inMemory(
    files({
      '/shop/upland-50.install.yaml': text,
      '/shop/moorhen.vehicle.yaml': sample('moorhen.vehicle.yaml'),
      '/shop/upland-50.kit.yaml': sample('upland-50.kit.yaml'),
      '/shop/kitproof.yaml': sample('kitproof.yaml'),
      '/shop/workshop.times.yaml': sample('workshop.times.yaml'),
    }),
  ).start(PUSHED);
  await client.open(uri, text);
  const line = at(text, 'text: ').line;
  const asked: Promise<unknown>[] = [];
  let version = 1;
  for (let edit = 0; edit < 60; edit++) {
    version = await client.change(uri, insert(line, 14, 'x'));
    if (edit % 10 === 0)
      asked.push(
        client.request('textDocument/hover', { textDocument: { uri }, position: at(text, 'raise', 1) }),
      );
  }
  const found = await client.push(uri, (push) => push.version === version);
  expect((await Promise.all(asked)).every((one) => one !== null)).toBe(true);
  // Someone who types on still sees findings, though not for every letter.
  expect(client.pushes.length).toBeLessThanOrEqual(62);
  const again = await client.change(uri, { text });
  expect((await client.push(uri, (push) => push.version === again)).map(({ code }) => code)).toEqual(
    found.map(({ code }) => code),
  );
  await client.end();
}, 60_000);

it('random edits and requests never kill it', async () => {
  const seed = Number(process.env.KITPROOF_SEED ?? 20_260_314);
  const client = await inMemory(files()).start({ ...PUSHED, ...{ window: {} } }, [FOLDER]);
  await client.open(GUIDE_URI, GUIDE);
  const position = fc.record({ line: fc.nat(22), character: fc.nat(40) });
  const step = fc.oneof(
    fc.record({
      start: position,
      end: position,
      text: fc.oneof(
        fc.constantFrom(
          '{',
          '}',
          '[',
          ']',
          ':',
          '- ',
          '\n',
          '\r',
          '"',
          "'",
          '&x',
          '*x',
          '<<: *x',
          '|',
          '>',
          '%',
          '---\n',
          '\t',
          'do:',
          'use: ',
          'torque: ',
          '{part:',
          'when: { not: ',
        ),
        fc.string({ maxLength: 6 }),
      ),
    }),
    fc.record({
      method: fc.constantFrom(
        'hover',
        'completion',
        'definition',
        'documentSymbol',
        'documentLink',
        'foldingRange',
        'codeLens',
        'references',
        'inlayHint',
        'codeAction',
      ),
      position,
    }),
  );
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 5, maxLength: 25 }), async (steps) => {
      const textDocument = { uri: GUIDE_URI };
      for (const one of steps) {
        if ('method' in one)
          await client.request(`textDocument/${one.method}`, {
            textDocument,
            position: one.position,
            range: { start: { line: 0, character: 0 }, end: one.position },
            context: { includeDeclaration: true, diagnostics: client.pushes.at(-1)?.diagnostics ?? [] },
          });
        else await client.change(GUIDE_URI, { range: { start: one.start, end: one.end }, text: one.text });
      }
      await stillAlive(client);
      const faults = client.pushes.flatMap(({ diagnostics }) =>
        diagnostics.filter(({ code }) => code === 'internal-fault'),
      );
      expect(faults).toEqual([]);
      const logged = client.told.filter(({ method }) => method === 'window/logMessage');
      expect(logged).toEqual([]);
    }),
    { numRuns: 40, seed },
  );
  await client.end();
}, 120_000);

it('pulls end when the session does', async () => {
  const client = await inMemory(files()).start(PULLING, [FOLDER]);
  await client.open(GUIDE_URI, GUIDE);
  await client.request('textDocument/diagnostic', { textDocument: { uri: GUIDE_URI } });
  await client.end();
});
