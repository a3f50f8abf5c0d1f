import { type Ledger, traceGuide } from '../check/trace';
import type { BoundStep, Model } from '../model/model';
import type { Document } from './document';
import { drive } from './drive';
import { bindGuideOf } from './engine';
import type { Closure, Project } from './project';
import { variantsWith } from './variant';

export interface Trace extends Ledger {
  readonly title: string;
  /** Of the step that was asked for: whether the guide has it at all. One that is not done in these variants is not in `steps`. */
  readonly known: boolean;
  readonly model: Model;
  readonly closure: Closure;
}

/**
 * The ledger of a guide.
 * @param at id or number of the one step that is wanted; null for all.
 * @param variant traits and options that are fixed, name to value; the ledger then speaks of those variants alone.
 */
export async function traceOfGuide(
  project: Project,
  guide: Document,
  variant: ReadonlyMap<string, string>,
  at: string | null = null,
): Promise<Trace> {
  const closure = await project.closureOf(guide);
  const model = bindGuideOf(closure);
  const within = variantsWith(model, variant);
  const wanted = (step: BoundStep) => at === null || step.path === at || step.id === at;
  const ledger = (await drive(traceGuide(model, closure.rulebook, within, wanted)))!;
  return { title: model.title, ...ledger, known: model.steps.some(wanted), model, closure };
}
