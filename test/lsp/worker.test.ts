import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
// @ts-expect-error: a script without types.
import { bundleExtension } from '../../esbuild.mjs';
import { localDay } from '../../server/src/workspace/today';
import { type Client, inMemory, PULLING } from './client';
import { answerFrom, inWorker } from './worker';
import { at, GUIDE, VEHICLE } from './world';

/** The server as it is shipped for a browser: bundled, in a worker that has nothing of node, with files of the client's. */
let folder: string;
let program: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'kitproof-worker-'));
  await bundleExtension(folder);
  program = join(folder, 'web/server.js');
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const ROOT = 'memfs:/the shop';
const FOLDER = 'memfs:/the%20shop';
const GUIDE_URI = `${FOLDER}/guides/bracket.install.yaml`;

/** A folder with a guide whose vehicle stands beside its own folder, and what is above the folder. */
const shop = (guide: string, more: Readonly<Record<string, string>> = {}): Map<string, string> =>
  new Map(
    Object.entries({
      [`${ROOT}/guides/bracket.install.yaml`]: guide.replace('moorhen.', '../the moorhen.'),
      [`${ROOT}/the moorhen.vehicle.yaml`]: VEHICLE,
      ...more,
    }),
  );

interface Report {
  readonly uri: string;
  readonly items: readonly { readonly code: string; readonly message: string }[];
}

async function everything(client: Client): Promise<readonly Report[]> {
  const { items } = await client.request<{ items: readonly Report[] }>('workspace/diagnostic', {
    previousResultIds: [],
  });
  return [...items].sort((a, b) => (a.uri < b.uri ? -1 : 1));
}

const codes = (reports: readonly Report[], uri: string) =>
  reports.filter((one) => one.uri === uri).flatMap(({ items }) => items.map(({ code }) => code));

