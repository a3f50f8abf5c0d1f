import fc from 'fast-check';
import { type Diagram, Diagrams } from '../../server/src/variants/diagram';

/** A function over all assignments, written out: the oracle that knows nothing of diagrams. */
export interface Table {
  readonly arities: readonly number[];
  readonly values: readonly number[];
}

export function allAssignments(arities: readonly number[]): number[][] {
  return arities.reduce<number[][]>(
    (lists, arity) => lists.flatMap((list) => Array.from({ length: arity }, (_, value) => [...list, value])),
    [[]],
  );
}

/** Builds a table's diagram from the operations alone: one `ite` per assignment. */
export function diagramOf(diagrams: Diagrams, table: Table): Diagram {
  let f: Diagram = table.values[0]!;
  allAssignments(table.arities).forEach((assignment, row) => {
    let here: Diagram = 1;
    assignment.forEach((value, variable) => {
      here = diagrams.and(here, diagrams.literal(variable, [value]));
    });
    f = diagrams.ite(here, table.values[row]!, f);
  });
  return f;
}

/** A table read back by evaluation. */
export function readBack(diagrams: Diagrams, f: Diagram): number[] {
  return allAssignments(diagrams.arities).map((assignment) => diagrams.evaluate(f, assignment));
}

export const someArities = fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 1, maxLength: 4 });

export const product = (arities: readonly number[]): number => arities.reduce((a, b) => a * b, 1);

/** `count` tables over the same variables, with terminals from 0 to `top`. */
export function tables(count: number, top: number): fc.Arbitrary<Table[]> {
  return someArities.chain((arities) =>
    fc
      .array(
        fc.array(fc.integer({ min: 0, max: top }), {
          minLength: product(arities),
          maxLength: product(arities),
        }),
        { minLength: count, maxLength: count },
      )
      .map((lists) => lists.map((values) => ({ arities, values }))),
  );
}

export const manager = (table: Table): Diagrams => new Diagrams(table.arities);
