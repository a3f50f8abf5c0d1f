import { affectedBy } from '../workspace/affected';
import type { Project } from '../workspace/project';
import { NoCommitYet, RevisionError, repositoryAt } from '../workspace/revisions';
import { ReadError } from './io';

/** Of some documents those that changed since a revision, and those whose check reads or names what did. */
export async function changedSince(
  revision: string,
  project: Project,
  names: readonly string[],
  folder: string,
  input: string | null,
): Promise<readonly string[]> {
  try {
    const repository = await repositoryAt(folder);
    const changes = await (await repository.revision(revision)).changes();
    // What comes in by standard input is not what git knows.
    const typed = input === null ? [] : [{ name: input, kind: 'changed' as const, before: null }];
    return await affectedBy(project, names, [...changes, ...typed], repository.root);
  } catch (error) {
    // Before the first commit all is new.
    if (error instanceof NoCommitYet) return names;
    if (error instanceof RevisionError) throw new ReadError(error.message);
    throw error;
  }
}
