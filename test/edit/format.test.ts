import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyEdits } from '../../server/src/edit/apply';
import { formatting } from '../../server/src/edit/format';
import { readText } from '../../server/src/text/read';
import type { Node } from '../../server/src/text/tree';
import { GUIDE, VEHICLE } from '../text/fixtures';
import { written } from './written';

const formatted = (text: string): string =>
  applyEdits(text, formatting({ uri: 'g', text, reading: readText(text) }))!;

/** A tree without its places. */
function meaning(node: Node | null): unknown {
  if (node === null) return null;
  const { kind, value, style, tag, anchor, keys, items } = node;
  return [kind, value, style, tag, anchor, keys?.map(meaning) ?? null, items?.map(meaning) ?? null];
}

function expectKept(text: string, comments: readonly string[] = []): string {
  const made = formatted(text);
  expect(readText(made).problems, made).toEqual([]);
  expect(meaning(readText(made).root), made).toEqual(meaning(readText(text).root));
  const order = (within: string) => [...comments].sort((a, b) => within.indexOf(a) - within.indexOf(b));
  for (const comment of comments) expect(made.split(comment).length, made).toBe(2);
  expect(order(made), made).toEqual(order(text));
  expect(formatted(made)).toBe(made);
  return made;
}

/** Blanks put where they say nothing: as hasty people, and other programs, write. */
function untidy(text: string, choices: Iterator<number>): string {
  const chance = (percent: number) => (choices.next().value as number) < percent;
  let wide = 2;
  return text
    .split('\n')
    .map((line) => {
      // In quotes, and in the lines of a text, blanks say something.
      if (/["']|One line|and another/.test(line)) return line;
      const end = line.endsWith('\r') ? '\r' : '';
      let made = end === '' ? line : line.slice(0, -1);
      const hash = made.search(/(^|\s)#/);
      let head = hash < 0 ? made : made.slice(0, hash);
      const tail = hash < 0 ? '' : made.slice(hash);
      if (chance(40)) head = head.replaceAll(/: (?=\S)/g, ':   ');
      if (chance(40)) head = head.replaceAll('{ ', '{').replaceAll(' }', '}');
      if (chance(30)) head = head.replaceAll(', ', ' ,  ');
      if (chance(30)) head = head.replaceAll('[', '[ ').replaceAll(']', ' ]');
      made = head + tail + (chance(20) ? '  \t' : '');
      return made + end;
    })
    .join('\n')
    .replace(/$/, () => '\n'.repeat(chance(30) ? wide++ : 0));
}

describe('laying out', () => {
  it.each([
    [
      'indentation',
      'a:\n    b:\n        c: 1\n    d:\n    - e\n    -   f: 1\n        g: 2\n',
      'a:\n  b:\n    c: 1\n  d:\n    - e\n    - f: 1\n      g: 2\n',
    ],
    [
      'lists at the column of their key',
      'a:\n- b: 1\n  c:\n  - d\n# of e\ne: 1\n',
      'a:\n  - b: 1\n    c:\n      - d\n# of e\ne: 1\n',
    ],
    [
      'colons, dashes, commas',
      'a:   1\nb : 2\nc: { "d":1 ,e: 2 , }\nf: [ a,b ]\ng: {}\nh: [ ]\ni: { }\n',
      'a: 1\nb: 2\nc: { "d": 1, e: 2, }\nf: [a, b]\ng: {}\nh: []\ni: {}\n',
    ],
    ['brackets in brackets', 'a: [{b: [ {c: 1} ]},[ ]]\n', 'a: [{ b: [{ c: 1 }] }, []]\n'],
    ['ends of lines, and of the text', 'a: 1  \nb:\t\n  c: 2 \t\n\n\n\n', 'a: 1\nb:\n  c: 2\n'],
    ['a text without an end', 'a: 1', 'a: 1\n'],
    ['blank lines within', 'a: 1\n\n\nb: 2\n', 'a: 1\n\n\nb: 2\n'],
    ['line breaks of two characters', 'a:\r\n    b: 1 \r\n\r\n', 'a:\r\n  b: 1\r\n'],
    [
      'texts in lines',
      'a:\n    b: |\n        x\n\n          y  \n    c: >-\n     z\n',
      'a:\n  b: |\n    x\n\n      y  \n  c: >-\n    z\n',
    ],
    [
      'texts in lines with a figure',
      'a:\n    b: |2\n         x\n       y\n',
      'a:\n  b: |2\n       x\n     y\n',
    ],
    ['texts that keep their empty lines', 'a: |+\n    x\n\n\n', 'a: |+\n  x\n\n\n'],
    [
      'texts over several lines',
      "a:\n    b: one\n       two  \n\n       three\n    c: 'x\n\n      y'\n",
      "a:\n  b: one\n    two\n\n    three\n  c: 'x\n\n    y'\n",
    ],
    [
      'brackets over several lines',
      'a:\n    b: [\n        c,\n        {d: 1,\n         e: 2}   # f\n      ]\n',
      'a:\n  b: [\n      c,\n      { d: 1,\n       e: 2 }   # f\n    ]\n',
    ],
    [
      'anchors, tags and aliases',
      'a:   &x   !!str  b\nc: [*x ,*x]\nd:   &y\n    e: 1\n*x : 2\n',
      'a: &x !!str  b\nc: [*x , *x]\nd: &y\n  e: 1\n*x : 2\n',
    ],
    ['the mark of a document', '--- # here\na:   1\n', '--- # here\na: 1\n'],
  ])('%s', (_what, text, made) => {
    expect(formatted(text)).toBe(made);
    expectKept(text);
  });

  it('takes comments along with what they stand beside', () => {
    const text = `# top
a:
    # of b
    b: 1     # trailing
    bb: 22   # aligned
    # at the end of a
# of c
c:
    -   d: 1
        # of e
        e: 2
        # at the end of it
    # of the next
    -   f: |
            x
      # not x
    -   g: 1
  # somewhere
h: 1
      # last
`;
    expect(expectKept(text)).toBe(`# top
a:
  # of b
  b: 1     # trailing
  bb: 22   # aligned
  # at the end of a
# of c
c:
  - d: 1
    # of e
    e: 2
    # at the end of it
  # of the next
  - f: |
      x
  # not x
  - g: 1
# somewhere
h: 1
# last
`);
  });

  it.each([
    ['a text with a mistake', 'a: [1\nb:   2\n'],
    ['a text of another sort', 'just   words\n'],
    ['an empty text', ''],
    ['several documents', 'a:   1\n---\nb: 2\n'],
    ['a key marked as one', '? a\n:   b\n'],
  ])('leaves %s alone', (_what, text) => {
    expect(formatted(text)).toBe(text);
  });

  it('leaves a guide alone that is laid out so already', () => {
    for (const text of [GUIDE, VEHICLE]) expect(expectKept(text)).toBe(text);
  });

  it('keeps what any guide says, its comments and its quotes; twice is once', () => {
    fc.assert(
      fc.property(written, fc.infiniteStream(fc.nat(99)), ({ text, comments }, choices) => {
        expectKept(text, comments);
        const made = expectKept(untidy(text, choices), comments);
        // Nothing of it was left alone for want of knowing how.
        expect(made).not.toMatch(/[ \t]\r?$/m);
        expect(made.slice(made.trimEnd().length)).toMatch(/^\r?\n$/);
      }),
      { numRuns: 300 },
    );
  });
});

const folders = ['samples', 'test/procedures', 'server/src/rules/packs'];
const documents = folders.flatMap((folder) =>
  (readdirSync(folder, { recursive: true }) as string[])
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => join(folder, name)),
);

it('keeps what the samples and the packs say, which need no laying out', () => {
  expect(documents.length).toBeGreaterThan(100);
  for (const name of documents) {
    const text = readFileSync(name, 'utf8');
    if (readText(text).problems.length === 0) expect(expectKept(text), name).toBe(text);
  }
});
