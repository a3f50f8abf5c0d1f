import type { ProjectCheck } from '../../workspace/check';
import { counted } from '../words';
import type { ReportContext } from './reporter';

/** Which part of what there is was checked, in sentences; none where it was all. */
export function sharesInWords(check: ProjectCheck, { since, sharded }: ReportContext): string[] {
  const lines: string[] = [];
  const files = sharded?.whole.files ?? check.files;
  if (since !== null)
    lines.push(
      files === 0
        ? `Nothing here changed since ${since.revision}, and nothing that depends on what did.`
        : `Changed since ${since.revision}, or depending on what did: ${files} of ${counted(since.of, 'file')}.`,
    );
  if (sharded !== null)
    lines.push(
      `Shard ${sharded.shard.number} of ${sharded.shard.of}: ${check.files} of ${counted(files, 'file')}.`,
    );
  return lines;
}
