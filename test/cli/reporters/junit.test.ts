import { expect, it } from 'vitest';
import { reported, saying } from './support';

/**
 * What the schema of build servers asks for (that of Jenkins' plug-in, against which reports of the samples were held by hand): which
 * elements stand in which, which attributes each must have, and which it may have beside them.
 */
const GRAMMAR: Readonly<Record<string, { within: string[]; must: string[]; may: string[] }>> = {
  testsuites: { within: [''], must: [], may: ['name', 'tests', 'failures', 'errors'] },
  testsuite: { within: ['testsuites'], must: ['name', 'tests', 'failures', 'errors'], may: ['skipped'] },
  testcase: { within: ['testsuite'], must: ['name'], may: ['classname'] },
  failure: { within: ['testcase'], must: [], may: ['type', 'message'] },
  'system-out': { within: ['testcase'], must: [], may: [] },
};

/** Holds a report to the grammar, and its counts to what stands in it. */
function hold(out: string): void {
  const all = readXml(out);
  for (const { name, within, attributes } of all) {
    const { within: places, must, may } = GRAMMAR[name]!;
    expect(places).toContain(within);
    const there = Object.keys(attributes);
    expect(there).toEqual(expect.arrayContaining(must));
    expect([...must, ...may]).toEqual(expect.arrayContaining(there));
  }
  const count = (wanted: string, from = 0, to = all.length) =>
    String(all.slice(from, to).filter(({ name }) => name === wanted).length);
  const [top, ...more] = all.filter(({ name }) => name === 'testsuites');
  expect(more).toEqual([]);
  expect(top!.attributes).toMatchObject({
    tests: count('testcase'),
    failures: count('failure'),
    errors: '0',
  });
  const starts = all.flatMap(({ name }, index) => (name === 'testsuite' ? [index] : []));
  for (const [index, start] of starts.entries()) {
    const end = starts[index + 1] ?? all.length;
    const said = {
      tests: count('testcase', start, end),
      failures: count('failure', start, end),
      errors: '0',
    };
    expect(all[start]!.attributes).toMatchObject(said);
  }
}

/** Reads XML by its grammar as far as the report uses it; throws where it is not well formed. */
interface Element {
  readonly name: string;
  readonly within: string;
  readonly attributes: Record<string, string>;
  readonly text: string;
}

function readXml(text: string): Element[] {
  const all: Element[] = [];
  const open: Element[] = [];
  const unescaped = (written: string) => {
    if (/[<]|&(?!(?:amp|lt|gt|quot|#10);)/.test(written)) throw new Error(`not escaped: ${written}`);
    return written
      .replaceAll('&#10;', '\n')
      .replaceAll('&quot;', '"')
      .replaceAll('&gt;', '>')
      .replaceAll('&lt;', '<')
      .replaceAll('&amp;', '&');
  };
  const body = text.replace(/^<\?xml version="1\.0" encoding="UTF-8"\?>\n/, '');
  for (const [, close, name, rest, alone, words] of body.matchAll(
    /<(\/?)([a-z-]+)((?: [a-z]+="[^"]*")*)(\/?)>([^<]*)/g,
  )) {
    if (close === '/') {
      if (open.pop()?.name !== name) throw new Error(`</${name}> closes nothing`);
      continue;
    }
    const attributes = Object.fromEntries(
      [...rest!.matchAll(/ ([a-z]+)="([^"]*)"/g)].map(([, key, value]) => [key!, unescaped(value!)]),
    );
    const element = { name: name!, within: open.at(-1)?.name ?? '', attributes, text: unescaped(words!) };
    all.push(element);
    if (alone !== '/') open.push(element);
  }
  if (open.length > 0) throw new Error(`${open.at(-1)!.name} is never closed`);
  return all;
}

it('has a suite for each document and a case for each finding', async () => {
  const { out } = await reported('junit');
  const all = readXml(out);
  const suites = all.filter(({ name }) => name === 'testsuite');
  expect(suites.map(({ attributes }) => [attributes.name, attributes.tests, attributes.failures])).toEqual([
    ['guides/b.install.yaml', '2', '2'],
    ['guides/moorhen.vehicle.yaml', '1', '0'],
  ]);
  expect(all.find(({ name }) => name === 'testsuites')!.attributes).toMatchObject({
    tests: '3',
    failures: '2',
  });
  const failure = all.find(({ name, attributes }) => name === 'failure' && attributes.type === 'left-loose')!;
  expect(failure.attributes.message).toBe(
    'bracket.bolt never gets its final torque. Only with lockers: fitted.',
  );
  expect(failure.text).toContain('guides/b.install.yaml:11:13\n');
});

it('counts as a failure what makes the exit status, and tells of the rest', async () => {
  const { out, status } = await reported('junit', ['--fail-on', 'never']);
  expect(status).toBe(0);
  const all = readXml(out);
  expect(all.filter(({ name }) => name === 'failure')).toEqual([]);
  expect(all.filter(({ name }) => name === 'system-out').length).toBe(2);
});

it('stays well formed whatever stands in a document', async () => {
  const { out } = await reported('junit', [], saying('a<b>&\\"c\\"\\u0001]]>\\uFFFE'));
  expect(readXml(out).some(({ attributes }) => attributes.message?.includes('a<b>&'))).toBe(true);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what XML has no place for.
  expect(out).not.toMatch(/[\u0000-\u0008\uFFFE]/);
});

it('is as build servers want it, whatever was checked', async () => {
  hold((await reported('junit')).out);
  hold((await reported('junit', ['--fail-on', 'never'])).out);
  hold((await reported('junit', ['--shard', '2/3'])).out);
  const { readdirSync, readFileSync } = await import('node:fs');
  const folder = `${import.meta.dirname}/../../../samples/faulty`;
  const files: Record<string, string> = {};
  for (const name of readdirSync(folder, { encoding: 'utf8' }))
    if (/^[a-d].*\.yaml$/.test(name)) files[`guides/${name}`] = readFileSync(`${folder}/${name}`, 'utf8');
  const { out } = await reported('junit', ['--fail-on', 'warning'], files);
  hold(out);
  expect(readXml(out).length).toBeGreaterThan(40);
});
