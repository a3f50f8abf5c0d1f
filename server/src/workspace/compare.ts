import { traceGuide } from '../check/trace';
import type { Place } from '../findings/finding';
import { counted } from '../findings/words';
import { type Comparison, compareVersions } from '../review/compare';
import type { ComparedGuide, LoneGuide, Spot } from '../review/report';
import type { Version } from '../review/version';
import { checkedGuide } from './checked-guide';
import type { Document } from './document';
import { drive, type Wanted } from './drive';
import { labourOfModel, standardTimesOf } from './labour';
import { relativePath } from './paths';
import type { Closure, Project } from './project';

/** A guide of one version with all that a comparison reads of it. */
export interface VersionAt extends Version {
  readonly document: Document;
  readonly closure: Closure;
}

/**
 * Reads, checks and totals a guide.
 * @param today the day that waivers are held against; the same for both versions.
 * @returns null where it was cancelled.
 */
export async function versionAt(
  project: Project,
  document: Document,
  today: string,
  wanted?: Wanted,
): Promise<VersionAt | null> {
  const closure = await project.closureOf(document);
  const checked = await drive(checkedGuide(closure, today), wanted);
  if (checked === null) return null;
  const { check, findings } = checked;
  const { model } = check.simulation;
  const last = [...model.steps]
    .reverse()
    .find(({ guard }) => model.world.diagrams.intersects(guard, model.universe));
  const ledger = await drive(
    traceGuide(model, closure.rulebook, model.universe, ({ path }) => path === last?.path),
    wanted,
  );
  if (ledger === null) return null;
  return {
    document,
    closure,
    model,
    opened: (uri) => {
      const found = closure.documents.get(uri);
      return found === undefined ? null : closure.opened(found);
    },
    findings,
    waived: check.waived,
    coverage: check.coverage,
    open: ledger.steps.at(-1)?.open ?? [],
    labour: labourOfModel(closure, model, standardTimesOf(closure)),
    hourStep: closure.configuration.hourStep,
  };
}

/** Compares two versions, with places as they are seen from a folder. */
export function comparedGuide(before: VersionAt, after: VersionAt, folder: string): ComparedGuide {
  const { title, changes, effects, untouched }: Comparison = compareVersions(before, after);
  return {
    title,
    before: relativePath(folder, before.document.uri),
    after: relativePath(folder, after.document.uri),
    changes: changes.map((change) => ({
      ...change,
      before: change.before === null ? null : spotOf(before, change.before, folder),
      after: change.after === null ? null : spotOf(after, change.after, folder),
    })),
    effects,
    untouched,
    notes: [...unread(before, 'old'), ...unread(after, 'new')],
  };
}

/** A guide that only one version has. */
export function loneGuide({ document, model, coverage, findings }: VersionAt, folder: string): LoneGuide {
  const count = (wanted: string) => findings.filter(({ severity }) => severity === wanted).length;
  return {
    title: model.title,
    file: relativePath(folder, document.uri),
    steps: coverage.steps,
    errors: count('error'),
    warnings: count('warning'),
  };
}

function spotOf({ closure }: VersionAt, { uri, span }: Place, folder: string): Spot {
  const documents = [...closure.documents.values(), ...closure.times, ...closure.housePacks];
  const lines = documents.find((document) => document.uri === uri)?.lines;
  return { file: relativePath(folder, uri), line: (lines?.positionAt(span.start).line ?? 0) + 1 };
}

/** What could not be read in a version is not compared, and that is said. */
function unread({ closure, opened }: VersionAt, which: 'old' | 'new'): string[] {
  const notes: string[] = [];
  for (const { uri } of closure.documents.values()) {
    const errors = opened(uri)?.findings.filter(({ severity }) => severity === 'error').length ?? 0;
    if (errors === 0) continue;
    const name = uri.slice(uri.lastIndexOf('/') + 1);
    notes.push(
      `${counted(errors, 'error')} in reading the ${which} ${name}: what could not be read there is not compared.`,
    );
  }
  for (const uri of closure.missing.keys())
    notes.push(`The ${which} version names ${uri.slice(uri.lastIndexOf('/') + 1)}, which is not there.`);
  return notes;
}
