/** Slips of the pen put right over a set of documents, each tried by checking all of them anew. */

import { outcomeOf } from '../check/repairs/outcome';
import { applyEdits, editsByDocument } from '../edit/apply';
import { differences } from '../edit/difference';
import type { Finding, Fix } from '../findings/finding';
import { type CheckOptions, checkDocuments, type ProjectCheck } from './check';
import { standardPacks } from './packs';
import { type Files, withOverlay } from './port';
import { Project } from './project';

/** A fix that was made, with where its finding stood in the text of that moment. */
export interface Made {
  readonly finding: Finding;
  readonly fix: Fix;
  readonly line: number;
  readonly column: number;
}

export interface SlipsMended {
  /** What was done, in order. */
  readonly made: readonly Made[];
  /** The new texts, by name: of what was asked for, no other document is changed. */
  readonly texts: ReadonlyMap<string, string>;
  /** The texts that these were made from. */
  readonly originals: ReadonlyMap<string, string>;
  /** What is found afterwards. */
  readonly check: ProjectCheck;
}

interface Candidate {
  readonly finding: Finding;
  readonly fix: Fix;
}

/** Rounds: what is put right may let more be read. */
const MOST_ROUNDS = 20;

/**
 * Makes the safe fixes of what is found in some documents, until none is left: those that do away with their finding and
 * bring none, over all these documents together, and change no other document.
 * @returns null where it was cancelled.
 */
export async function mendSlips(
  files: Files,
  names: readonly string[],
  options: CheckOptions,
): Promise<SlipsMended | null> {
  const may = new Set(names);
  const refused = new Set<string>();
  const made: Made[] = [];
  let texts: ReadonlyMap<string, string> = new Map();
  const checked = (over: ReadonlyMap<string, string>) =>
    checkDocuments(new Project(withOverlay(files, over), standardPacks()), names, options);
  let check = await checked(texts);
  const first = check;
  for (let round = 0; round < MOST_ROUNDS && check !== null; round++) {
    const candidates = candidatesOf(check, may).filter((one) => !refused.has(keyOf(one)));
    if (candidates.length === 0) break;
    // All at once, where that goes; else one by one.
    let groups: Candidate[][] = [candidates];
    let progress = false;
    for (let group = groups.shift(); group !== undefined; group = groups.shift()) {
      const tried = await attempt(check, texts, group, checked);
      if (tried === 'cancelled') return null;
      if (tried !== null) {
        for (const one of group) made.push(placed(check, one));
        ({ texts, check } = tried);
        progress = true;
        break;
      }
      if (group.length > 1) groups = group.map((one) => [one]);
      else refused.add(keyOf(group[0]!));
    }
    if (!progress) break;
  }
  if (check === null || first === null) return null;
  const originals = new Map([...texts.keys()].map((name) => [name, first.documents.get(name)?.text ?? '']));
  return { made, texts, originals, check };
}

/** The first safe fix of each finding that changes nothing but what it may, none over another. */
function candidatesOf({ findings }: ProjectCheck, may: ReadonlySet<string>): Candidate[] {
  const taken: { uri: string; start: number; end: number }[] = [];
  return findings.flatMap((finding): Candidate[] => {
    const fix = finding.fixes.find(
      ({ safe, edits }) => safe && edits.length > 0 && edits.every(({ place }) => may.has(place.uri)),
    );
    if (fix === undefined) return [];
    const spans = fix.edits.map(({ place }) => ({ uri: place.uri, ...place.span }));
    if (spans.some((one) => taken.some((other) => overlap(one, other)))) return [];
    taken.push(...spans);
    return [{ finding, fix }];
  });
}

async function attempt(
  before: ProjectCheck,
  texts: ReadonlyMap<string, string>,
  group: readonly Candidate[],
  checked: (texts: ReadonlyMap<string, string>) => Promise<ProjectCheck | null>,
): Promise<{ texts: ReadonlyMap<string, string>; check: ProjectCheck } | 'cancelled' | null> {
  const next = new Map(texts);
  for (const [uri, edits] of editsByDocument(group.flatMap(({ fix }) => fix.edits))) {
    const text = before.documents.get(uri)?.text;
    const made = text === undefined ? null : applyEdits(text, edits);
    // A character that could not be read would be written as another.
    if (made === null || made.includes('\uFFFD')) return null;
    next.set(uri, made);
  }
  const after = await checked(next);
  if (after === null) return 'cancelled';
  const textIn = (check: ProjectCheck) => (uri: string) => check.documents.get(uri)?.text ?? '';
  const told = (check: ProjectCheck) => ({ findings: check.findings, textOf: textIn(check) });
  const changes = new Map(
    [...next].map(([uri, text]) => [uri, differences(textIn(before)(uri), text)] as const),
  );
  const mends = group.every(({ finding }) => {
    const { gone, fresh } = outcomeOf(told(before), told(after), finding, changes);
    return gone && fresh.length === 0;
  });
  return mends ? { texts: next, check: after } : null;
}

function placed(check: ProjectCheck, { finding, fix }: Candidate): Made {
  const { uri, span } = finding.place;
  const { line, column } = check.documents.get(uri)?.lines.lineColumnAt(span.start) ?? { line: 1, column: 1 };
  return { finding, fix, line, column };
}

const overlap = (a: { uri: string; start: number; end: number }, b: typeof a): boolean =>
  a.uri === b.uri && a.start <= b.end && b.start <= a.end;

const keyOf = ({ finding: { rule, item, place }, fix }: Candidate): string =>
  [rule, item ?? '', place.uri, fix.title].join('\n');
