import { comparisonPage } from '../review/comparison-html';
import { compareSides } from '../workspace/compare-revisions';
import { standardPacks } from '../workspace/packs';
import { baseName, folderOf } from '../workspace/paths';
import { Project } from '../workspace/project';
import { COMPARE_REQUEST, type CompareAnswer, type CompareParams } from './compare-types';
import { answering, type Context, type Feature } from './context';

/** What changed in a guide since a revision of its repository, its text as it stands in the editor. */
export const compare: Feature = {
  capabilities: () => ({ experimental: { kitproof: { compare: true } } }),
  register(connection, context) {
    connection.onRequest(
      COMPARE_REQUEST,
      answering<CompareParams, CompareAnswer | null>(context, null, (wanted) => compared(context, wanted)),
    );
  },
};

async function compared(context: Context, { uri, revision }: CompareParams): Promise<CompareAnswer> {
  const document = await context.document(uri);
  if (document?.kind !== 'install') return { problem: 'This is no guide, so there is nothing to compare.' };
  if (context.filesAt === null) return { problem: 'A browser cannot read the revisions of a repository.' };
  const folder = folderOf(document.uri);
  const old = await context
    .filesAt(folder, revision)
    .catch((error: unknown) => String(error instanceof Error ? error.message : error));
  if (typeof old === 'string') return { problem: old };
  try {
    const before = { files: old, project: new Project(old, standardPacks()) };
    const after = { files: context.texts, project: context.project };
    const report = await compareSides(before, after, [document.uri], { folder, today: context.today() });
    if ('missing' in report) return { problem: `Neither version has ${baseName(document.uri)}.` };
    const named = { before: revision, after: 'what stands in the editor', ...report };
    return { page: comparisonPage(named, true) };
  } finally {
    old.close();
  }
}
