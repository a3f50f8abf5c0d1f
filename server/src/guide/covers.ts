import type { Model } from '../model/model';

/** What a guide covers: traits and options with their values; a range of which nothing is left out is `any`. */
export function coversOf({
  world,
  universe,
}: Model): { readonly name: string; readonly values: readonly string[] }[] {
  return world.variables.flatMap((variable, index) => {
    if (variable.kind !== 'trait' && variable.kind !== 'option') return [];
    const values = variable.values.filter(
      (_, value) => world.diagrams.and(universe, world.literalAt(index, [value])) !== 0,
    );
    const ranges = variable.numeric?.intervals.some(({ low, high }) => low !== high) === true;
    const any = ranges && values.length === variable.values.length;
    return [{ name: variable.name, values: any ? ['any'] : values }];
  });
}
