/**
 * Procedures of the workshop, one a folder: the vehicle, the kit, `right.install.yaml`, and `faults.yaml`, which says
 * what to change in the right guide and what must then be found. The changes are texts, so that a fault is read beside
 * the sentence of the guide that it spoils.
 */

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { variantsInWords } from '../../server/src/cli/words';
import { checkFiles } from '../support/engine';

export const GUIDE = 'right.install.yaml';
const FAULTS = 'faults.yaml';
const BOTH = 'left, right';

/** One change of the guide's text: a text replaced, a step left out, or a step put behind another. */
export type Change =
  | { readonly find: string; readonly replace: string }
  | { readonly drop: string }
  | { readonly move: string; readonly after: string };

/** What must be found. What is left out says: in the guide, on both sides or none, for all variants. */
export interface Expected {
  readonly rule: string;
  /** The text it stands at. */
  readonly at: string;
  /** The step or section that text stands under, where it is in the document more than once. */
  readonly under?: string;
  /** What it is about, where the same is found twice at one place. */
  readonly item?: string;
  readonly sides?: string;
  readonly 'only-with'?: string;
  readonly file?: string;
}

export interface Fault {
  readonly name: string;
  readonly change: readonly Change[];
  readonly expect: readonly Expected[];
}

export interface Procedure {
  readonly name: string;
  readonly files: Readonly<Record<string, string>>;
  readonly faults: readonly Fault[];
}

/** All procedures of a folder, by name. */
export function proceduresOf(folder: string): Procedure[] {
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map(({ name }) => {
      const texts = readdirSync(join(folder, name)).map(
        (file) => [file, readFileSync(join(folder, name, file), 'utf8')] as const,
      );
      const faults = texts.find(([file]) => file === FAULTS);
      return {
        name,
        files: Object.fromEntries(texts.filter(([file]) => file !== FAULTS)),
        faults: faults === undefined ? [] : (parse(faults[1]) as Fault[]),
      };
    });
}

/** The lines of a step: from its `- id:` to the next line that is indented no deeper. */
function stepLines(lines: readonly string[], id: string): { from: number; to: number } {
  const heads = lines.flatMap((line, index) => {
    const text = line.trimStart();
    const is =
      [`- { id: ${id},`, `- { id: ${id} `].some((head) => text.startsWith(head)) || text === `- id: ${id}`;
    return is ? [index] : [];
  });
  const from = heads[0];
  if (from === undefined || heads.length > 1) throw new Error(`${heads.length} steps are called ${id}`);
  const indentOf = (line: string) => line.length - line.trimStart().length;
  const next = lines.findIndex(
    (line, index) => index > from && line !== '' && indentOf(line) <= indentOf(lines[from]!),
  );
  return { from, to: next === -1 ? lines.length : next };
}

/** A guide's text after one change. Throws where the change does not fit: what is to be found must stand there once. */
export function changed(text: string, change: Change): string {
  if ('find' in change) {
    const parts = text.split(change.find);
    if (parts.length !== 2) throw new Error(`${parts.length - 1} times in the guide: ${change.find}`);
    return parts.join(change.replace);
  }
  const lines = text.split('\n');
  const { from, to } = stepLines(lines, 'drop' in change ? change.drop : change.move);
  const step = lines.splice(from, to - from);
  if ('move' in change) lines.splice(stepLines(lines, change.after).to, 0, ...step);
  return lines.join('\n');
}

const WORD = /[\w.-]/;

/** How often a text stands in a document as words of its own. */
function timesIn(text: string, words: string): number {
  let times = 0;
  for (let at = text.indexOf(words); at >= 0; at = text.indexOf(words, at + 1))
    if (!WORD.test(text[at - 1] ?? '') && !WORD.test(text[at + words.length] ?? '')) times++;
  return times;
}

/** The id of the step, or the title of the section, that a place stands under. */
function headOver(text: string, at: number): string | undefined {
  const above = text.slice(0, text.indexOf('\n', at)).split('\n').reverse();
  const heads = above.map((line) => /^ *- (?:\{ )?(?:id|title): ([^,}]+)/.exec(line)?.[1]?.trim());
  return heads.find((head) => head !== undefined);
}

/** What is found in the guide and its documents, unless a step without operations; as `faults.yaml` says it. */
export async function foundIn(procedure: Procedure, guide: string): Promise<Expected[]> {
  const { findings, documents } = await checkFiles({ ...procedure.files, [GUIDE]: guide });
  const found = findings
    .filter(({ rule }) => rule !== 'unchecked-step')
    .map(({ rule, place, item, sides, variants }) => {
      const { text } = documents.get(place.uri)!;
      const at = text.slice(place.span.start, place.span.end);
      const under = timesIn(text, at) > 1 ? headOver(text, place.span.start) : undefined;
      const file = place.uri.slice(place.uri.lastIndexOf('/') + 1);
      const side = [...(sides ?? [])].sort().join(', ');
      const variant = variantsInWords(variants)?.slice('only with '.length);
      const expected: Expected = {
        rule,
        at,
        ...(under !== undefined && { under }),
        ...(side !== '' && side !== BOTH && { sides: side }),
        ...(variant !== undefined && { 'only-with': variant }),
        ...(file !== GUIDE && { file }),
      };
      return { expected, item };
    });
  return found.map(({ expected, item }) => {
    const same = found.filter(
      (other) => other.expected.rule === expected.rule && other.expected.at === expected.at,
    );
    return same.length > 1 && item !== undefined ? { ...expected, item } : expected;
  });
}

/** How many steps of the right guide there are, and how many the engine could check. */
export async function coverageOf(procedure: Procedure): Promise<{ steps: number; checkedSteps: number }> {
  const { coverage } = await checkFiles(procedure.files);
  return coverage;
}
