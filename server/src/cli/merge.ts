import { createHash } from 'node:crypto';
import type { WaivedFinding } from '../check/waivers';
import type { Finding } from '../findings/finding';
import {
  compareWaived,
  Findings,
  type ProjectCheck,
  type UncheckedIn,
  type UndecidedIn,
} from '../workspace/check';
import type { Document } from '../workspace/document';
import { relativePath, resolvePath } from '../workspace/paths';
import type { Project } from '../workspace/project';
import { type Io, ReadError } from './io';
import type { Shard } from './shard';

/** What was asked of the check that a shard is a share of; the same for all shards of one check. */
export interface Whole {
  /** Stands for all the names that are shared out. */
  readonly list: string;
  /** How many these are. */
  readonly files: number;
  readonly since: Since | null;
}

export interface Since {
  readonly revision: string;
  /** Of how many files those are that changed, or read what did. */
  readonly of: number;
}

/** What a shard's report carries for `--merge`, beside what is for people's programs: the check whole, names as paths from the folder. */
interface ShardRecord extends Shard {
  /** Of the program; another may mean other things by this. */
  readonly program: string;
  readonly whole: Whole;
  readonly before: number | null;
  readonly unread: boolean;
  /** The documents that were read, each with what tells another text from it, and whether this shard judged it. */
  readonly documents: Readonly<Record<string, { readonly text: string; readonly judged: boolean }>>;
  readonly files: number;
  readonly guides: number;
  readonly steps: number;
  readonly checkedSteps: number;
  readonly findings: readonly Finding[];
  readonly waived: readonly WaivedFinding[];
  readonly unchecked: readonly UncheckedIn[];
  readonly undecided: readonly UndecidedIn[];
}

/** Of a run, beside its check, what all its shards must know. */
export interface Sharded {
  readonly shard: Shard;
  readonly whole: Whole;
  readonly unread: boolean;
}

export const digestOf = (text: string): string =>
  createHash('sha256').update(text).digest('hex').slice(0, 16);

/** A shard's check as `--merge` reads it. */
export function recordOf(
  check: ProjectCheck,
  { shard, whole, unread }: Sharded,
  { folder, version, before }: { folder: string; version: string; before: number | null },
): ShardRecord {
  const documents = [...check.documents.values()].sort((a, b) => (a.uri < b.uri ? -1 : 1));
  const { steps, checkedSteps, unchecked, undecided } = check.coverage;
  const record: ShardRecord = {
    ...shard,
    program: version,
    whole,
    before,
    unread,
    documents: Object.fromEntries(
      documents.map(({ uri, text }) => [
        relativePath(folder, uri),
        { text: digestOf(text), judged: check.judged.has(uri) },
      ]),
    ),
    files: check.files,
    guides: check.guides,
    steps,
    checkedSteps,
    findings: check.findings,
    waived: check.waived,
    unchecked,
    undecided,
  };
  return renamed(record, (name) => relativePath(folder, name));
}

export interface Merged {
  readonly check: ProjectCheck;
  readonly since: Since | null;
  readonly before: number | null;
  /** Whether a shard was asked for what it could not read. */
  readonly unread: boolean;
}

/**
 * The check that the reports of all its shards are of. The documents are read anew, so that every form of report can be made; where
 * one is another than the one that was checked, or a shard is missing, that is said in a line.
 */
