/** Guides written at random, as people write them: in lines or in brackets, with comments, quotes, blank lines. */

import fc from 'fast-check';
import { entries, follow, items, keyName } from '../../server/src/text/access';
import { readText } from '../../server/src/text/read';
import type { Node, Reading } from '../../server/src/text/tree';

export type Data = string | number | boolean | null | Data[] | { [key: string]: Data };
export interface Step {
  [key: string]: Data;
}
export interface Guide {
  title: string;
  sections: { title: string; steps: Step[] }[];
}

/** A guide, its text, and every comment in it. */
export interface Written {
  readonly guide: Guide;
  readonly text: string;
  readonly comments: readonly string[];
  /** The comments that stand right above a step, by the step's id. */
  readonly above: ReadonlyMap<string, readonly string[]>;
}

const word = fc.constantFrom(
  'front-axle',
  'rear-shock.top-nut',
  'two-post-lift',
  'bolt',
  "lift's arm",
  'on',
  '12',
  'a b',
  'N·m',
);
const operation = fc
  .record(
    {
      verb: fc.constantFrom('raise', 'lower', 'remove', 'torque'),
      target: fc.oneof(word, fc.array(word, { minLength: 1, maxLength: 3 })),
      with: word,
      by: word,
    },
    { requiredKeys: ['verb', 'target'] },
  )
  .map(({ verb, target, ...rest }) => ({ [verb]: target, ...rest }) as { [key: string]: Data });
const step = fc.record(
  {
    text: fc.constantFrom(
      'Take it off.',
      'Fit it: both sides.',
      'Hold #2, then "turn".',
      'One line\nand another',
    ),
    when: fc.constantFrom({ lockers: 'fitted' }, { lift: { 'at-least': '75 mm' } }),
    do: fc.array(operation, { minLength: 1, maxLength: 3 }),
    people: fc.constant(2),
  },
  { requiredKeys: ['text'] },
);

/** Choices are taken from a list of numbers, so that a failing text shrinks. */
export const written: fc.Arbitrary<Written> = fc
  .tuple(
    fc.array(fc.array(step, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 3 }),
    fc.infiniteStream(fc.nat(99)),
  )
  .map(([sections, stream]) => {
    let count = 0;
    const guide: Guide = {
      title: 'G',
      sections: sections.map((steps, index) => ({
        title: `S${index}`,
        steps: steps.map((one) => ({ id: `step-${count++}`, ...(one as unknown as Step) })),
      })),
    };
    return new Writer(stream).write(guide);
  });

class Writer {
  private readonly comments: string[] = [];
  private readonly above = new Map<string, readonly string[]>();
  private readonly lineBreak: string;

  constructor(private readonly choices: fc.Stream<number>) {
    this.lineBreak = this.chance(20) ? '\r\n' : '\n';
  }

  write(guide: Guide): Written {
    const lines = ['kitproof: install/1', `title: ${guide.title}${this.trailing()}`];
    if (this.chance(20)) {
      lines.push(`sections: ${this.flow(guide.sections)}`);
    } else {
      lines.push('sections:');
      const dash = this.chance(30) ? 0 : 2;
      for (const { title, steps } of guide.sections) {
        lines.push(`${' '.repeat(dash)}- title: ${title}${this.trailing()}`);
        this.steps(lines, steps, dash + 2);
        if (this.chance(30)) lines.push('');
      }
    }
    if (this.chance(50)) lines.push('owes: []');
    const text = lines.join(this.lineBreak) + (this.chance(70) ? this.lineBreak : '');
    return { guide, text, comments: this.comments, above: this.above };
  }

