import { expect } from 'vitest';
import type { Finding } from '../../server/src/findings/finding';

/**
 * Tests of findings are written as the documents themselves. A comment under a line marks what is found in it:
 *
 *     remove: front-shock
 *     #       ^^^^^^^^^^^ error[loosen-before-remove]: part of the message
 *
 * Carets that follow the `#` without a blank begin at the `#` itself, so that the first column can be marked. Of a
 * finding on several lines the first is marked; an empty span has one caret. Several files in one fixture are parted
 * by `# file: name`; mark lines are taken out before anything is read.
 */
export interface FixtureFile {
  readonly name: string;
  readonly text: string;
}

interface Mark {
  readonly file: string;
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly label: string;
  readonly message: string;
}

const DEFAULT_NAME = 'guide.install.yaml';
const FILE_LINE = /^# file: (\S+)$/;
const MARK_LINE = /^( *)#( *)(\^+) ((?:error|warning|info)\[[a-z0-9-]+\])(?:: (.*))?$/;

/** Takes a fixture apart: its files without marks, and the marks. Common indentation is dropped. */
export function parseFixture(fixture: string): { files: FixtureFile[]; marks: Mark[] } {
  const files: { name: string; lines: string[] }[] = [];
  const marks: Mark[] = [];
  for (const line of dedent(fixture).split('\n')) {
    const name = FILE_LINE.exec(line)?.[1];
    if (name !== undefined) {
      files.push({ name, lines: [] });
      continue;
    }
    if (files.length === 0) files.push({ name: DEFAULT_NAME, lines: [] });
    const file = files.at(-1)!;
    const mark = MARK_LINE.exec(line);
    if (!mark) {
      if (/^ *# *\^/.test(line)) throw new Error(`this mark cannot be read: ${line}`);
      file.lines.push(line);
      continue;
    }
    const [, indent = '', gap = '', carets = '', label = '', message = ''] = mark;
    const from = indent.length + (gap === '' ? 0 : 1 + gap.length);
    const to = from + carets.length + (gap === '' ? 1 : 0);
    marks.push({ file: file.name, line: file.lines.length - 1, from, to, label, message });
  }
  return { files: files.map(({ name, lines }) => ({ name, text: lines.join('\n') })), marks };
}

/**
 * Checks a fixture: every finding must have its mark and every mark its finding. `check` gets the files and returns
 * what is found; a finding's `uri` is its file's name. Shows both sides as fixtures where they differ.
 */
export function expectFindings(
  fixture: string,
  check: (files: readonly FixtureFile[]) => readonly Finding[],
): void {
  const { files, marks } = parseFixture(fixture);
  const waiting = [...marks];
  const actual = check(files).map((finding) => {
    const mark = markOf(finding, files);
    const index = waiting.findIndex((other) => sameSpot(mark, other) && mark.message.includes(other.message));
    return index < 0 ? mark : waiting.splice(index, 1)[0]!;
  });
  expect(render(files, actual)).toBe(render(files, marks));
}

const sameSpot = (a: Mark, b: Mark): boolean =>
  a.file === b.file && a.line === b.line && a.from === b.from && a.to === b.to && a.label === b.label;

function markOf(finding: Finding, files: readonly FixtureFile[]): Mark {
  const { uri, span } = finding.place;
  const text = files.find((file) => file.name === uri)?.text ?? '';
  const lineStart = text.lastIndexOf('\n', span.start - 1) + 1;
  const lineEnd = text.indexOf('\n', span.start);
  const end = Math.min(span.end, lineEnd < 0 ? text.length : lineEnd);
  const line = text.slice(0, lineStart).split('\n').length - 1;
  const from = span.start - lineStart;
  const to = Math.max(from + 1, end - lineStart);
  return {
    file: uri,
    line,
    from,
    to,
    label: `${finding.severity}[${finding.rule}]`,
    message: finding.message,
  };
}

/** The fixture as it would be written with these marks. */
function render(files: readonly FixtureFile[], marks: readonly Mark[]): string {
  const lines: string[] = [];
  const stray = marks.filter((mark) => !files.some((file) => file.name === mark.file));
  for (const mark of stray) lines.push(`# in no file: ${mark.file} ${mark.label}: ${mark.message}`);
  for (const file of files) {
    lines.push(`# file: ${file.name}`);
    const own = marks
      .filter((mark) => mark.file === file.name)
      .map((mark) => ({ mark, text: markLine(mark) }));
    own.sort((a, b) => a.mark.from - b.mark.from || a.mark.to - b.mark.to || (a.text < b.text ? -1 : 1));
    file.text.split('\n').forEach((line, index) => {
      lines.push(line);
      for (const { mark, text } of own) if (mark.line === index) lines.push(text);
    });
  }
  return lines.join('\n');
}

function markLine({ from, to, label, message }: Mark): string {
  const tail = ` ${label}${message === '' ? '' : `: ${message}`}`;
  if (from < 2) return `${' '.repeat(from)}#${'^'.repeat(Math.max(1, to - from - 1))}${tail}`;
  return `#${' '.repeat(from - 1)}${'^'.repeat(to - from)}${tail}`;
}

/** A template literal's text without its first empty line and the indentation that all its lines share. */
export function dedent(text: string): string {
  const lines = text.replace(/^ *\n/, '').replace(/\n *$/, '\n').split('\n');
  const filled = lines.filter((line) => line.trim() !== '');
  const indents = filled.map((line) => line.length - line.trimStart().length);
  const indent = filled.length === 0 ? 0 : Math.min(...indents);
  return lines.map((line) => line.slice(indent)).join('\n');
}
