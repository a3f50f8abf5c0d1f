/** The samples that faults are seeded in: every guide beside its vehicle and kits, but none that is faulty on purpose. */

import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { parse } from 'yaml';
import { named } from '../oracle/harm/facts';
import { isMap, map, type Raw, text } from '../oracle/raw';

/** No fault of this guide is looked at while judge and rules are worked on: it tells how both do on what they never saw. */
export const HELD_OUT = 'wren-tow-bar.install.yaml';

export interface Folder {
  readonly name: string;
  readonly texts: Readonly<Record<string, string>>;
  readonly documents: Readonly<Record<string, Raw>>;
}

/** A guide that gets faults, and the jobs in which somebody would follow it: alone, or with those that use or follow it. */
export interface Sample {
  readonly folder: Folder;
  readonly guide: string;
  readonly jobs: readonly (readonly string[])[];
}

/** The folders of the samples, with every file in them; `packs` above them counts with `kitproof.yaml`. */
export function readFolders(samples: string): Folder[] {
  return [samples, join(samples, 'wren')].map((folder) => {
    const files = readdirSync(folder).filter((name) => name.endsWith('.yaml'));
    const texts = Object.fromEntries(files.map((name) => [name, readFileSync(join(folder, name), 'utf8')]));
    const documents = Object.fromEntries(
      Object.entries(texts).map(([name, source]) => [name, map(parse(source, { merge: true }))]),
    );
    return { name: relative(join(samples, '..'), folder), texts, documents };
  });
}

/** The standard packs as plain data, in a repository. */
export function readStandardPacks(root: string): Raw[] {
  const folder = join(root, 'server/src/rules/packs');
  return readdirSync(folder).map((name) =>
    map(parse(readFileSync(join(folder, name), 'utf8'), { merge: true })),
  );
}

/** Every guide of a folder. A guide that another one uses or follows is judged in the other's job too. */
export function samplesIn(folder: Folder): Sample[] {
  const guides = Object.keys(folder.documents).filter((name) => name.endsWith('.install.yaml'));
  const jobs = guides.map((guide) => jobOf(folder, guide));
  return guides.map((guide) => ({
    folder,
    guide,
    jobs: jobs.filter(
      (job) => job.at(-1) === guide || (!job.includes(HELD_OUT) && readBy(folder, job).has(guide)),
    ),
  }));
}

/** A guide with those that it follows, in order. */
function jobOf(folder: Folder, guide: string): string[] {
  const before = text(folder.documents[guide]?.follows);
  return before === undefined
    ? [guide]
    : [...jobOf(folder, named(folder.documents, guide, before).name), guide];
}

/** The guides of a job and those whose sections they use. */
function readBy(folder: Folder, job: readonly string[]): Set<string> {
  const found = new Set(job);
  for (const guide of found) {
    const walk = (value: unknown): void => {
      if (Array.isArray(value)) for (const one of value) walk(one);
      if (!isMap(value)) return;
      const other = isMap(value.use) ? text(value.use.guide) : undefined;
      if (other !== undefined) found.add(named(folder.documents, guide, other).name);
      for (const inner of Object.values(value)) walk(inner);
    };
    walk(folder.documents[guide]);
  }
  return found;
}
