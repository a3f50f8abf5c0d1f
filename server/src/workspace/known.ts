/** What is known and not written yet: a figure, an aid, a time, a spanner, each with the edits that write it down. */

import { spannersFor } from '../calc/spanners';
import { parseThread } from '../calc/threads';
import { setKey } from '../edit/maps';
import { GuideText } from '../edit/steps';
import type { Edit, Span } from '../findings/finding';
import { stepLabours } from '../labour/labour';
import type { BoundOperation, BoundStep, Joint } from '../model/model';
import { entries, find, keyName } from '../text/access';
import type { Node } from '../text/tree';
import { printQuantity } from '../units/format';
import { touches } from './at';
import { AID_FOR } from './candidates';
import type { Document } from './document';
import type { OpenGuide } from './guides';
import { standardTimesOf } from './labour';
import { baseName } from './paths';

export interface KnownEdit {
  readonly title: string;
  readonly edits: readonly Edit[];
}

const MOST_AIDS = 3;

/** What a guide at a place could say, from its files and from what it says elsewhere. Nothing of steps that are used from elsewhere. */
export function knownInGuide(guide: OpenGuide, span: Span): KnownEdit[] {
  const { model, document } = guide;
  const written = new GuideText(document);
  const found: KnownEdit[] = [];
  const told = new Set<string>();
  const add = (title: string, edits: readonly Edit[] | null): void => {
    if (edits !== null && !told.has(title)) found.push({ title, edits });
    told.add(title);
  };
  for (const step of model.steps) {
    if (step.path.includes('/')) continue;
    const node = written.step(step.path);
    if (node === null || !touches(node, span)) continue;
    for (const operation of step.operations) {
      if (!touches(operation.place.span, span)) continue;
      for (const [title, value] of aidsFor(guide, operation))
        add(title, written.setKey(operation.path, 'with', value));
      const figure = figureOf(operation);
      if (figure !== null)
        add(`Write its figure here: to: ${figure}`, written.setKey(operation.path, 'to', figure));
      for (const { title, edits } of figureForFile(guide, operation)) add(title, edits);
    }
    const figures = figuresForText(document, node, step, span);
    if (figures !== null) add(figures.title, written.setKey(step.path, 'text', figures.text));
    const minutes = standardMinutes(guide, step);
    if (minutes !== null)
      add(
        `Write down its standard time, ${minutes} min`,
        written.setKey(step.path, 'time', `${minutes} min`),
      );
  }
  return found;
}

/** The hexagon of joints at a place of a vehicle or kit file that have a thread and no tool, by the standards that have one. */
export function spannersAt(document: Document, span: Span): KnownEdit[] {
  const { root } = document.reading;
  if (root === null || (document.kind !== 'vehicle' && document.kind !== 'kit')) return [];
  const found: KnownEdit[] = [];
  for (const { name, key, joint } of writtenJoints(document, root)) {
    if (!touches({ start: key.start, end: joint.end }, span) || joint.kind !== 'map') continue;
    if (TOOLS.some((tool) => find(joint, tool, document.reading) !== undefined)) continue;
    const thread = find(joint, 'thread', document.reading)?.value.value;
    const read = typeof thread === 'string' ? parseThread(thread) : null;
    if (read?.ok !== true) continue;
    const told = new Set<string>();
    for (const { marked, source } of spannersFor(read.thread)) {
      if (told.has(marked)) continue;
      told.add(marked);
      const edits = setKey(document, joint, 'hex', marked, { behind: ['thread', 'class', 'nut'] });
      if (edits !== null)
        found.push({ title: `Give ${name} its spanner, ${marked} (${source}; flange heads differ)`, edits });
    }
  }
  return found;
}

const TOOLS = ['hex', 'key'] as const;

/** Joints as a file writes them, under its parts and its kinds. */
function* writtenJoints(
  { reading }: Document,
  root: Node,
): Generator<{ readonly name: string; readonly key: Node; readonly joint: Node }> {
  for (const group of ['parts', 'kinds']) {
    const things = find(root, group, reading)?.written;
    if (things?.kind !== 'map') continue;
    for (const thing of entries(things, reading)) {
      const joints =
        thing.written.kind === 'map' ? find(thing.written, 'joints', reading)?.written : undefined;
      if (joints?.kind !== 'map') continue;
      for (const joint of entries(joints, reading))
        yield {
          name: `${keyName(thing.key, reading)}.${keyName(joint.key, reading)}`,
          key: joint.key,
          joint: joint.written,
        };
    }
  }
}

