import { expect, test } from 'vitest';
import { plainFinding } from '../../server/src/findings/finding';
import { expectFindings, parseFixture } from '../support/fixture';

const found = (uri: string, start: number, end: number) =>
  plainFinding('a-rule', { uri, span: { start, end } }, 'It is wrong.');

test('marks are taken out, and files are parted', () => {
  const { files, marks } = parseFixture(`
    # file: a.yaml
    x: 1
    #  ^ error[a-rule]: wrong
    # file: b.yaml
    y: 2
    #^ warning[b-rule]
    # a comment
  `);
  expect(files).toEqual([
    { name: 'a.yaml', text: 'x: 1' },
    { name: 'b.yaml', text: 'y: 2\n# a comment\n' },
  ]);
  expect(marks).toEqual([
    { file: 'a.yaml', line: 0, from: 3, to: 4, label: 'error[a-rule]', message: 'wrong' },
    { file: 'b.yaml', line: 0, from: 0, to: 2, label: 'warning[b-rule]', message: '' },
  ]);
});

test('every finding needs its mark and every mark its finding', () => {
  const marked = '# file: a.yaml\nx: 1\n#  ^ error[a-rule]: wrong\n';
  expectFindings(marked, () => [found('a.yaml', 3, 4)]);
  expect(() => expectFindings(marked, () => [])).toThrow();
  expect(() => expectFindings(marked, () => [found('a.yaml', 3, 4), found('a.yaml', 3, 4)])).toThrow();
  expect(() => expectFindings(marked, () => [found('a.yaml', 0, 1)])).toThrow();
  expect(() => expectFindings(marked, () => [found('b.yaml', 3, 4)])).toThrow();
  expect(() => expectFindings(marked.replace('wrong', 'right'), () => [found('a.yaml', 3, 4)])).toThrow();
  expect(() => expectFindings('# file: a.yaml\nx: 1\n', () => [found('a.yaml', 3, 4)])).toThrow();
  expect(() => parseFixture('x: 1\n#  ^ eror[a-rule]\n')).toThrow('cannot be read');
});
