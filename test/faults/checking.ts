/** The checker, held in one process: the same vehicles, kits and packs for every mutant. */

import type { Finding } from '../../server/src/findings/finding';
import { checkDocuments } from '../../server/src/workspace/check';
import { readDocument } from '../../server/src/workspace/document';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';
import type { Folder, Sample } from './samples';

const TODAY = '2026-01-31';

export class Checking {
  private readonly project: Project;
  /** What is found in the samples as they are, by the guides asked for. */
  private readonly before = new Map<string, ReadonlySet<string>>();

  constructor(folders: readonly Folder[]) {
    const texts = folders.flatMap((folder) =>
      Object.entries(folder.texts).map(([name, text]) => [path(folder, name), text] as const),
    );
    this.project = new Project(memoryFiles(new Map(texts)), standardPacks());
  }

  /** What is found in a sample, and in the guides that use or follow it, only since it reads so. */
  async newFindings(sample: Sample, text: string): Promise<readonly Finding[]> {
    const { folder, guide, jobs } = sample;
    const asked = [...new Set(jobs.flat())].map((one) => path(folder, one));
    const key = asked.join(' ');
    const before = this.before.get(key) ?? new Set((await this.check(asked)).map(identity));
    this.before.set(key, before);
    const name = path(folder, guide);
    this.project.hold(name, text, readDocument(name, text));
    const findings = await this.check(asked);
    this.project.forget(name);
    return findings.filter((finding) => finding.rule !== 'unchecked-step' && !before.has(identity(finding)));
  }

  private async check(names: readonly string[]): Promise<readonly Finding[]> {
    return (await checkDocuments(this.project, names, { today: TODAY }))?.findings ?? [];
  }
}

const path = (folder: Folder, name: string): string => `/${folder.name}/${name}`;

const identity = ({ rule, message, place }: Finding): string => `${rule} ${place.uri} ${message}`;