/** Aids that the guide uses elsewhere for the same verb, those for the same thing first. */
function* aidsFor({ model }: OpenGuide, operation: BoundOperation): Generator<[title: string, aid: string]> {
  const able = AID_FOR.get(operation.verb);
  if (able === undefined || operation.aids.length > 0 || operation.qualifiers.has('with')) return;
  const names = (one: BoundOperation) => one.targets.map(({ written }) => written);
  const own = new Set(names(operation));
  const uses = model.steps.flatMap(({ operations }) =>
    operations.filter(({ verb }) => verb === operation.verb),
  );
  uses.sort(
    (a, b) => Number(names(b).some((one) => own.has(one))) - Number(names(a).some((one) => own.has(one))),
  );
  const aids = new Map(uses.flatMap(({ aids }) => aids.map((aid) => [aid.name, aid] as const)));
  let count = 0;
  for (const [name, aid] of aids) {
    if (!aid.known || aid[able] !== true || count === MOST_AIDS) continue;
    count++;
    yield [`Say what with: ${name}, as elsewhere in this guide`, name];
  }
}

const jointsOf = (operation: BoundOperation): Joint[] =>
  operation.targets.flatMap((target) => (target.type === 'joint' ? [target.joint] : []));

/** The one figure that the data have for all joints of an operation which says none. */
function figureOf(operation: BoundOperation): string | null {
  if (operation.verb !== 'torque' || operation.figure.length > 0 || operation.qualifiers.has('to'))
    return null;
  const figures = jointsOf(operation).map(({ torque }) => (torque === null ? null : printQuantity(torque)));
  const [first] = figures;
  return first !== undefined &&
    figures.length === operation.targets.length &&
    figures.every((one) => one === first)
    ? first
    : null;
}

/** A figure that the guide gives for joints whose file has none. */
function figureForFile({ closure }: OpenGuide, operation: BoundOperation): KnownEdit[] {
  const to = operation.qualifiers.get('to');
  if (operation.verb !== 'torque' || typeof to !== 'string' || operation.figure.length !== 1) return [];
  if (operation.figure[0]!.value === 'maker') return [];
  return jointsOf(operation).flatMap((joint): KnownEdit[] => {
    const document = joint.torque === null ? closure.documents.get(joint.declared?.uri ?? '') : undefined;
    const written = document?.reading.root == null ? [] : [...writtenJoints(document, document.reading.root)];
    const node = written.find(({ name }) => name === joint.full)?.joint;
    const edits = document === undefined || node === undefined ? null : setKey(document, node, 'torque', to);
    return edits === null
      ? []
      : [{ title: `Write ${to} for ${joint.full} into ${baseName(document!.uri)}`, edits }];
  });
}

/** The words of a step with the figures it torques to and does not mention, asked for at either. Only words on one line. */
function figuresForText(
  { reading, text: all }: Document,
  node: Node,
  step: BoundStep,
  span: Span,
): { readonly title: string; readonly text: string } | null {
  const entry = find(node, 'text', reading);
  const text = entry?.value.value;
  if (entry === undefined || entry.merged || typeof text !== 'string' || text.trim() === '') return null;
  if (all.slice(entry.written.start, entry.written.end).includes('\n')) return null;
  const torques = step.operations.filter(({ verb, path }) => verb === 'torque' && !path.includes('/'));
  const there = [
    { start: entry.key.start, end: entry.written.end },
    ...torques.map(({ place }) => place.span),
  ];
  if (!there.some((one) => touches(one, span))) return null;
  const named = torques.flatMap((operation) =>
    jointsOf(operation).filter(({ torque }) => torque !== null || operation.figure.length > 0),
  );
  const joints = [...new Set(named)].filter(({ full }) => !text.includes(`{torque:${full}}`));
  if (joints.length === 0) return null;
  const figure = ({ full }: Joint) => `{torque:${full}}`;
  const words =
    joints.length === 1
      ? figure(joints[0]!)
      : joints.map((joint) => `${joint.full} ${figure(joint)}`).join(', ');
  return {
    title: joints.length === 1 ? 'Put its figure into the words' : 'Put its figures into the words',
    text: `${text.trimEnd().replace(/[^.!?]$/, '$&.')} Torque ${words}.`,
  };
}

/** Minutes by standard times, of a step that says none itself and takes the same in all variants; null otherwise. */
function standardMinutes({ model, closure }: OpenGuide, step: BoundStep): number | null {
  if (step.time !== null || closure.times.length === 0) return null;
  if (step.operations.length === 0 || step.operations.some(({ verb }) => verb === 'wait' || verb === 'use'))
    return null;
  const times = standardTimesOf(closure);
  const own = stepLabours(model, times).find(({ path }) => path === step.path);
  if (own === undefined || own.atLeast || own.lowest !== own.highest || own.elapsed <= 0) return null;
  return Math.round(own.elapsed * 10) / 10;
}
