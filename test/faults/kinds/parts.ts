/** The wrong part: another one of the box, or the old one again. */
import type { Document } from 'yaml';
import { text } from '../../oracle/raw';
import { type Fault, type FaultKind, factOf, type GuideView, inWords, type OperationView } from '../fault';

export const replacePart: FaultKind = {
  name: 'replace a kit part',
  faults: (guide, random) => {
    const kit = [...guide.facts.things.values()].filter((fact) => fact.kit);
    return guide.operations.flatMap((operation) => {
      const fact = kit.find(({ name }) => operation.targets.some((target) => target.split('.')[0] === name));
      if (fact === undefined) return [];
      const others = kit.filter((one) => one !== fact && one.line === fact.line);
      const alike = others.filter((one) => one.kinds[0] === fact.kinds[0]);
      if (others.length === 0) return [];
      const other = random.one(alike.length > 0 && random.chance(0.7) ? alike : others);
      return [exchanged(operation, fact.name, other.name)];
    });
  },
};

export const undoNew: FaultKind = {
  name: 'undo a new',
  faults: (guide) => [
    ...guide.operations.flatMap((operation) => {
      if (operation.raw.new === undefined) return [];
      const says = `${inWords(operation)} without new: ${JSON.stringify(operation.raw.new)}`;
      const change = (document: Document) => {
        document.deleteIn([...operation.path, 'new']);
      };
      return [{ where: operation.step.where, says, change }];
    }),
    ...renewals(guide),
    ...oldAgain(guide),
  ],
};

const renewals = (guide: GuideView): Fault[] =>
  guide.operations
    .filter(({ verb }) => verb === 'renew')
    .map((operation) => ({
      where: operation.step.where,
      says: `without ${inWords(operation)}`,
      change: (document: Document) => {
        document.deleteIn(operation.alone ? operation.step.path : operation.path);
      },
    }));

/** The old part goes back where the new one should go. */
const oldAgain = (guide: GuideView): Fault[] =>
  guide.operations.flatMap((operation) => {
    if (operation.verb !== 'fit' && operation.verb !== 'bolt-up') return [];
    const target = operation.targets[0] ?? '';
    const old = factOf(guide, target)?.replaces[0];
    return old === undefined ? [] : [exchanged(operation, target, old)];
  });

/** An operation that names another thing. */
function exchanged(operation: OperationView, name: string, other: string): Fault {
  const renamed = (target: string) => {
    const [first, ...rest] = target.split('.');
    return [first === name ? other : first, ...rest].join('.');
  };
  const key = operation.verb === 'apply' ? 'to' : operation.verb;
  const one = text(operation.raw[key]) !== undefined;
  const targets = operation.targets.map(renamed);
  return {
    where: operation.step.where,
    says: `${inWords(operation)} becomes ${inWords({ ...operation, targets })}`,
    change: (document) => document.setIn([...operation.path, key], one ? targets[0] : targets),
  };
}
