import { describe, expect, it } from 'vitest';
import { looksLikeGuide, saysItIsOurs } from '../../client/first-key';
import { shellOf } from '../../client/preview/shell';
import {
  checkedInWords,
  hoursInWords,
  labourInLine,
  labourInSentences,
  minutesInWords,
  ninetyInWords,
  runningInWords,
} from '../../client/words';

const labour = {
  title: 'Kit',
  lowest: 530,
  highest: 600,
  elapsed: 580,
  atLeast: false,
  unknown: 0,
  lowestPrinted: '8.9 h',
  highestPrinted: '10.0 h',
  lowestAt90: '9.4 h',
  highestAt90: '10.6 h',
  elapsedPrinted: '9.7 h',
  allowance: null,
  timed: 12,
  ranged: 5,
  skills: [],
  lowestWith: [],
  highestWith: ['lockers: fitted'],
};

describe('the hours in words', () => {
  it('are a range, one figure, or at least', () => {
    expect(hoursInWords(labour)).toBe('8.9 h to 10.0 h');
    expect(hoursInWords({ ...labour, lowestPrinted: '10.0 h' })).toBe('10.0 h');
    expect(hoursInWords({ ...labour, atLeast: true })).toBe('at least 8.9 h to 10.0 h');
  });

  it('say which variants they are of, and how many times are not known', () => {
    const lines = labourInSentences({ ...labour, atLeast: true, unknown: 1 });
    expect(lines).toContain('Highest with lockers: fitted');
    expect(lines.some((line) => line.startsWith('Lowest with'))).toBe(false);
    expect(lines.at(-1)).toBe('1 step has no known time, so this is "at least"');
  });

  it('say what nine in ten jobs keep to, what is added, and the hours of each skill', () => {
    const lines = labourInSentences({
      ...labour,
      allowance: '12 % of shift time',
      skills: [
        { skill: 'brake fitter', lowestPrinted: '0.7 h', highestPrinted: '0.7 h', atLeast: true },
        { skill: null, lowestPrinted: '8.2 h', highestPrinted: '9.3 h', atLeast: false },
      ],
    });
    expect(lines).toContain(
      'Half of such jobs are done within this, nine in ten within 9.4 h to 10.6 h: 5 of 12 timed steps have a low and a high',
    );
    expect(lines).toContain('With the allowance of 12 % of shift time');
    expect(lines).toContain('brake fitter: at least 0.7 h');
    expect(lines).toContain('Nobody named: 8.2 h to 9.3 h');
    const none = { ...labour, ranged: 0, highestAt90: '10.0 h', lowestAt90: '8.9 h' };
    expect(ninetyInWords(none)).toBeNull();
    expect(labourInLine(none)).toBe('8.9 h to 10.0 h of labour');
    expect(labourInLine(labour)).toBe('8.9 h to 10.0 h of labour, 90 %: 9.4 h to 10.6 h');
    expect(labourInSentences(none).some((line) => line.includes('is not known'))).toBe(true);
  });

  it('of a step are minutes, and since the start hours and minutes', () => {
    expect(minutesInWords({ lowest: 4, highest: 4.2, atLeast: false })).toBe('4 min');
    expect(minutesInWords({ lowest: 4, highest: 6, atLeast: true })).toBe('at least 4 to 6 min');
    expect(minutesInWords(null)).toBe('no time');
    expect(runningInWords({ lowest: 59.6, highest: 59.6 })).toBe('1:00');
    expect(runningInWords({ lowest: 5, highest: 125 })).toBe('0:05–2:05');
  });

  it('of a check tell what was found', () => {
    const findings = { error: 2, warning: 0, info: 1 };
    expect(checkedInWords({ documents: 7, findings })).toBe('7 documents checked: 2 errors, 1 note');
    expect(checkedInWords({ documents: 1, findings: { error: 0, warning: 0, info: 0 } })).toBe(
      '1 document checked: nothing found',
    );
  });
});

describe('the first key', () => {
  it('makes a document ours, behind comments, blank lines and a mark of byte order', () => {
    for (const text of [
      'kitproof: kit/1',
      '\uFEFF# c\r\n\r\n---\r\nkitproof: "rules/1"',
      '\n# a\nkitproof:   install/2\n',
    ])
      expect(saysItIsOurs(text), text).toBe(true);
    for (const text of [
      '',
      'a: 1\nkitproof: kit/1',
      ' kitproof: kit/1',
      'kitproof: other/1',
      '# kitproof: kit/1',
    ])
      expect(saysItIsOurs(text), text).toBe(false);
  });

  it('tells a guide; its ending is believed while the key is not written', () => {
    expect(looksLikeGuide('a.yaml', 'kitproof: install/1')).toBe(true);
    expect(looksLikeGuide('a.install.yaml', '')).toBe(true);
    expect(looksLikeGuide('a.install.yaml', 'kitproof: kit/1')).toBe(false);
    expect(looksLikeGuide('a.kit.yaml', 'title: A')).toBe(false);
  });
});

describe("the preview's page", () => {
  it('runs the one script of its nonce and fetches nothing but its style', () => {
    const page = shellOf({ cspSource: 'own:', script: 'own:/a.js', style: 'own:/a.css', nonce: 'N0nce' });
    const policy = /content="([^"]*)"/.exec(page)?.[1];
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'nonce-N0nce'");
    expect(policy).not.toMatch(/unsafe|https?:|\*/);
    expect(page.match(/<script/g)).toEqual(['<script']);
    expect(page).not.toMatch(/\son\w+=|style="/);
  });
});