  private steps(lines: string[], steps: Step[], column: number): void {
    const pad = ' '.repeat(column);
    if (this.chance(15)) {
      if (this.chance(50)) lines.push(`${pad}steps: ${this.flow(steps)}`);
      else {
        lines.push(`${pad}steps: [`);
        steps.forEach((one, index) => {
          lines.push(`${pad}  ${this.flow(one)}${index < steps.length - 1 || this.chance(40) ? ',' : ''}`);
        });
        lines.push(`${pad}]`);
      }
      return;
    }
    lines.push(`${pad}steps:${this.trailing()}`);
    const dash = column + (this.chance(30) ? 0 : 2);
    const spaced = this.chance(30);
    const inBraces = this.chance(20);
    steps.forEach((one, index) => {
      const inner = ' '.repeat(dash);
      if (index > 0 && spaced) lines.push('');
      if (this.chance(10)) lines.push(`${inner}${this.comment()}`, '');
      const own: string[] = [];
      for (let more = 0; more < 2 && this.chance(30); more++) own.push(this.comment());
      for (const comment of own) lines.push(inner + comment);
      this.above.set(String(one.id), own);
      if (inBraces || this.chance(10)) {
        lines.push(`${inner}- ${this.flow(one)}${this.trailing()}`);
        return;
      }
      const keys = Object.entries(one);
      keys.forEach(([key, value], at) => {
        const head = at === 0 ? `${inner}- ` : `${inner}  `;
        if (at > 0 && this.chance(8)) lines.push(`${inner}  ${this.comment()}`);
        this.pair(lines, head, dash + 2, key, value);
      });
      if (this.chance(10)) lines.push(`${inner}   ${this.comment()}`);
    });
  }

  private pair(lines: string[], head: string, column: number, key: string, value: Data): void {
    if (Array.isArray(value) && value.some((item) => typeof item === 'object') && this.chance(60)) {
      lines.push(`${head}${key}:${this.trailing()}`);
      const dash = column + (this.chance(40) ? 0 : 2);
      for (const item of value) {
        if (this.chance(10)) lines.push(`${' '.repeat(dash)}${this.comment()}`);
        if (this.chance(40)) {
          lines.push(`${' '.repeat(dash)}- ${this.flow(item)}${this.trailing()}`);
          continue;
        }
        Object.entries(item as { [key: string]: Data }).forEach(([name, inner], at) => {
          const begin = `${' '.repeat(dash)}${at === 0 ? '- ' : '  '}`;
          this.pair(lines, begin, dash + 2, name, inner);
        });
      }
      return;
    }
    if (typeof value === 'string' && value.includes('\n') && this.chance(60)) {
      lines.push(`${head}${key}: |-${this.trailing()}`);
      for (const line of value.split('\n')) lines.push(`${' '.repeat(column + 2)}${line}`);
      return;
    }
    lines.push(
      `${head}${key}: ${typeof value === 'object' ? this.flow(value) : this.scalar(value)}${this.trailing()}`,
    );
  }

  private flow(value: Data): string {
    if (Array.isArray(value)) return `[${value.map((item) => this.flow(item)).join(', ')}]`;
    if (typeof value !== 'object' || value === null) return this.scalar(value);
    const pad = this.chance(80) ? ' ' : '';
    const pairs = Object.entries(value).map(([key, item]) => `${key}: ${this.flow(item)}`);
    return `{${pad}${pairs.join(', ')}${pad}}`;
  }

  private scalar(value: Data): string {
    if (typeof value !== 'string') return String(value);
    const plain = /^[A-Za-zN][\w·. -]*$/.test(value) && value !== 'on' && !value.endsWith(' ');
    if (plain && this.chance(80)) return value;
    if (!value.includes('\n') && this.chance(50)) return `'${value.replaceAll("'", "''")}'`;
    return JSON.stringify(value);
  }

  private trailing(): string {
    return this.chance(10) ? `   ${this.comment()}` : '';
  }

  private comment(): string {
    const text = `# note ${this.comments.length} - here: [x`;
    this.comments.push(text);
    return text;
  }

  private chance(percent: number): boolean {
    return this.choices.next().value < percent;
  }
}

/** What a text says, aliases and merges followed. */
export function said(text: string): Data {
  const reading = readText(text);
  if (reading.problems.length > 0) throw new Error(`${reading.problems[0]!.message}\n${text}`);
  return reading.root === null ? null : dataOf(reading.root, reading);
}

function dataOf(node: Node, reading: Reading): Data {
  const value = follow(node, reading);
  if (value.kind === 'seq') return items(value, reading).map((item) => dataOf(item.value, reading));
  if (value.kind === 'map')
    return Object.fromEntries(
      entries(value, reading).map((entry) => [
        keyName(entry.key, reading) ?? '',
        dataOf(entry.value, reading),
      ]),
    );
  return value.value;
}
