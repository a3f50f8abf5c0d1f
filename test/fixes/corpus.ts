/** Faulty guides from everywhere in this repository: the samples, the procedures with a fault put in, the packs' bad examples. */

import { readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { diskFiles } from '../../server/src/workspace/disk';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { nameOfPath } from '../../server/src/workspace/paths';
import { withOverlay } from '../../server/src/workspace/port';
import { type Closure, Project } from '../../server/src/workspace/project';
import { exampleFiles, standardPacks as packTexts } from '../oracle/example';
import { readPacks } from '../oracle/packs';
import { list, map } from '../oracle/raw';
import { changed, GUIDE, proceduresOf } from '../procedures/suite';

export interface Case {
  readonly name: string;
  /** The guide as it is written, or with another text. */
  closure(text?: string): Promise<Closure>;
}

/** Runs work to its end. */
export function run<Result>(work: Generator<unknown, Result, void>): Result {
  for (;;) {
    const next = work.next();
    if (next.done === true) return next.value;
  }
}

/** A case whose guide says something else, read afresh from its files. */
export const withFile = (one: Case, text: string): Promise<Closure> => one.closure(text);

const root = join(import.meta.dirname, '../..');

export function sampleCases(): Case[] {
  const below = (folder: string): string[] =>
    readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
      entry.isDirectory() ? below(join(folder, entry.name)) : [join(folder, entry.name)],
    );
  return below(join(root, 'samples'))
    .filter((file) => file.endsWith('.install.yaml') && file.split(/[\\/]/).includes('faulty'))
    .map((file) => ({
      name: file.slice(root.length + 1),
      closure: (text) => {
        const name = nameOfPath(file);
        const overlay = new Map(text === undefined ? [] : [[name, text]]);
        return closureIn(new Project(withOverlay(diskFiles, overlay), standardPacks()), name);
      },
    }));
}

export function procedureCases(): Case[] {
  return proceduresOf(join(root, 'test/procedures')).flatMap((procedure) =>
    procedure.faults.map((fault) => ({
      name: `${procedure.name}: ${fault.name}`,
      closure: (text) => {
        const guide = text ?? fault.change.reduce(changed, procedure.files[GUIDE]!);
        return closureOf({ ...procedure.files, [GUIDE]: guide }, GUIDE, {});
      },
    })),
  );
}

/** Each bad example of each rule, as the guide it amounts to, with that rule on. */
export function exampleCases(): Case[] {
  return readPacks(packTexts()).rules.flatMap((rule) => {
    const id = String(rule.id);
    const bad = Array.isArray(rule.bad) ? list(rule.bad) : [rule.bad];
    return bad.map((example, index) => ({
      name: `${id}${bad.length > 1 ? ` ${index + 1}` : ''}`,
      closure: (text) => {
        const { files: written, guide } = exampleFiles(map(example));
        const files = text === undefined ? written : { ...written, [guide]: text };
        return closureOf(files, guide, { [id]: 'on' }, map(example)['strict-loosening'] === true);
      },
    }));
  });
}

async function closureOf(
  files: Readonly<Record<string, string>>,
  guide: string,
  rules: Readonly<Record<string, string>>,
  strict = false,
): Promise<Closure> {
  const contents = new Map(Object.entries(files).map(([name, text]) => [`/project/${name}`, text]));
  if (!contents.has('/project/kitproof.yaml'))
    contents.set(
      '/project/kitproof.yaml',
      `kitproof: config/1\nrules: ${JSON.stringify(rules)}\nstrict-loosening: ${strict}\n`,
    );
  return closureIn(new Project(memoryFiles(contents), standardPacks()), `/project/${guide}`);
}

async function closureIn(project: Project, name: string): Promise<Closure> {
  const document = await project.open(name);
  if (document === null) throw new Error(`${dirname(name)}: no document`);
  return project.closureOf(document);
}
