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

/** What is edited in the middle of a guide, fifty times each: where it stands in its line, and the line. */
const EDITED = [
  ['a word of a text', /text: .{3}/],
  ['a figure of a time', /time: \D*(?=\d)/],
  ['a figure of an operation', / (?:to|by): (?=\d)|torque: [a-z-]+(?=\d)/],
] as const;

const middle = (taken: number[]): string => {
  taken.sort((a, b) => a - b);
  return `median ${taken[taken.length >> 1]!.toFixed(1)} ms, least ${taken[0]!.toFixed(1)}, slowest ${taken.at(-1)!.toFixed(1)}`;
};

/** Fifty edits all over the guide: a letter at the end of a line, and the next edit takes it back. */
async function everywhere(client: Client, uri: string, lines: readonly string[]): Promise<string> {
  const taken: number[] = [];
  for (let edit = 0; edit < EDITS; edit++) {
    const line = Math.floor((((edit >> 1) + 0.5) * 2 * lines.length) / EDITS);
    const character = lines[line]!.length;
    const back = edit % 2 === 1;
    const start = performance.now();
    const version = await client.change(uri, {
      range: { start: { line, character }, end: { line, character: character + (back ? 1 : 0) } },
      text: back ? '' : 'x',
    });
    await answered(client, uri, version);
    taken.push(performance.now() - start);
    client.pushes.length = 0;
  }
  return middle(taken);
}

/** Twenty questions at names of operations all over the guide. */
async function asked(client: Client, uri: string, lines: readonly string[], method: string): Promise<string> {
  const taken: number[] = [];
  const places = lines.flatMap((line, at) =>
    /^ *- [a-z-]+: [a-z]|\[\{ [a-z-]+: [a-z]/.test(line) ? [at] : [],
  );
  for (let question = 0; question < 20; question++) {
    const line = places[Math.floor(((question + 0.5) * places.length) / 20)]!;
    const character = lines[line]!.lastIndexOf(': ') + 3;
    const whole = { start: { line: 0, character: 0 }, end: { line: lines.length, character: 0 } };
    const start = performance.now();
    await client.request(`textDocument/${method}`, {
      textDocument: { uri },
      position: { line, character },
      range: whole,
    });
    taken.push(performance.now() - start);
  }
  return middle(taken);
}

/** Fifty edits of each sort: all over the guide, of a word, which leaves the meaning alone, of a time, and of an operation. */
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
  const series = [`  a letter at the end of any line: ${await everywhere(client, uri, lines)}`];
  for (const [kind, where] of EDITED) {
    const line = lines.findIndex((one, at) => at > lines.length >> 1 && where.test(one));
    const [found] = where.exec(lines[line]!)!;
    // In a figure the first digit is doubled and taken back, so that every edit changes what the guide says.
    const character = lines[line]!.indexOf(found) + found.length;
    const figure = kind !== 'a word of a text';
    const taken: number[] = [];
    const before = processorTime(child.pid!);
    for (let edit = 0; edit < EDITS; edit++) {
      const back = figure && edit % 2 === 1;
      const start = performance.now();
      const version = await client.change(uri, {
        range: { start: { line, character }, end: { line, character: character + (back ? 1 : 0) } },
        text: back ? '' : figure ? '1' : 'x',
      });
      await answered(client, uri, version);
      taken.push(performance.now() - start);
      client.pushes.length = 0;
    }
    const processor = (processorTime(child.pid!) - before) / EDITS;
    series.push(`  ${kind}: ${middle(taken)}; processor ${processor.toFixed(1)} an edit`);
  }
  for (const method of ['hover', 'completion', 'documentSymbol', 'inlayHint'] as const)
    series.push(`  ${method}: ${await asked(client, uri, lines, method)}`);
  const memory =
    Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${child.pid}/status`, 'utf8'))?.[1] ?? 0) / 1024;
  await client.end();
  console.log(
    `${label}: initialize ${started.toFixed(0)} ms, first answer ${first.toFixed(0)} ms, memory ${memory.toFixed(0)} MB`,
  );
  console.log(series.join('\n'));
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
