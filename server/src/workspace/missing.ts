import { setKey } from '../edit/maps';
import { GuideText } from '../edit/steps';
import { IN_BRACES, type Layout, type Value } from '../edit/write';
import type { Edit, Span } from '../findings/finding';
import type { BoundStep, Thing } from '../model/model';
import { thingOfTarget } from '../model/target';
import { find } from '../text/access';
import { touches } from './at';
import type { Document } from './document';
import type { OpenGuide } from './guides';
import { labourOfModel, standardTimesOf } from './labour';

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

/** The edits that declare a thing in a vehicle file: its kind as it was guessed, its sides and joints as the guide uses them. */
export function declarationEdits(vehicle: Document, thing: Thing): Edit[] | null {
  const { root } = vehicle.reading;
  if (root?.kind !== 'map') return null;
  const key = thing.type === 'part' ? 'parts' : 'lines';
  const map = find(root, key, vehicle.reading);
  const body = declarationOf(thing);
  if (map === undefined)
    return setKey(vehicle, root, key, { [thing.name]: body }, { layout: NAMES_ON_LINES });
  return map.merged || map.written.kind !== 'map' ? null : setKey(vehicle, map.written, thing.name, body);
}

/** The names of a map stand on lines of their own, and what they say in braces. */
const NAMES_ON_LINES: Layout = { ...IN_BRACES, flow: (_, depth) => depth > 1 };

/** What is said of a thing that only a guide names: its kind as it was guessed, its sides and joints as they are used. */
export function declarationOf(thing: Thing): { [key: string]: Value } {
  const body: { [key: string]: Value } = {
    kind: thing.kind ?? (thing.type === 'part' ? 'bracket' : 'cable'),
  };
  if (thing.sided) body.sided = true;
  if (thing.type === 'part' && thing.joints.size > 0)
    body.joints = Object.fromEntries([...thing.joints.keys()].map((name) => [name, {}]));
  return body;
}

/** Steps at a place whose time nobody knows. */
export function untimedStepsIn(guide: OpenGuide, span: Span): BoundStep[] {
  const { model, document, closure } = guide;
  const written = new GuideText(document);
  const there = model.steps.filter(({ time, path }) => {
    const node = time === null && !path.includes('/') ? written.step(path) : null;
    return node !== null && touches(node, span);
  });
  if (there.length === 0) return [];
  const unknown = new Set(
    labourOfModel(closure, model, standardTimesOf(closure)).unknown.map(({ place }) => place.span.start),
  );
  const found = new Map<string, BoundStep>();
  for (const step of there) if (unknown.has(step.place.span.start)) found.set(step.path, step);
  return [...found.values()];
}

/** The edits that give a step a time to begin with: the middle of this guide's times, five minutes where it has none. */
export function timeEdits(
  { model, document }: OpenGuide,
  step: BoundStep,
): { edits: Edit[] | null; minutes: number } {
  const known = model.steps.flatMap(({ time }) => (time === null ? [] : [time.likely])).sort((a, b) => a - b);
  const minutes = Math.max(1, Math.round(known[known.length >> 1] ?? 5));
  return { edits: new GuideText(document).setKey(step.path, 'time', `${minutes} min`), minutes };
}
