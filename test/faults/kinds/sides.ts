/** Left and right: a side that was forgotten, and a side that was taken for the other. */
import type { Document } from 'yaml';
import { type FaultKind, factOf, type GuideView, inWords, type OperationView } from '../fault';

const OTHER: Readonly<Record<string, string>> = { left: 'right', right: 'left' };

/** Operations on sided things that are done on both sides. */
const onBothSides = (guide: GuideView): OperationView[] =>
  guide.operations.filter(
    (operation) =>
      operation.raw.side === undefined &&
      operation.step.raw.side === undefined &&
      operation.targets.some((target) => factOf(guide, target)?.body.sided === true),
  );

export const dropSide: FaultKind = {
  name: 'drop a side',
  faults: (guide, random) =>
    onBothSides(guide).map((operation) => {
      const side = random.one(['left', 'right']);
      return {
        where: operation.step.where,
        says: `${inWords(operation)} on the ${side} alone`,
        change: (document: Document) => document.setIn([...operation.path, 'side'], side),
      };
    }),
};

export const swapSides: FaultKind = {
  name: 'swap left and right',
  faults: (guide, random) => {
    const written = guide.operations.flatMap((operation) =>
      ['side', 'article'].flatMap((key) => {
        const other = OTHER[String(operation.raw[key])];
        if (other === undefined) return [];
        const change = (document: Document) => document.setIn([...operation.path, key], other);
        return [{ where: operation.step.where, says: `${inWords(operation)} with ${key}: ${other}`, change }];
      }),
    );
    // Each side written out, as many writers do, and one of the two copied without changing its side.
    const copied = onBothSides(guide).map((operation) => {
      const side = random.one(['left', 'right']);
      const says = `${inWords(operation)} on the ${side} twice`;
      return { where: operation.step.where, says, change: twice(operation, { side }, { side }) };
    });
    const handed = onBothSides(guide)
      .filter(
        ({ verb, targets }) =>
          (verb === 'fit' || verb === 'bolt-up') &&
          targets.some((target) => factOf(guide, target)?.body.pair === 'handed'),
      )
      .map((operation) => ({
        where: operation.step.where,
        says: `${inWords(operation)} with left and right exchanged`,
        change: twice(operation, { side: 'left', article: 'right' }, { side: 'right', article: 'left' }),
      }));
    return [...written, ...handed, ...copied];
  },
};

/** An operation written twice, each time with something of its own. */
function twice(operation: OperationView, first: object, second: object): (document: Document) => void {
  return (document) => {
    const at = Number(operation.path.at(-1));
    const operations = document.getIn(operation.path.slice(0, -1)) as { items: unknown[] };
    const made = [first, second].map((more) => document.createNode({ ...operation.raw, ...more }));
    operations.items.splice(at, 1, ...made);
  };
}
