import { type Finding, plainFinding } from '../findings/finding';
import type { Document } from './document';
import { faultInWords } from './guard';
import type { Closure, Project } from './project';
import { differInProse, movedFindings } from './prose';

/** What is known of one document that is to be checked. */
export interface Unit {
  readonly name: string;
  readonly guide: boolean;
  /** The documents it leads to, with the closure each is judged with. */
  readonly judges: ReadonlyMap<string, { readonly document: Document; readonly closure: Closure }>;
  /** The document of settings that it stands under. */
  readonly settings: string | null;
  readonly closure: Closure;
  /** Findings of its own run, by document. */
  own: ReadonlyMap<string, readonly Finding[]>;
  /** The day that run was for; null where there was none, or one of another text. */
  ran: string | null;
}

/** What is to be known of a document, before it is run. */
export async function unitOf(project: Project, document: Document): Promise<Unit> {
  const closure = await project.closureOf(document);
  const judges = new Map<string, { document: Document; closure: Closure }>();
  for (const other of closure.documents.values()) {
    // Another guide is judged with its own vehicle and kit, not with those of this one.
    const own = other.kind === 'install' && other !== document ? await project.closureOf(other) : closure;
    judges.set(other.uri, { document: other, closure: own });
  }
  const guide = document.kind === 'install';
  const settings = closure.configuration.document;
  const beside = guide ? [...closure.housePacks, ...closure.times] : [];
  for (const other of [...(settings === null ? [] : [settings]), ...beside])
    if (!judges.has(other.uri)) judges.set(other.uri, { document: other, closure });
  return {
    name: document.uri,
    guide,
    judges,
    settings: settings?.uri ?? null,
    closure,
    own: new Map(),
    ran: null,
  };
}

/** What was found in a guide before, where nothing but its prose changed since; else null. */
export function takenOver(before: Unit, after: Unit): Finding[] | null {
  const [old, fresh] = [before.closure, after.closure];
  if (!othersAlike(old, fresh)) return null;
  if (!differInProse(old.opened(old.document), fresh.opened(fresh.document))) return null;
  return movedFindings([...before.own.values()].flat(), old.document, fresh.document);
}

/** Whether a check of two closures reads the same. */
export const readAlike = (old: Closure, fresh: Closure): boolean =>
  old.document === fresh.document && othersAlike(old, fresh);

/** Whether all is the same that a check reads beside the document itself. */
function othersAlike(old: Closure, fresh: Closure): boolean {
  return (
    old.configuration === fresh.configuration &&
    same(old.library.packs, fresh.library.packs) &&
    same(others(old), others(fresh)) &&
    same([...old.missing].flat(), [...fresh.missing].flat())
  );
}

/** The documents that a closure leads to, beside its own. */
const others = ({ document, documents, times }: Closure): Document[] =>
  [...documents.values(), ...times].filter((one) => one !== document);

/** A fault of ours, told where a document begins. */
export function internalFault(uri: string, error: unknown): Finding {
  const message = `Some of this could not be checked, by a fault of ours: ${faultInWords(error)}`;
  return plainFinding('internal-fault', { uri, span: { start: 0, end: 0 } }, message, {
    severity: 'warning',
  });
}

/** The documents that a unit may tell of. */
export function involved(unit: Unit): Set<string> {
  return new Set([unit.name, ...unit.judges.keys(), ...unit.own.keys()]);
}

export function byDocument(findings: readonly Finding[]): Map<string, Finding[]> {
  const found = new Map<string, Finding[]>();
  for (const finding of findings) {
    const list = found.get(finding.place.uri);
    if (list === undefined) found.set(finding.place.uri, [finding]);
    else list.push(finding);
  }
  return found;
}

export const same = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((one, index) => one === b[index]);
