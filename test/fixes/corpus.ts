/** Faulty guides from everywhere in this repository: the samples, the procedures with a fault put in, the packs' bad examples. */

import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { memoryFiles } from '../../server/src/workspace/memory';
import { diskFiles } from '../../server/src/workspace/disk';
import { standardPacks } from '../../server/src/workspace/packs';
import { nameOfPath } from '../../server/src/workspace/paths';
import { type Closure, Project } from '../../server/src/workspace/project';
import { exampleFiles, standardPacks as packTexts } from '../oracle/example';
import { readPacks } from '../oracle/packs';
import { list, map } from '../oracle/raw';
import { changed, GUIDE, proceduresOf } from '../procedures/suite';

export interface Case {
  readonly name: string;
  closure(): Promise<Closure>;
}

const root = join(import.meta.dirname, '../..');

export function sampleCases(): Case[] {
  const below = (folder: string): string[] =>
    readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
      entry.isDirectory() ? below(join(folder, entry.name)) : [join(folder, entry.name)],
    );
  const project = new Project(diskFiles, standardPacks());
  return below(join(root, 'samples'))
    .filter((file) => file.endsWith('.install.yaml') && file.split(/[\\/]/).includes('faulty'))
    .map((file) => ({ name: file.slice(root.length + 1), closure: () => closureIn(project, nameOfPath(file)) }));
}

export function procedureCases(): Case[] {
  return proceduresOf(join(root, 'test/procedures')).flatMap((procedure) =>
    procedure.faults.map((fault) => ({
      name: `${procedure.name}: ${fault.name}`,
      closure: () => {
        const guide = fault.change.reduce(changed, procedure.files[GUIDE]!);
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
      closure: () => {
        const { files, guide } = exampleFiles(map(example));
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