export async function mergeReports(
  paths: readonly string[],
  project: Project,
  io: Io,
  version: string,
): Promise<Merged> {
  const records: ShardRecord[] = [];
  for (const path of await reportsAt(paths, io)) records.push(await recordAt(path, io, version));
  const { whole } = allOf(records, paths);
  const documents = new Map<string, Document>();
  const judged = new Set<string>();
  const found = new Findings();
  const waived: WaivedFinding[] = [];
  const unchecked: UncheckedIn[] = [];
  const undecided: UndecidedIn[] = [];
  for (const written of records) {
    for (const [path, { text, judged: own }] of Object.entries(written.documents)) {
      const name = resolvePath(io.folder, path);
      const document = await project.open(name);
      if (document === null || digestOf(document.text) !== text)
        throw new ReadError(
          `${path} is not here as it was checked; merge in the same folder of the same revision.`,
        );
      documents.set(name, document);
      if (own) judged.add(name);
    }
    const record = renamed(written, (path) => resolvePath(io.folder, path));
    for (const finding of record.findings) found.add(finding);
    waived.push(...record.waived);
    unchecked.push(...record.unchecked);
    undecided.push(...record.undecided);
  }
  const sum = (key: 'files' | 'guides' | 'steps' | 'checkedSteps') =>
    records.reduce((all, record) => all + record[key], 0);
  const byGuide = (a: { guide: string }, b: { guide: string }) =>
    a.guide < b.guide ? -1 : Number(a.guide > b.guide);
  const known = records.flatMap(({ before }) => before ?? []);
  return {
    check: {
      findings: found.sorted(),
      waived: waived.sort(compareWaived),
      documents,
      judged,
      files: sum('files'),
      guides: sum('guides'),
      coverage: {
        steps: sum('steps'),
        checkedSteps: sum('checkedSteps'),
        unchecked: unchecked.sort(byGuide),
        undecided: undecided.sort(byGuide),
        waived: waived.length,
      },
    },
    since: whole.since,
    before: known.length === 0 ? null : known.reduce((all, one) => all + one, 0),
    unread: records.some(({ unread }) => unread),
  };
}

/** Files, and what patterns match that a shell did not write out. */
async function reportsAt(paths: readonly string[], io: Io): Promise<string[]> {
  const names = new Set<string>();
  for (const path of paths) {
    const name = resolvePath(io.folder, path);
    const found = (await io.files.kind(name)) === null ? await io.glob([path]) : [name];
    if (found.length === 0) throw new ReadError(`Cannot read ${path}: there is no such file.`);
    for (const one of found) names.add(one);
  }
  return [...names];
}

async function recordAt(name: string, io: Io, version: string): Promise<ShardRecord> {
  const path = relativePath(io.folder, name);
  const text = await io.files.read(name);
  let report: { shard?: Partial<ShardRecord> } | null = null;
  try {
    report = text === null ? null : JSON.parse(text);
  } catch {}
  const record = report?.shard;
  if (record?.number === undefined || record.documents === undefined || record.whole === undefined)
    throw new ReadError(`${path} is no report that "kitproof check --shard 2/5 --format json" has written.`);
  if (record.program !== version)
    throw new ReadError(`${path} was written by Kitproof ${record.program}; this is ${version}.`);
  return record as ShardRecord;
}

/** The first of the records, once they are known to be all shards of one check. */
function allOf(records: readonly ShardRecord[], paths: readonly string[]): ShardRecord {
  const [first] = records;
  if (first === undefined) throw new ReadError(`There is no report in ${paths.join(', ')}.`);
  if (
    records.some(({ of, whole }) => of !== first.of || JSON.stringify(whole) !== JSON.stringify(first.whole))
  )
    throw new ReadError(
      'These reports are of different checks; all shards check the same files of one revision.',
    );
  const numbers = records.map(({ number }) => number);
  const twice = numbers.find((number, index) => numbers.indexOf(number) !== index);
  if (twice !== undefined) throw new ReadError(`There are two reports of shard ${twice} of ${first.of}.`);
  const missing = Array.from({ length: first.of }, (_, index) => index + 1).find(
    (one) => !numbers.includes(one),
  );
  if (missing !== undefined) throw new ReadError(`The report of shard ${missing} of ${first.of} is missing.`);
  return first;
}

/** Plain data with the name of every place and guide in it changed. */
function renamed<Data>(data: Data, rename: (name: string) => string): Data {
  if (Array.isArray(data)) return data.map((one) => renamed(one, rename)) as Data;
  if (typeof data !== 'object' || data === null) return data;
  return Object.fromEntries(
    Object.entries(data).map(([key, value]) => [
      key,
      (key === 'uri' || key === 'guide') && typeof value === 'string'
        ? rename(value)
        : renamed(value, rename),
    ]),
  ) as Data;
}
