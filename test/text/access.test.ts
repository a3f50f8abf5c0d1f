import { describe, expect, it } from 'vitest';
import { entries, find, follow, items, keyName } from '../../server/src/text/access';
import { readText } from '../../server/src/text/read';
import type { Node, Reading } from '../../server/src/text/tree';

/** What a map says, as `key=value` with a star on merged pairs. */
function pairs(map: Node, reading: Reading): string[] {
  return entries(map, reading).map(
    (one) => `${one.merged ? '*' : ''}${keyName(one.key, reading)}=${one.value.value}`,
  );
}

function under(text: string, key: string): { map: Node; reading: Reading } {
  const reading = readText(text);
  return { map: find(reading.root!, key, reading)!.value, reading };
}

describe('the pairs of a map', () => {
  it('puts own keys before merged ones and earlier sources before later', () => {
    const { map, reading } = under(
      'a: &a { x: 1, y: 1 }\nb: &b { x: 2, y: 2, z: 2 }\nc: { <<: [*a, *b], y: 3 }\n',
      'c',
    );
    expect(pairs(map, reading)).toEqual(['y=3', '*x=1', '*z=2']);
    expect(reading.problems).toEqual([]);
  });

  it('follows merges of merges, the nearer first', () => {
    const { map, reading } = under(
      'a: &a { x: 1, y: 1 }\nb: &b { <<: *a, x: 2 }\nc: &c { y: 9, w: 9 }\nd: { <<: [*b, *c] }\n',
      'd',
    );
    expect(pairs(map, reading)).toEqual(['*x=2', '*y=1', '*w=9']);
  });

  it('gives the value, and where it is written in this map', () => {
    const text = 'a: &a { x: 1 }\nb: &v 5\nc: { <<: *a, y: *v }\n';
    const { map, reading } = under(text, 'c');
    const at = (node: Node) => text.slice(node.start, node.end);
    const x = find(map, 'x', reading)!;
    expect([at(x.value), at(x.written), x.merged]).toEqual(['1', '*a', true]);
    const y = find(map, 'y', reading)!;
    expect([at(y.value), y.value.value, at(y.written), y.merged]).toEqual(['5', 5, '*v', false]);
  });

  it('takes the first of two equal keys, and a quoted << for a key', () => {
    const { map, reading } = under('a: { x: 1, x: 2, "<<": 3 }\n', 'a');
    expect(pairs(map, reading)).toEqual(['x=1', '<<=3']);
  });

  it('resolves an alias to the anchor last written before it', () => {
    const reading = readText('a: &n 1\nb: *n\nc: &n 2\nd: *n\n');
    expect(pairs(reading.root!, reading)).toEqual(['a=1', 'b=1', 'c=2', 'd=2']);
  });

  it('finds anchors of other pieces, and leaves unknown and circular aliases as they are', () => {
    const reading = readText(
      's:\n  - steps:\n      - a: &n { x: 1 }\n      - b: *n\n  - c: *none\n  - d: &d [*d]\n',
    );
    const sections = items(find(reading.root!, 's', reading)!.value, reading);
    const steps = items(find(sections[0]!.value, 'steps', reading)!.value, reading);
    expect(pairs(find(steps[1]!.value, 'b', reading)!.value, reading)).toEqual(['x=1']);
    expect(find(sections[1]!.value, 'c', reading)!.value.kind).toBe('alias');
    const list = find(sections[2]!.value, 'd', reading)!.value;
    expect(items(list, reading)[0]!.value.kind).toBe('alias');
  });

  it('ends on maps that merge themselves', () => {
    const { map, reading } = under('a: &a { <<: *a, x: 1, y: { <<: *a } }\n', 'a');
    expect(entries(map, reading).map((one) => keyName(one.key, reading))).toEqual(['x', 'y']);
  });

  it('gives nothing for what is no map or list', () => {
    const reading = readText('a: 1\n');
    const value = find(reading.root!, 'a', reading)!.value;
    expect(entries(value, reading)).toEqual([]);
    expect(items(value, reading)).toEqual([]);
    expect(find(value, 'x', reading)).toBeUndefined();
    expect(follow(value, reading)).toBe(value);
  });
});

describe('text that would grow without measure', () => {
  it('has no alias to follow, and one problem', () => {
    let text = 'a0: &a0 [x, x, x, x, x, x, x, x, x]\n';
    for (let level = 1; level < 30; level++) {
      text += `a${level}: &a${level} [${Array(9)
        .fill(`*a${level - 1}`)
        .join(', ')}]\n`;
    }
    const reading = readText(text);
    expect(reading.problems.map((problem) => problem.rule)).toEqual(['alias-bomb']);
    let visited = 0;
    const visit = (node: Node): void => {
      visited++;
      for (const item of items(node, reading)) visit(item.value);
      for (const entry of entries(node, reading)) visit(entry.value);
    };
    visit(reading.root!);
    expect(visited).toBeLessThan(400);
  });

  it('counts what many small repetitions come to together', () => {
    const list = `a: &a [${'1, '.repeat(5000)}]\nb: [${'*a, '.repeat(1000)}]\n`;
    expect(readText(list).problems.map((problem) => problem.rule)).toEqual(['alias-bomb']);
    expect(readText(`a: &a { x: 1 }\nb: [${'*a, '.repeat(1000)}]\n`).problems).toEqual([]);
  });
});
