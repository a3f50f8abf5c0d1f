import type { Model } from '../model/model';
import type { Diagram } from '../variants/diagram';

/** One trait or option that is not the same in all variants of a guide, and the values it may have there. */
export interface Choice {
  readonly name: string;
  readonly values: readonly string[];
}

/** What a reader may choose, in the order of the declarations. */
export function choicesOf({ world, universe }: Model): Choice[] {
  return world.variables.flatMap(({ kind, name, values }, index) => {
    if (kind !== 'trait' && kind !== 'option') return [];
    const there = values.filter(
      (_, value) => world.diagrams.and(universe, world.literalAt(index, [value])) !== 0,
    );
    return there.length > 1 ? [{ name, values: there }] : [];
  });
}

/** A trait, option or value that the guide does not know. */
export class VariantUnknown extends Error {}

/** The variants that have what was asked for; `VariantUnknown` where the guide has no such thing, or none that has all of it. */
export function variantsWith({ world, universe }: Model, variant: ReadonlyMap<string, string>): Diagram {
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

/** A guide for fewer variants is the same guide: what is said of it is said of these. */
export function ofVariants(model: Model, within: Diagram): Model {
  if (within === model.universe) return model;
  const { diagrams } = model.world;
  return {
    ...model,
    universe: within,
    steps: model.steps.filter(({ guard }) => diagrams.intersects(guard, within)),
  };
}

/**
 * The variants that have what was chosen. A choice that the guide does not know, or that with those before it leaves no
 * variant, is left out: a document changes while its reader's choice stays.
 */
export function chosenVariants(
  { world, universe }: Model,
  chosen: Readonly<Record<string, string>>,
): { readonly within: Diagram; readonly taken: Readonly<Record<string, string>> } {
  let within = universe;
  const taken: Record<string, string> = {};
  for (const [name, value] of Object.entries(chosen)) {
    const index = world.indexOf(name);
    const at = index === undefined ? -1 : (world.variables[index]?.values.indexOf(value) ?? -1);
    if (index === undefined || at < 0) continue;
    const left = world.diagrams.and(within, world.literalAt(index, [at]));
    if (left === 0) continue;
    within = left;
    taken[name] = value;
  }
  return { within, taken };
}
