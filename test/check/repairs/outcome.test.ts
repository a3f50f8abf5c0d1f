import { describe, expect, it } from 'vitest';
import { outcomeOf } from '../../../server/src/check/repairs/outcome';
import { differences } from '../../../server/src/edit/difference';
import { type Finding, plainFinding } from '../../../server/src/findings/finding';

const BEFORE = 'one\ntwo\nthree\n';

/** A finding at a word of a text. */
function at(text: string, word: string, more: Partial<Finding> = {}): Finding {
  const start = text.indexOf(word);
  return plainFinding('rule', { uri: 'g', span: { start, end: start + word.length } }, 'm', {
    item: 'x',
    harm: 'injury',
    ...more,
  });
}

const told = (text: string, ...findings: Finding[]) => ({ findings, textOf: () => text });
const compare = (before: Finding[], after: string, now: Finding[], target = before[0]!) =>
  outcomeOf(
    told(BEFORE, ...before),
    told(after, ...now),
    target,
    new Map([['g', differences(BEFORE, after)]]),
  );

describe('a finding', () => {
  it('that is no longer there is gone', () => {
    expect(compare([at(BEFORE, 'two')], BEFORE, [])).toEqual({ gone: true, fresh: [] });
  });

  it('stays where the words around it move, or where it moves with them', () => {
    const shifted = `zero\n${BEFORE}`;
    expect(compare([at(BEFORE, 'two')], shifted, [at(shifted, 'two')]).gone).toBe(false);
    const moved = 'two\none\nthree\n';
    expect(compare([at(BEFORE, 'two')], moved, [at(moved, 'two')])).toEqual({ gone: false, fresh: [] });
  });

  it('of the same matter elsewhere is new', () => {
    const now = at(BEFORE, 'three');
    expect(compare([at(BEFORE, 'two')], BEFORE, [now])).toEqual({ gone: true, fresh: [now] });
  });

  it('may lose sides and variants, and gain none', () => {
    const both = at(BEFORE, 'two', { sides: ['left', 'right'] });
    expect(
      compare([at(BEFORE, 'one'), both], BEFORE, [at(BEFORE, 'two', { sides: ['left'] })]).fresh,
    ).toEqual([]);
    const left = at(BEFORE, 'two', { sides: ['left'] });
    expect(compare([at(BEFORE, 'one'), left], BEFORE, [both]).fresh).toEqual([both]);
    const some = at(BEFORE, 'two', { variants: [{ lockers: ['fitted'] }] });
    expect(compare([at(BEFORE, 'one'), at(BEFORE, 'two')], BEFORE, [some]).fresh).toEqual([]);
    expect(compare([at(BEFORE, 'one'), some], BEFORE, [at(BEFORE, 'two')]).fresh).toHaveLength(1);
  });

  it('that marks a draft is no news, nor a fault that a slip of the pen hid, unless in what was written', () => {
    expect(compare([at(BEFORE, 'two')], BEFORE, [at(BEFORE, 'one', { rule: 'draft-step' })]).fresh).toEqual(
      [],
    );
    const slip = at(BEFORE, 'two', { harm: null });
    expect(compare([slip], BEFORE, [at(BEFORE, 'one')]).fresh).toEqual([]);
    const after = 'one\ntow\nthree\n';
    const again = at(after, 'tow', { harm: null, rule: 'other' });
    expect(compare([slip], after, [again]).fresh).toEqual([again]);
  });
});
