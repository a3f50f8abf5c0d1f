/** Two versions of a guide read from memory and compared, for tests. */

import type { ComparedGuide } from '../../server/src/review/report';
import { comparedGuide, type VersionAt, versionAt } from '../../server/src/workspace/compare';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';

export const TODAY = '2026-03-14';

export type Texts = Readonly<Record<string, string>>;

/** A version of the guide `/shop/<guide>` among files by their paths. */
export async function version(files: Texts, guide: string): Promise<VersionAt> {
  const named = new Map(Object.entries(files).map(([path, text]) => [`/shop/${path}`, text]));
  const project = new Project(memoryFiles(named), standardPacks());
  const document = await project.open(`/shop/${guide}`);
  if (document === null) throw new Error(`${guide} is no guide`);
  return (await versionAt(project, document, TODAY))!;
}

/** Compares two sets of files by one guide of them. */
export async function compared(before: Texts, after: Texts, guide: string): Promise<ComparedGuide> {
  return comparedGuide(await version(before, guide), await version(after, guide), '/shop');
}
