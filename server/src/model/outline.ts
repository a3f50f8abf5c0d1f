/** A guide as it is written: its sections, steps and operations, each with where it stands. Nothing is bound yet. */

import { Cursor, itemsAt, type OpenDocument, textAt } from './source';
import { VERBS } from './verbs';

export interface GuideOutline {
  readonly document: OpenDocument;
  readonly root: Cursor;
  readonly when: Cursor | null;
  readonly side: Cursor | null;
  readonly sections: readonly SectionOutline[];
  /** The first step with each id. */
  readonly byId: ReadonlyMap<string, StepOutline>;
  readonly doubleIds: readonly { readonly cursor: Cursor; readonly first: StepOutline }[];
}

export interface SectionOutline {
  readonly cursor: Cursor;
  /** From 1, as written. */
  readonly number: number;
  readonly title: string;
  readonly id: string | null;
  readonly when: Cursor | null;
  readonly side: Cursor | null;
  readonly steps: readonly StepOutline[];
}

export interface StepOutline {
  readonly cursor: Cursor;
  /** `section.step`. */
  readonly path: string;
  readonly id: string | null;
  readonly when: Cursor | null;
  readonly side: Cursor | null;
  readonly optional: boolean;
  readonly section: SectionOutline;
  readonly operations: readonly OperationOutline[];
}

export interface OperationOutline {
  readonly cursor: Cursor;
  /** `section.step.operation`. */
  readonly path: string;
  readonly verb: string;
  /** What stands under the verb. */
  readonly target: Cursor;
  readonly when: Cursor | null;
  readonly side: Cursor | null;
}

/** Reads a guide's steps. What is no section, step or operation was reported by the schema and is left out. */
export function outlineOf(document: OpenDocument): GuideOutline {
  const root = Cursor.of(document);
  const byId = new Map<string, StepOutline>();
  const doubleIds: { cursor: Cursor; first: StepOutline }[] = [];
  const sections = itemsAt(root, 'sections').flatMap((cursor): SectionOutline[] => {
    if (!cursor.isMap) return [];
    const steps: StepOutline[] = [];
    const number = cursor.writtenIndex + 1;
    const title = textAt(cursor, 'title') ?? '';
    const [id, when, side] = [textAt(cursor, 'id'), cursor.get('when'), cursor.get('side')];
    const section: SectionOutline = { cursor, number, title, id, when, side, steps };
    for (const item of itemsAt(cursor, 'steps')) {
      if (!item.isMap) continue;
      const step = stepOutline(item, section);
      steps.push(step);
      if (step.id === null) continue;
      const first = byId.get(step.id);
      if (first === undefined) byId.set(step.id, step);
      else doubleIds.push({ cursor: item.get('id')!, first });
    }
    return [section];
  });
  return { document, root, when: root.get('when'), side: root.get('side'), sections, byId, doubleIds };
}

function stepOutline(cursor: Cursor, section: SectionOutline): StepOutline {
  const path = `${section.number}.${cursor.writtenIndex + 1}`;
  return {
    cursor,
    path,
    id: textAt(cursor, 'id'),
    when: cursor.get('when'),
    side: cursor.get('side'),
    optional: cursor.get('optional')?.value === true,
    section,
    operations: operationOutlines(cursor.get('do'), path),
  };
}

/** The operations of a list, numbered as written. */
export function operationOutlines(list: Cursor | null, path: string): OperationOutline[] {
  return (list?.items() ?? []).flatMap((cursor) => {
    const pair = cursor.entries().find(([key]) => VERBS.has(key));
    if (pair === undefined) return [];
    return [
      {
        cursor,
        path: `${path}.${cursor.writtenIndex + 1}`,
        verb: pair[0],
        target: pair[1],
        when: cursor.get('when'),
        side: cursor.get('side'),
      },
    ];
  });
}

/** The section that a `use` names: by its id, else by its title; null where there is none. */
export function sectionNamed(guide: GuideOutline, name: string): SectionOutline | null {
  return (
    guide.sections.find((section) => section.id === name) ??
    guide.sections.find((section) => section.title === name) ??
    null
  );
}
