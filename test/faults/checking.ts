/** The checker, held in one process: the same vehicle, kit and packs for every mutant. */

import type { Finding } from '../../server/src/findings/finding';
import { checkDocuments } from '../../server/src/workspace/check';
import { readDocument } from '../../server/src/workspace/document';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';
import type { Folder } from './samples';

const TODAY = '2026-01-31';

export class Checking {
  private readonly project: Project;

  constructor(private readonly folder: Folder) {
    const contents = Object.entries(folder.texts).map(([name, text]) => [this.path(name), text] as const);
    this.project = new Project(memoryFiles(new Map(contents)), standardPacks());
  }

  /** What is found in some guides while one of them reads otherwise than in the folder. */
  async findings(guide: string, text: string, guides: readonly string[]): Promise<readonly Finding[]> {
    const name = this.path(guide);
    this.project.hold(name, text, readDocument(name, text));
    const checked = await checkDocuments(
      this.project,
      guides.map((one) => this.path(one)),
      { today: TODAY },
    );
    this.project.forget(name);
    return (checked?.findings ?? []).filter(({ rule }) => rule !== 'unchecked-step');
  }

  private path(name: string): string {
    return `/${this.folder.name}/${name}`;
  }
}
