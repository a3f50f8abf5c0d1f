import { cubesOf } from '../check/sentences';
import { listed } from '../findings/words';
import type { Model } from '../model/model';
import type { Diagram } from '../variants/diagram';

/**
 * The variants of a set as a reader meets them: `lockers: fitted`, `split bush found`, `after step 3.4`; null where they are
 * all that is printed.
 * @param own the id of the optional step that is spoken of: that it is done goes without saying.
 */
export function markOf(model: Model, set: Diagram, own: string | null = null): string | null {
  const { diagrams } = model.world;
  if (diagrams.implies(model.universe, set)) return null;
  const cubes = cubesOf(model, diagrams.and(set, model.universe)).map((cube) =>
    listed(
      Object.entries(cube)
        .filter(([name]) => name !== `done:${own}`)
        .map(([name, values]) => termInPrint(model, name, values)),
    ),
  );
  return cubes.length === 0 || cubes.includes('') ? null : [...new Set(cubes)].join('; or ');
}

function termInPrint({ steps }: Model, name: string, values: readonly string[]): string {
  const [branch, what] = [name.slice(0, name.indexOf(':')), name.slice(name.indexOf(':') + 1)];
  const yes = values[0] === 'yes';
  if (values.length === 1 && branch === 'found')
    return `${what.replaceAll('-', ' ')} ${yes ? '' : 'not '}found`;
  if (values.length === 1 && branch === 'done') {
    const step = steps.find(({ id }) => id === what)?.path ?? what;
    return `step ${step} ${yes ? '' : 'not '}done`;
  }
  return `${name.replaceAll('-', ' ')}: ${listed(values, 'or')}`;
}

/** Whether any of the printed variants is in a set. */
export const isPrinted = ({ world, universe }: Model, set: Diagram): boolean =>
  world.diagrams.intersects(set, universe);
