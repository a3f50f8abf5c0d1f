/** Times through the protocol against a server in a process of its own: from an edit to its findings. Never a timed test. */

import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { largeGuide } from '../bench/guides';
import { type Client, inProcess, PUSHED } from './client';

const EDITS = 50;

async function answered(client: Client, uri: string, version: number): Promise<void> {
  await client.until(() => client.pushes.some((one) => one.uri === uri && one.version === version), 'answer');
}

/** What a process took of the processor, ms: unlike the clock it does not count others' work. */
function processorTime(pid: number): number {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]!.split(' ');
  return (Number(fields[11]) + Number(fields[12])) * 10;
}

/** The median and the slowest of fifty edits of a word in the middle of a guide, ms. */
async function measure(program: string, label: string, folder: string, name: string): Promise<void> {
  const began = performance.now();
  const { client, child } = inProcess(program);
  await client.start(PUSHED, []);
  const started = performance.now() - began;
  const text = readFileSync(join(folder, name), 'utf8');
  const uri = pathToFileURL(join(folder, name)).href;
  const opening = performance.now();
  await client.open(uri, text);
  await answered(client, uri, 1);
  const first = performance.now() - opening;
  const lines = text.split('\n');
  let line = lines.length >> 1;
  while (!lines[line]!.includes('text: ')) line++;
  const character = lines[line]!.indexOf('text: ') + 8;
  const taken: number[] = [];
  const before = processorTime(child.pid!);
  for (let edit = 0; edit < EDITS; edit++) {
    const start = performance.now();
    const version = await client.change(uri, {
      range: { start: { line, character }, end: { line, character } },
      text: 'x',
    });
    await answered(client, uri, version);
    taken.push(performance.now() - start);
    client.pushes.length = 0;
  }
  const processor = (processorTime(child.pid!) - before) / EDITS;
  const memory =
    Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${child.pid}/status`, 'utf8'))?.[1] ?? 0) / 1024;
  await client.end();
  const sorted = [...taken].sort((a, b) => a - b);
  console.log(
    `${label}: median ${sorted[EDITS >> 1]!.toFixed(1)} ms, least ${sorted[0]!.toFixed(1)}, slowest ${sorted.at(-1)!.toFixed(1)}, processor ${processor.toFixed(1)}; first answer ${first.toFixed(0)}, initialize ${started.toFixed(0)}, memory ${memory.toFixed(0)} MB`,
  );
}

const program = process.argv[2] ?? join(process.cwd(), 'dist/cli.js');
const samples = join(process.cwd(), 'samples');
const largest = readdirSync(samples)
  .filter((name) => name.endsWith('.install.yaml'))
  .sort((a, b) => statSync(join(samples, b)).size - statSync(join(samples, a)).size)[0]!;
await measure(program, largest, samples, largest);
const folder = mkdtempSync(join(tmpdir(), 'kitproof-measure-'));
for (const traits of [0, 20]) {
  for (const [name, text] of Object.entries(largeGuide(1000, traits)))
    writeFileSync(join(folder, name), text);
  await measure(program, `1,000 steps, ${traits} traits`, folder, 'large.install.yaml');
}
rmSync(folder, { recursive: true });
