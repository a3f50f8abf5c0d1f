/** What a seeded fault is, and how the kinds of fault see a guide. */

import type { Document } from 'yaml';
import type { Fact, Facts } from '../oracle/harm/facts';
import { readOperation } from '../oracle/operation';
import type { Random } from '../oracle/random';
import { isMap, list, type Raw, text } from '../oracle/raw';

export type Path = readonly (string | number)[];

/** One change that a writer could make by mistake. */
export interface Fault {
  /** Where, as a writer says it: the step's id, or its number. */
  readonly where: string;
  /** What was done to it. */
  readonly says: string;
  readonly change: (document: Document) => void;
}

/** All places of a guide where a fault of one kind can be, with its details drawn. */
export interface FaultKind {
  readonly name: string;
  readonly faults: (guide: GuideView, random: Random) => readonly Fault[];
}

export interface StepView {
  readonly path: Path;
  readonly where: string;
  readonly raw: Raw;
  readonly section: number;
}

export interface OperationView {
  readonly path: Path;
  readonly step: StepView;
  readonly verb: string;
  readonly targets: readonly string[];
  readonly raw: Raw;
  /** Whether its step has no other. */
  readonly alone: boolean;
}

/** A guide, with what its vehicle and kits say of the names in it. */
export interface GuideView {
  readonly raw: Raw;
  readonly facts: Facts;
  readonly steps: readonly StepView[];
  readonly operations: readonly OperationView[];
}

/** Takes a guide's tree apart. */
export function viewGuide(raw: Raw, facts: Facts): GuideView {
  const steps: StepView[] = [];
  const operations: OperationView[] = [];
  for (const [section, one] of list(raw.sections).entries())
    for (const [index, step] of list(isMap(one) ? one.steps : []).entries()) {
      if (!isMap(step)) continue;
      const path = ['sections', section, 'steps', index];
      const view = { path, where: text(step.id) ?? `${section + 1}.${index + 1}`, raw: step, section };
      steps.push(view);
      const all = list(step.do);
      for (const [at, operation] of all.entries()) {
        const read = readOperation(operation);
        if (read === undefined) continue;
        const own = { path: [...path, 'do', at], step: view, alone: all.length === 1 };
        operations.push({ ...own, ...read });
      }
    }
  return { raw, facts, steps, operations };
}

/** The fact behind a target's first name. */
export function factOf(guide: GuideView, target: string): Fact | undefined {
  return guide.facts.things.get(target.split('.')[0] ?? '');
}

/** Leaves an operation out; a step that has no other goes with it. */
export function leaveOut(operation: OperationView): (document: Document) => void {
  return (document) => {
    document.deleteIn(operation.alone ? operation.step.path : operation.path);
  };
}

/** Leaves every operation out that `picks` picks. */
export function leavingOut(guide: GuideView, picks: (operation: OperationView) => boolean): readonly Fault[] {
  return guide.operations.filter(picks).map((operation) => ({
    where: operation.step.where,
    says: `without ${inWords(operation)}`,
    change: leaveOut(operation),
  }));
}

/** An operation as it is written, without its qualifiers. */
export const inWords = ({ verb, targets }: Pick<OperationView, 'verb' | 'targets'>): string =>
  `${verb}${targets.length > 0 ? `: ${targets.join(', ')}` : ''}`;
