import { type Ledger, traceGuide } from '../check/trace';
import type { BoundStep, Model } from '../model/model';
import type { Diagram } from '../variants/diagram';
import type { World } from '../variants/world';
import type { Document } from './document';
import { drive } from './drive';
import { bindGuideOf } from './engine';
import type { Closure, Project } from './project';

export interface Trace extends Ledger {
  readonly title: string;
  /** Of the step that was asked for: whether the guide has it at all. One that is not done in these variants is not in `steps`. */
  readonly known: boolean;
  readonly model: Model;
  readonly closure: Closure;
}

/** A trait, option or value that the guide does not know. */
export class VariantUnknown extends Error {}

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
  const within = withinOf(model.world, model.universe, variant);
  const wanted = (step: BoundStep) => at === null || step.path === at || step.id === at;
  const ledger = (await drive(traceGuide(model, closure.rulebook, within, wanted)))!;
  return { title: model.title, ...ledger, known: model.steps.some(wanted), model, closure };
}

function withinOf(world: World, universe: Diagram, variant: ReadonlyMap<string, string>): Diagram {
  let within = universe;
  for (const [name, value] of variant) {
    const index = world.indexOf(name);
    const variable = index === undefined ? undefined : world.variables[index];
    if (variable === undefined) {
      const names = world.variables.map((one) => one.name);
      throw new VariantUnknown(
        names.length === 0
          ? `The guide has no variants, so "${name}" fixes nothing.`
          : `The guide has no "${name}"; it has ${names.join(', ')}.`,
      );
    }
    const set = world.literal(name, [value]);
    if (set === undefined) {
      throw new VariantUnknown(`"${name}" is never "${value}"; it is ${variable.values.join(', ')}.`);
    }
    within = world.diagrams.and(within, set);
  }
  if (within === 0) throw new VariantUnknown('The guide does not cover that variant.');
  return within;
}
