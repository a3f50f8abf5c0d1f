import { describe, expect, it } from 'vitest';
import { matchesPattern } from '../../server/src/workspace/patterns';

describe('patterns of ignored paths', () => {
  it.each([
    ['drafts/**', 'drafts/a/b.install.yaml', true],
    ['drafts/**', 'kits/drafts/b.install.yaml', false],
    ['drafts', 'kits/drafts/b.install.yaml', true],
    ['drafts/', 'drafts/b.install.yaml', true],
    ['*.kit.yaml', 'a/b/c.kit.yaml', true],
    ['*.kit.yaml', 'a/b/c.install.yaml', false],
    ['a/*.yaml', 'a/b.yaml', true],
    ['a/*.yaml', 'a/b/c.yaml', false],
    ['a/**/c.yaml', 'a/c.yaml', true],
    ['a/**/c.yaml', 'a/x/y/c.yaml', true],
    ['**/old/*.yaml', 'x/old/c.yaml', true],
    ['v?.yaml', 'v1.yaml', true],
    ['v?.yaml', 'v12.yaml', false],
    ['{old,new}/**', 'new/a.yaml', true],
    ['{old,new}/**', 'now/a.yaml', false],
    ['./a.yaml', 'a.yaml', true],
    ['', 'a.yaml', false],
  ])('%s on %s', (pattern, path, matches) => {
    expect(matchesPattern(pattern, path)).toBe(matches);
  });

  it('is quick on hostile patterns', () => {
    const began = performance.now();
    expect(matchesPattern(`${'**/'.repeat(60)}z`, `${'a/'.repeat(300)}b`)).toBe(false);
    expect(matchesPattern('*a'.repeat(300), 'a'.repeat(3000))).toBe(true);
    expect(matchesPattern('{a,b}'.repeat(40), 'x')).toBe(false);
    expect(performance.now() - began).toBeLessThan(1000);
  });
});
