import type { ComparedGuide, LoneGuide } from '../review/report';
import { find } from '../text/access';
import { comparedGuide, loneGuide, type VersionAt, versionAt } from './compare';
import type { Document } from './document';
import { relativePath } from './paths';
import { matchesPattern } from './patterns';
import type { Files } from './port';
import type { Closure, Project } from './project';
import { filesBelow, isIgnored } from './scan';

/** One of two states of the same folders. */
export interface Side {
  readonly files: Files;
  readonly project: Project;
}

export interface ComparedSides {
  readonly guides: readonly ComparedGuide[];
  readonly added: readonly LoneGuide[];
  readonly removed: readonly LoneGuide[];
  /** Guides that read, with all they lead to, the same to the letter, or mean the same. */
  readonly unchanged: number;
}

export interface CompareOptions {
  /** The folder that places are seen from. */
  readonly folder: string;
  /** The day that waivers are held against. */
  readonly today: string;
  /** Told before each guide is compared. */
  readonly progress?: (done: number, all: number, name: string) => void;
}

/** A guide as either side has it; null where one does not. */
interface Wanted {
  readonly before: Document | null;
  readonly after: Document | null;
}

/**
 * Compares the guides of two states of a repository that changed, or whose vehicle, kit, times, rules or settings did.
 * @param asked files, folders and patterns by name; a kit or a vehicle stands for the guides that use it.
 * @returns the comparison, or the name of what was asked for and neither side has.
 */
export async function compareSides(
  before: Side,
  after: Side,
  asked: readonly string[],
  options: CompareOptions,
): Promise<ComparedSides | { readonly missing: string }> {
  const [old, now] = [new Map<string, Document>(), new Map<string, Document>()];
  for (const one of asked) {
    const found =
      (await addGuides(old, before, one, options.folder)) +
      (await addGuides(now, after, one, options.folder));
    if (found === 0) return { missing: one };
  }
  const guides: ComparedGuide[] = [];
  const added: LoneGuide[] = [];
  const removed: LoneGuide[] = [];
  let unchanged = 0;
  const wanted = paired(old, now);
  const read = async (side: Side, document: Document): Promise<VersionAt> =>
    (await versionAt(side.project, document, options.today))!;
  for (const [index, { before: was, after: is }] of wanted.entries()) {
    options.progress?.(index, wanted.length, (is ?? was)!.uri);
    if (was === null) added.push(loneGuide(await read(after, is!), options.folder));
    else if (is === null) removed.push(loneGuide(await read(before, was), options.folder));
    else if (sameText(await before.project.closureOf(was), await after.project.closureOf(is))) unchanged++;
    else {
      const compared = comparedGuide(await read(before, was), await read(after, is), options.folder);
      if (compared.changes.length === 0 && compared.notes.length === 0) unchanged++;
      else guides.push(compared);
    }
  }
  return { guides, added, removed, unchanged };
}

/** Adds the guides that a path means on one side; how many things were found for it at all. */
async function addGuides(
  guides: Map<string, Document>,
  side: Side,
  asked: string,
  folder: string,
): Promise<number> {
  const kind = await side.files.kind(asked);
  if (kind === 'file') {
    const document = await side.project.open(asked);
    if (document?.kind === 'install') guides.set(asked, document);
    else
      for (const guide of await guidesBelow(side, folder))
        if (readNames(await side.project.closureOf(guide)).has(asked)) guides.set(guide.uri, guide);
    return 1;
  }
  if (kind === 'folder') {
    for (const guide of await guidesBelow(side, asked)) guides.set(guide.uri, guide);
    return 1;
  }
  const matching = (await guidesBelow(side, folder)).filter(({ uri }) =>
    matchesPattern(relativePath(folder, asked), relativePath(folder, uri)),
  );
  for (const guide of matching) guides.set(guide.uri, guide);
  return matching.length;
}

async function guidesBelow({ files, project }: Side, folder: string): Promise<Document[]> {
  const found: Document[] = [];
  for (const name of await filesBelow(files, folder)) {
    const document = await project.open(name);
    if (document?.kind === 'install' && !isIgnored(await project.configurationOf(name), name))
      found.push(document);
  }
  return found;
}

/** By name; a guide that went and one that came with the same id, or under the same title, are one that was renamed. */
function paired(old: ReadonlyMap<string, Document>, now: ReadonlyMap<string, Document>): Wanted[] {
  const came = [...now.values()].filter(({ uri }) => !old.has(uri));
  const wanted: Wanted[] = [];
  const taken = new Set<Document>();
  for (const before of old.values()) {
    const same = now.get(before.uri);
    const after =
      same ??
      ['id', 'title']
        .map((key) =>
          came.find(
            (one) => !taken.has(one) && said(one, key) !== null && said(one, key) === said(before, key),
          ),
        )
        .find((one) => one !== undefined) ??
      null;
    if (after !== null) taken.add(after);
    wanted.push({ before, after });
  }
  for (const after of came) if (!taken.has(after)) wanted.push({ before: null, after });
  const nameOf = ({ before, after }: Wanted) => (after ?? before)!.uri;
  return wanted.sort((a, b) => (nameOf(a) < nameOf(b) ? -1 : 1));
}

function said({ reading }: Document, key: string): string | null {
  const value = reading.root === null ? undefined : find(reading.root, key, reading)?.value.value;
  return value === undefined || value === null || value === '' ? null : String(value);
}

/** Everything that the check of a guide reads. */
function documentsOf({ documents, configuration, housePacks, times }: Closure): Document[] {
  const settings = configuration.document === null ? [] : [configuration.document];
  return [...documents.values(), ...settings, ...housePacks, ...times];
}

const readNames = (closure: Closure): ReadonlySet<string> =>
  new Set(documentsOf(closure).map(({ uri }) => uri));

/** Whether a guide reads the same on both sides with all that it leads to. */
function sameText(before: Closure, after: Closure): boolean {
  const key = (closure: Closure) =>
    [
      closure.document.uri,
      ...documentsOf(closure)
        .map(({ uri, text }) => `${uri}\n${text}`)
        .sort(),
      ...[...closure.missing.keys()].sort(),
    ].join('\0');
  return key(before) === key(after);
}
