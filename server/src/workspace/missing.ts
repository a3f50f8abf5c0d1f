import type { Edit, Span } from '../findings/finding';
import { labourOf } from '../labour/labour';
import { readStandardTimes } from '../labour/standard-times';
import type { BoundStep, Thing } from '../model/model';
import { find } from '../text/access';
import type { Node } from '../text/tree';
import type { Document } from './document';
import type { OpenGuide } from './guides';
import { sectionTitles } from './labour';
import { thingOfTarget } from './meaning';

const touches = (a: Span, b: Span): boolean => a.start <= b.end && b.start <= a.end;

/** What an operation names at a place though no file declares it; each once. */
export function undeclaredAt({ model, document }: OpenGuide, span: Span): Thing[] {
  const found = new Set<Thing>();
  for (const step of model.steps)
    for (const operation of step.operations) {
      if (operation.place.uri !== document.uri) continue;
      for (const target of operation.targets) {
        const thing = thingOfTarget(target);
        if (thing?.origin === 'implied' && touches(target.span, span)) found.add(thing);
      }
    }
  return [...found];
}

/** The edit that declares a thing in a vehicle file: its kind as it was guessed, its sides and joints as the guide uses them. */
export function declarationEdit(vehicle: Document, thing: Thing): Edit | null {
  const { reading, text, uri } = vehicle;
  if (reading.root?.kind !== 'map') return null;
  const key = thing.type === 'part' ? 'parts' : 'lines';
  const entry = `${thing.name}: ${bodyOf(thing)}`;
  const map = find(reading.root, key, reading)?.written;
  const insert = (at: number, words: string): Edit => ({
    place: { uri, span: { start: at, end: at } },
    text: words,
  });
  if (map === undefined || map.kind !== 'map' || map.keys === null || map.keys.length === 0) {
    if (map !== undefined) return null;
    const end = text.length;
    return insert(end, `${text.endsWith('\n') || end === 0 ? '' : '\n'}${key}:\n  ${entry}\n`);
  }
  if (map.style === 'flow') return insert(endOf(map.items!.at(-1)!), `, ${entry}`);
  const first = map.keys[0]!;
  const indent = first.start - lineStart(text, first.start);
  const last = endOf(map.items!.at(-1)!);
  let end = text.indexOf('\n', Math.max(last - 1, 0));
  if (end < 0) end = text.length;
  return insert(end, `\n${' '.repeat(indent)}${entry}`);
}

const endOf = (node: Node): number => node.end;

function lineStart(text: string, offset: number): number {
  return Math.max(text.lastIndexOf('\n', offset - 1), text.lastIndexOf('\r', offset - 1)) + 1;
}

function bodyOf(thing: Thing): string {
  const said = [`kind: ${thing.kind ?? (thing.type === 'part' ? 'bracket' : 'cable')}`];
  if (thing.sided) said.push('sided: true');
  if (thing.type === 'part' && thing.joints.size > 0)
    said.push(`joints: { ${[...thing.joints.keys()].map((name) => `${name}: {}`).join(', ')} }`);
  return `{ ${said.join(', ')} }`;
}

/** Steps at a place whose time nobody knows. */
export function untimedStepsIn(guide: OpenGuide, span: Span): BoundStep[] {
  const { model, document, closure } = guide;
  const there = model.steps.filter(({ time, path }) => {
    const node = time === null && !path.includes('/') ? stepNode(document, path) : null;
    return node !== null && touches(node, span);
  });
  if (there.length === 0) return [];
  const times = closure.times.flatMap((one) => readStandardTimes(one.uri, one.reading));
  const unknown = new Set(
    labourOf(model, sectionTitles(document), times).unknown.map(({ place }) => place.span.start),
  );
  const found = new Map<string, BoundStep>();
  for (const step of there) if (unknown.has(step.place.span.start)) found.set(step.path, step);
  return [...found.values()];
}

/** The tree of a step of the guide itself. */
function stepNode({ reading }: Document, path: string): Node | null {
  const [section = 0, step = 0] = path.split('.').map(Number);
  const sections = reading.root === null ? undefined : find(reading.root, 'sections', reading)?.value;
  const holder = sections?.items?.[section - 1];
  const steps = holder === undefined ? undefined : find(holder, 'steps', reading)?.value;
  return steps?.items?.[step - 1] ?? null;
}

/** The edit that gives a step a time to begin with: the middle of this guide's times, five minutes where it has none. */
export function timeEdit(
  { model, document }: OpenGuide,
  step: BoundStep,
): { edit: Edit | null; minutes: number } {
  const known = model.steps.flatMap(({ time }) => (time === null ? [] : [time.likely])).sort((a, b) => a - b);
  const minutes = Math.max(1, Math.round(known[known.length >> 1] ?? 5));
  const { text, uri } = document;
  const node = stepNode(document, step.path);
  const firstKey = node?.kind === 'map' ? node.keys?.[0] : undefined;
  if (node === null || firstKey === undefined) return { edit: null, minutes };
  const words = `time: ${minutes} min`;
  const at = (offset: number, inserted: string): Edit => ({
    place: { uri, span: { start: offset, end: offset } },
    text: inserted,
  });
  if (node.style === 'flow') return { edit: at(firstKey.start, `${words}, `), minutes };
  const indent = firstKey.start - lineStart(text, firstKey.start);
  let end = node.end;
  while (end > 0 && /\s/.test(text[end - 1]!)) end--;
  const line = text.indexOf('\n', end);
  return { edit: at(line < 0 ? text.length : line, `\n${' '.repeat(indent)}${words}`), minutes };
}