describe('a server in a worker, with files that only the client can reach', () => {
  it('finds in the samples what a server on a machine finds', async () => {
    const samples = new Map<string, string>();
    for (const entry of readdirSync('samples', { recursive: true, withFileTypes: true }))
      if (entry.isFile()) {
        const path = join(entry.parentPath, entry.name);
        samples.set(`/${path.replaceAll('\\', '/')}`, readFileSync(path, 'utf8'));
      }
    const there = new Map([...samples].map(([name, text]) => [`memfs:${name}`, text]));
    const worker = await inWorker(program, there).start(PULLING, ['memfs:/samples']);
    const today = localDay(new Date());
    const machine = await inMemory(samples, null, today).start(PULLING, ['file:///samples']);
    const [found, expected] = [await everything(worker), await everything(machine)];
    expect(expected.length).toBeGreaterThan(40);
    expect(JSON.parse(JSON.stringify(found).replaceAll('memfs:/', 'file:///'))).toEqual(expected);
    await worker.end();
    await machine.end();
  }, 120_000);

  it('follows paths to other folders, and leads to them', async () => {
    const client = await inWorker(program, shop(GUIDE)).start(PULLING, [FOLDER]);
    expect(await everything(client)).toEqual([]);
    const textDocument = { uri: GUIDE_URI };
    const links = await client.request<{ target: string }[]>('textDocument/documentLink', { textDocument });
    expect(links.map(({ target }) => target)).toEqual([`${FOLDER}/the%20moorhen.vehicle.yaml`]);
    await client.end();
  });

  it('tells, completes and renames across files', async () => {
    const contents = shop(GUIDE);
    const text = contents.get(`${ROOT}/guides/bracket.install.yaml`)!;
    const client = await inWorker(program, contents).start(PULLING, [FOLDER]);
    await client.open(GUIDE_URI, text);
    const place = { textDocument: { uri: GUIDE_URI }, position: at(text, 'unbolt: bracket', 10) };
    const hover = await client.request<{ contents: { value: string } }>('textDocument/hover', place);
    expect(JSON.stringify(hover)).toContain('2 kg');
    const { items } = await client.request<{ items: { label: string }[] }>('textDocument/completion', place);
    expect(items.map(({ label }) => label)).toContain('rear-shock');
    const { changes } = await client.request<{ changes: Record<string, object[]> }>('textDocument/rename', {
      ...place,
      newName: 'plate',
    });
    expect(Object.keys(changes).sort()).toEqual([GUIDE_URI, `${FOLDER}/the%20moorhen.vehicle.yaml`]);
    expect(changes[GUIDE_URI]!.length).toBe(4);
    await client.end();
  });

  it('takes what is typed before what is kept, and follows files that change, come and go', async () => {
    const contents = shop(GUIDE);
    const client = await inWorker(program, contents).start(PULLING, [FOLDER]);
    await client.open(GUIDE_URI, GUIDE.replace('moorhen.', '../the moorhen.').replace('bolt-up', 'bolt-upp'));
    expect(codes(await everything(client), GUIDE_URI)).not.toEqual([]);
    await client.close(GUIDE_URI);
    expect(codes(await everything(client), GUIDE_URI)).toEqual([]);
    const vehicle = `${FOLDER}/the%20moorhen.vehicle.yaml`;
    const tell = (uri: string, type: number) =>
      client.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri, type }] });
    // What is told is read in its own time: a client pulls now and then.
    const found = async () => JSON.stringify((await everything(client)).map(({ items }) => items));
    contents.delete(`${ROOT}/the moorhen.vehicle.yaml`);
    await tell(vehicle, 3);
    await expect.poll(found).toContain('missing-file');
    // A file beside that is likely meant is seen as soon as it is there.
    contents.set(`${ROOT}/the mooorhen.vehicle.yaml`, VEHICLE);
    await tell(`${FOLDER}/the%20mooorhen.vehicle.yaml`, 1);
    await expect.poll(found).toContain('the mooorhen.vehicle.yaml');
    contents.set(`${ROOT}/the moorhen.vehicle.yaml`, VEHICLE);
    await tell(vehicle, 1);
    await expect.poll(found).not.toContain('missing-file');
    await client.end();
  });

  it('looks for settings up to the folder that is open, and no farther', async () => {
    const strict = 'kitproof: config/1\nstrict-loosening: true\n';
    const guide = GUIDE.replace('- loosen: bracket.bolt', '- remove: bracket.bolt').replace(
      'unbolt',
      'remove',
    );
    const client = inWorker(program, shop(guide, { 'memfs:/kitproof.yaml': strict }));
    await client.start(PULLING, [FOLDER]);
    expect(await everything(client)).toEqual([]);
    const asked = client.told.map(({ parameters }) => (parameters as { uri?: string } | undefined)?.uri);
    expect(asked.filter((uri) => uri !== undefined && !uri.startsWith(FOLDER))).toEqual([]);
    await client.end();
    const inside = inWorker(program, shop(guide, { [`${ROOT}/kitproof.yaml`]: strict }));
    await inside.start(PULLING, [FOLDER]);
    expect(codes(await everything(inside), GUIDE_URI)).toContain('loosen-before-remove');
    await inside.end();
  });

  it('links findings to the catalogue that the client brings along', async () => {
    const catalogue = 'memfs:/program of ours/schemas/rules.md';
    const contents = shop(GUIDE.replace('          - torque: bracket.bolt\n', ''));
    contents.set(catalogue, readFileSync('schemas/rules.md', 'utf8'));
    const linking = {
      textDocument: { ...PULLING.textDocument, publishDiagnostics: { codeDescriptionSupport: true } },
    };
    const client = await inWorker(program, contents).start({ ...PULLING, ...linking }, [FOLDER], {
      initializationOptions: { catalogue: catalogue.replaceAll(' ', '%20') },
    });
    expect(JSON.stringify(await everything(client))).toMatch(
      /"href":"memfs:\/program%20of%20ours\/schemas\/rules\.md#L\d+"/,
    );
    await client.end();
  });

  it('has no files where the client does not say that it answers', async () => {
    const client = await inWorker(program, shop(GUIDE), false).start(PULLING, [FOLDER]);
    await client.open(GUIDE_URI, GUIDE);
    expect(codes(await everything(client), GUIDE_URI)).toContain('missing-file');
    expect(client.told.filter(({ method }) => method.startsWith('kitproof/'))).toEqual([]);
    await client.end();
  });
});

it('a server on a machine asks the client for what its disk does not hold', async () => {
  const client = inMemory(new Map());
  const there = shop(GUIDE);
  answerFrom(client, there);
  await client.start({ ...PULLING, experimental: { kitproof: { files: true } } }, [FOLDER]);
  await client.open(GUIDE_URI, there.get(`${ROOT}/guides/bracket.install.yaml`)!);
  expect(await everything(client)).toEqual([]);
  await client.end();
});
