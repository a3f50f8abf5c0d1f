/** Wrong figures, tightenings that were lost, lowerings that go too far. */
import type { Document } from 'yaml';
import type { Random } from '../../oracle/random';
import { isMap, list, text } from '../../oracle/raw';
import { type Fault, type FaultKind, inWords, leaveOut, type OperationView, type Path } from '../fault';

export const loseTorque: FaultKind = {
  name: 'lose a final torque',
  faults: (guide) =>
    guide.operations
      .filter(({ verb }) => verb === 'torque')
      .flatMap((operation) => {
        const { where } = operation.step;
        const said = inWords(operation);
        const stages = list(operation.raw.stages);
        return [
          { where, says: `without ${said}`, change: leaveOut(operation) },
          { where, says: `${said} becomes snug`, change: onlyNipped(operation) },
          ...(stages.length > 1
            ? [
                {
                  where,
                  says: `${said} without its last stage`,
                  change: (document: Document) => {
                    document.deleteIn([...operation.path, 'stages', stages.length - 1]);
                  },
                },
              ]
            : []),
        ];
      }),
};

/** The bolt is run to its seat and never tightened. */
function onlyNipped({ path, raw }: OperationView): (document: Document) => void {
  const kept = ['new', 'with', 'side', 'when', 'note'].filter((key) => raw[key] !== undefined);
  const left = Object.fromEntries(kept.map((key) => [key, raw[key]]));
  return (document) => document.setIn(path, document.createNode({ snug: raw.torque, ...left }));
}

export const stretchLowering: FaultKind = {
  name: 'stretch a lowering',
  faults: (guide, random) =>
    guide.operations
      .filter(({ verb, raw }) => verb === 'lower' && text(raw.by) !== undefined)
      .flatMap((operation) =>
        [1, 2, 3, 4, 5, 6].map(() => {
          const figure = Number.parseInt(text(operation.raw.by)!, 10);
          const far = `${figure + 10 * (1 + random.below(20))} mm`;
          return {
            where: operation.step.where,
            says: `${inWords(operation)} by ${far} for ${operation.raw.by}`,
            change: (document: Document) => document.setIn([...operation.path, 'by'], far),
          };
        }),
      ),
};

export const changeFigure: FaultKind = {
  name: 'change a figure',
  faults: (guide, random) =>
    guide.operations.flatMap((operation) =>
      figuresOf(operation).flatMap(({ path, value }) =>
        [1, 2].flatMap(() => changed(operation, path, value, random)),
      ),
    ),
};

interface Figure {
  readonly path: Path;
  readonly value: string;
}

/** The figures of an operation that a mechanic works to. */
function figuresOf({ verb, path, raw }: OperationView): Figure[] {
  if (!['torque', 'lower', 'raise', 'drill', 'inflate', 'set'].includes(verb)) return [];
  const found: Figure[] = [];
  const add = (own: Path, value: unknown) => {
    const said = text(value);
    if (said !== undefined && /^\d/.test(said)) found.push({ path: own, value: said });
  };
  for (const key of ['to', 'by', 'then']) add([...path, key], raw[key]);
  for (const key of ['to', 'stages'])
    for (const [at, one] of (Array.isArray(raw[key]) ? list(raw[key]) : []).entries())
      add([...path, key, at, ...(isMap(one) ? ['is'] : [])], isMap(one) ? one.is : one);
  return found;
}

function changed(operation: OperationView, path: Path, value: string, random: Random): Fault[] {
  const wrong = misread(value, random);
  if (wrong === value) return [];
  return [
    {
      where: operation.step.where,
      says: `${inWords(operation)}: ${value} becomes ${wrong}`,
      change: (document) => document.setIn(path, wrong),
    },
  ];
}

/** How figures go wrong on their way into a guide: digits exchanged, one lost, one too many, another unit's number, another row. */
function misread(value: string, random: Random): string {
  const [, digits = '', rest = ''] = /^([\d.]+)(.*)$/s.exec(value) ?? [];
  const number = Number(digits);
  const written = (figure: number) => String(Number(figure.toPrecision(2)));
  const ways = [
    () => written(number * random.one([0.5, 0.6, 0.7, 0.8, 1.2, 1.3, 1.5, 1.8])),
    () =>
      digits.length > 1 && !digits.includes('.')
        ? `${digits[1]}${digits[0]}${digits.slice(2)}`
        : written(number * 2),
    () => (digits.length > 2 && !digits.includes('.') ? digits.slice(0, -1) : `${number * 10}`),
    () => (rest.includes('N·m') ? written(number / 1.356) : written(number * 1.4)),
  ];
  const wrong = random
    .one(ways)()
    .replace(/^0+(?=\d)/, '');
  // A second unit in brackets would give the mistake away by itself; the writer converted it from the wrong figure.
  return `${wrong}${rest.replace(/\s*\(.*\)$/s, '')}`;
}
