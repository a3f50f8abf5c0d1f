import { expect, it } from 'vitest';
import { reported, saying } from './support';

/** Reads XML by its grammar as far as the report uses it; throws where it is not well formed. */
function readXml(text: string): { name: string; attributes: Record<string, string>; text: string }[] {
  const all: { name: string; attributes: Record<string, string>; text: string }[] = [];
  const open: { name: string; attributes: Record<string, string>; text: string }[] = [];
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
    const element = { name: name!, attributes, text: unescaped(words!) };
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
