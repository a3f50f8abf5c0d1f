/** The whole engine over files in memory: what the tests of rules and of agreement ask. */

import type { GuideCheck } from '../../server/src/check/check';
import type { Model } from '../../server/src/model/model';
import { checkDocuments, type ProjectCheck } from '../../server/src/workspace/check';
import { checkGuideOf } from '../../server/src/workspace/engine';
import { memoryFiles } from '../../server/src/workspace/memory';
import { standardPacks } from '../../server/src/workspace/packs';
import { Project } from '../../server/src/workspace/project';

const ROOT = '/project';

export interface EngineConfig {
  readonly rules?: Readonly<Record<string, string>>;
  readonly strictLoosening?: boolean;
  /** The day that waivers are held against. */
  readonly today?: string;
}

const TODAY = '2026-01-31';

const project = (files: Readonly<Record<string, string>>, config: EngineConfig) => {
  const contents = new Map(Object.entries(files).map(([name, text]) => [`${ROOT}/${name}`, text]));
  if (!contents.has(`${ROOT}/kitproof.yaml`))
    contents.set(
      `${ROOT}/kitproof.yaml`,
      `kitproof: config/1\nrules: ${JSON.stringify(config.rules ?? {})}\nstrict-loosening: ${config.strictLoosening === true}\n`,
    );
  return new Project(memoryFiles(contents), standardPacks());
};

/** All findings of all documents, as `kitproof check` gives them. */
export async function checkFiles(
  files: Readonly<Record<string, string>>,
  config: EngineConfig = {},
): Promise<ProjectCheck> {
  const names = Object.keys(files).map((name) => `${ROOT}/${name}`);
  const result = await checkDocuments(project(files, config), names, { today: config.today ?? TODAY });
  return result!;
}

/** One guide's check, with its model. */
export async function checkOne(
  files: Readonly<Record<string, string>>,
  guide: string,
  config: EngineConfig = {},
): Promise<{ check: GuideCheck; model: Model }> {
  const made = project(files, config);
  const document = await made.open(`${ROOT}/${guide}`);
  const closure = await made.closureOf(document!);
  const work = checkGuideOf(closure, config.today ?? TODAY);
  for (let turn = work.next(); ; turn = work.next())
    if (turn.done === true) return { check: turn.value, model: turn.value.simulation.model };
}
