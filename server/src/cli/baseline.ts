import type { ProjectCheck } from '../workspace/check';
import { resolvePath } from '../workspace/paths';
import { type Io, ReadError } from './io';
import { FINGERPRINT, fingerprintsOf } from './reporters/places';

/**
 * What an earlier report knows its findings by. It is one that `check` wrote, `--format sarif` or `json`; anything else is said in
 * a line.
 */
export async function readBaseline(path: string, io: Io): Promise<ReadonlySet<string>> {
  const text = await io.files.read(resolvePath(io.folder, path));
  if (text === null)
    throw new ReadError(`${path} could not be read; --baseline takes a report of an earlier check.`);
  let report: unknown;
  try {
    report = JSON.parse(text);
  } catch {
    report = null;
  }
  const known = fingerprintsIn(report);
  if (known === null)
    throw new ReadError(`${path} is no report that "kitproof check --format sarif" or json has written.`);
  return new Set(known);
}

/** The check without what was known before, and how many findings that were. */
export function withoutKnown(
  check: ProjectCheck,
  known: ReadonlySet<string>,
  folder: string,
): { readonly check: ProjectCheck; readonly before: number } {
  const prints = fingerprintsOf(check, check.findings, folder);
  const findings = check.findings.filter((_, index) => !known.has(prints[index]!));
  return { check: { ...check, findings }, before: check.findings.length - findings.length };
}

type Data = Readonly<Record<string, unknown>>;
const isData = (value: unknown): value is Data =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const listIn = (value: unknown, key: string): readonly Data[] | null => {
  const list = isData(value) ? value[key] : undefined;
  return Array.isArray(list) ? list.filter(isData) : null;
};

function fingerprintsIn(report: unknown): string[] | null {
  const runs = listIn(report, 'runs');
  const results =
    runs === null ? listIn(report, 'findings') : runs.flatMap((run) => listIn(run, 'results') ?? []);
  if (results === null) return null;
  return results.flatMap((one) => {
    const prints = isData(one.partialFingerprints) ? one.partialFingerprints[FINGERPRINT] : one.fingerprint;
    return typeof prints === 'string' ? [prints] : [];
  });
}
