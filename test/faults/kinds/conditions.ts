/** A condition that was forgotten: the whole of it, or one of its keys or bounds. */
import type { Document } from 'yaml';
import { isMap, list } from '../../oracle/raw';
import type { Fault, FaultKind, Path } from '../fault';

interface Condition {
  readonly path: Path;
  readonly where: string;
  readonly value: unknown;
}

export const dropCondition: FaultKind = {
  name: 'drop a condition',
  faults: (guide) => {
    const conditions: Condition[] = [];
    for (const [at, section] of list(guide.raw.sections).entries())
      if (isMap(section) && section.when !== undefined)
        conditions.push({ path: ['sections', at], where: `section ${at + 1}`, value: section.when });
    for (const { path, where, raw } of guide.steps)
      if (raw.when !== undefined) conditions.push({ path, where, value: raw.when });
    for (const { path, step, raw } of guide.operations) {
      if (raw.when !== undefined) conditions.push({ path, where: step.where, value: raw.when });
      for (const [at, one] of list(raw.to).entries())
        if (isMap(one) && one.when !== undefined)
          conditions.push({ path: [...path, 'to', at], where: step.where, value: one.when });
    }
    return conditions.flatMap(whole);
  },
};

function whole({ path, where, value }: Condition): Fault[] {
  const own = [...path, 'when'];
  const gone = {
    where,
    says: `without when: ${JSON.stringify(value)}`,
    change: (document: Document) => {
      document.deleteIn(own);
    },
  };
  return [gone, ...parts(where, own, value)];
}

/** One key of several, or one bound of two. */
function parts(where: string, path: Path, value: unknown): Fault[] {
  if (!isMap(value)) return [];
  const keys = Object.keys(value);
  return keys.flatMap((key) => [
    ...(keys.length > 1
      ? [
          {
            where,
            says: `without ${key} of when: ${JSON.stringify(value)}`,
            change: (document: Document) => {
              document.deleteIn([...path, key]);
            },
          },
        ]
      : []),
    ...parts(where, [...path, key], value[key]),
  ]);
}
