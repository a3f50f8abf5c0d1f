import { describe, expect, it } from 'vitest';
import { find, items } from '../../server/src/text/access';
import { readText } from '../../server/src/text/read';
import { GUIDE, VEHICLE } from './fixtures';
import { expectProblems } from './marked';

describe('one mistake is one problem at a tight span', () => {
  const cases: Record<string, string> = {
    'a good guide': GUIDE,
    'a good vehicle': VEHICLE,
    'an open double quote': 's:\n  - text: "Lift it\n#         ^^^^^^^^ yaml-syntax\n    do: x\n  - b: 1\n',
    'an open single quote': "s:\n  - text: 'Lift it\n#         ^^^^^^^^ yaml-syntax\n    do: x\n  - b: 1\n",
    'a quote closed by the next one':
      's:\n  - text: "Lift it\n#         ^^^^^^^^ yaml-syntax\n    do: "x"\n    c: 1\n',
    'an open bracket': 'a: [b, c\n#  ^ yaml-syntax\nd: e\n',
    'an open brace in a flow map': 'a: [b, {c: d]\n#      ^ yaml-syntax\nd: e\n',
    'a bracket that closes nothing': 'a: b\nc: ]\n#  ^ yaml-syntax\n',
    'a second colon': 'text: Torque: 90\n#     ^^^^^^^^^^ yaml-syntax\n',
    'a missing colon': 's:\n  - a: 1\n    text\n#   ^^^^ yaml-syntax\n    b: 2\n',
    'a half-typed root key': 'a: 1\ntit\n^^^ yaml-syntax\nb: 2\n',
    'a half-typed key before steps': 's:\n  - titl\n#   ^^^^ yaml-syntax\n    steps:\n      - a: 1\n',
    'a missing dash': 's:\n  - steps:\n      - a: 1\n      b: 2\n#     ^^^^ yaml-syntax\n      - c: 3\n',
    'a dash without its space':
      's:\n  - steps:\n      - a: 1\n      -b: 2\n#     ^^^^^ yaml-syntax\n      - c: 3\n',
    'a dash out of line': 's:\n  - steps:\n      - a: 1\n     - b: 2\n#    ^ yaml-syntax\n      - c: 3\n',
    'a line out of line': 's:\n  - a: 1\n     b: 2\n#    ^^^^ yaml-syntax\n',
    'a text that begins with an at sign': 'a: @b\n#  ^ yaml-syntax\n',
    'a text that begins with a star': 'a: *b c\n#  ^^^^ yaml-syntax\n',
    'a backslash in double quotes': 'a: "b\\d"\n#    ^ yaml-syntax\n',
    'a tag': 'a: !b c\n#     ^ unknown-tag\n',
    'a key twice': 'a:\n  b: 1\n  c: 2\n  b: 3\n# ^ duplicate-key\n',
    'a root key twice, once behind the list': 'a: 1\ns:\n  - b: 1\na: 2\n^ duplicate-key\n',
    'an item key twice, once behind the steps':
      's:\n  - t: 1\n    steps:\n      - a: 1\n    t: 2\n#   ^ duplicate-key\n',
    'an unknown alias': 'a: *b\n#  ^^ unknown-alias\n',
    'an alias before its anchor': 'a: *b\n#  ^^ unknown-alias\nc: &b 1\n',
    'an alias inside its own anchor': 'a: &b [1, *b]\n#         ^^ alias-cycle\n',
    'a merge of itself': 'a: &b { <<: *b, c: 1 }\n#           ^^ alias-cycle\n',
    'a merge of no map': 'a: { <<: 2 }\n#        ^ bad-merge\n',
    'a merge of a list with no map in it': 'a: { <<: [{ b: 1 }, 2] }\n#                   ^ bad-merge\n',
    'a merge of an alias of no map': 'a: &b 1\nc: { <<: *b }\n#        ^^ bad-merge\n',
    'a second document': 'a: 1\n---\n^^^ several-documents\na: 2\n',
    'an end mark in mid-file': 'a: 1\n...\n^^^ several-documents\nb: 2\n',
    'a number for a name': 'a: { 1: x }\n#    ^ non-string-key\n',
    'a list for a name': 'a: { [b]: x }\n#    ^^^ non-string-key\n',
    'no name': 'a:\n  : x\n# ^ non-string-key\n',
    'a control character': 'a: b\u0007c\n#   ^ control-character\n',
  };
  for (const [name, fixture] of Object.entries(cases)) {
    it(name, () => expectProblems(fixture));
  }

  it('tabs, said once for a piece', () => {
    const problems = readText('s:\n  - a:\n\t- b\n\t- c\n  - d: 1\n').problems;
    expect(problems.map(({ rule, start, end }) => [rule, start, end])).toEqual([['tab-indent', 10, 11]]);
    expect(problems[0]!.message).toContain('tab');
  });

  it('nothing to say of a leading or closing document mark, a byte order mark, comments or nothing', () => {
    for (const text of [
      '---\na: 1\n',
      'a: 1\n...\n',
      '\ufeffa: 1\n',
      '\ufeff---\na: 1\n',
      '# x\n',
      '',
      '\n\n',
      '%YAML 1.2\n---\na: 1\n',
    ]) {
      expect(readText(text).problems, JSON.stringify(text)).toEqual([]);
    }
  });

  it('caps what it reports and says so', () => {
    const { problems } = readText(`a:\n${'  b: *c\n'.repeat(100)}`);
    expect(problems).toHaveLength(51);
    expect(problems.at(-1)!.rule).toBe('too-many-problems');
    expect(problems.at(-1)!.message).toContain('149');
  });

  it('says every problem in one sentence', () => {
    for (const fixture of Object.values(cases)) {
      for (const { message } of readText(fixture).problems) expect(message).toMatch(/^[A-Z*"][^\n]*\.$/);
    }
  });
});

describe('a broken step loses that step at most', () => {
  const BREAKS = [
    '"',
    "'",
    '[',
    '{',
    '- ',
    '\t',
    ': : ',
    '@',
    'x',
    '}',
    '&',
    '*',
    '!',
    '| x',
    '"a" b',
    '? ',
    '%',
    '`',
  ];
  const stepStart = GUIDE.indexOf('      - id: front-bar-out');
  const stepEnd = GUIDE.indexOf('      - id: springs-out');

  /** The ids of all steps that read, by the way a reader takes. */
  function steps(text: string): string[] {
    const reading = readText(text);
    const ids: string[] = [];
    const sections = find(reading.root!, 'sections', reading);
    for (const section of sections ? items(sections.value, reading) : []) {
      const list = find(section.value, 'steps', reading);
      for (const step of list ? items(list.value, reading) : []) {
        ids.push(String(find(step.value, 'id', reading)?.value.value));
      }
    }
    return ids;
  }

  it('whatever is typed anywhere in it', () => {
    const others = ['lift', 'springs-out', 'rear', 'wait'];
    expect(steps(GUIDE)).toEqual(['lift', 'front-bar-out', 'springs-out', 'rear', 'wait']);
    // Behind the dash: what stands before it belongs to no step yet.
    for (let at = stepStart + 8; at < stepEnd; at++) {
      for (const typed of BREAKS) {
        // A dash at the sections' own dashes begins a section, and what follows it is that section's.
        if (typed === '- ' && /\n {2}$/.test(GUIDE.slice(0, at))) continue;
        const found = steps(GUIDE.slice(0, at) + typed + GUIDE.slice(at));
        expect(
          found.filter((id) => others.includes(id)),
          `${typed} at ${at}`,
        ).toEqual(others);
      }
    }
  });

  it('wherever its writer stops typing', () => {
    for (let at = stepStart + 8; at < stepEnd; at++) {
      const found = steps(`${GUIDE.slice(0, at)}\n${GUIDE.slice(stepEnd)}`);
      expect(found.filter((id) => id !== 'front-bar-out').slice(0, 1)).toEqual(['lift']);
      for (const id of ['springs-out', 'rear', 'wait']) expect(found, `cut at ${at}`).toContain(id);
    }
  });
});
