/** What the verbs do to lines, springs, fluids, switches and metal (schemas/semantics.md §4). */

import { type Instance, matching } from '../model/instances';
import { readQuantity } from '../model/measures';
import type { Face, Hole, Line, Part } from '../model/model';
import { addAids, removeAids, UNNAMED } from './aids';
import { type Event, nameOf, type Subject } from './event';
import { end as endItems, line as lineItems, NORMAL_SWITCH, named, part as partItems, work } from './items';
import type { Simulation } from './simulation';
import type { Branch } from './state';

/** Names of a line's ends; a line without named ends has one, called nothing. */
export const endsOf = (line: Line): readonly string[] => (line.ends.length > 0 ? line.ends : ['']);

/** Does a verb to a line, to one end of it or to all. */
export function moveLine(branch: Branch, event: Event, line: Line, end: string | null, at: Instance): void {
  const ends = end === null ? endsOf(line) : [end];
  switch (event.verb) {
    case 'disconnect':
      disconnect(branch, line, ends, at);
      break;
    case 'connect':
      for (const name of ends) {
        branch.put(lineItems.connected(line, name, at), true);
        branch.put(lineItems.owed(line, name, at), false);
      }
      takenInUse(branch, line, at);
      break;
    case 'route': {
      const path = event.operation.words.get('path');
      if (path !== undefined) branch.put(lineItems.path(line, at), path);
      takenInUse(branch, line, at);
      break;
    }
    case 'unclip':
      branch.put(lineItems.clipped(line, at), false);
      branch.put(lineItems.clipOwed(line, at), true);
      break;
    case 'clip':
      branch.put(lineItems.clipped(line, at), true);
      branch.put(lineItems.clipOwed(line, at), false);
      break;
    case 'bleed':
      branch.put(lineItems.unbled(line, at), false);
      break;
    case 'check':
    case 'measure':
      // Who measures a length does not look for leaks.
      if (expectsLength(event)) break;
      if (endsOf(line).every((name) => branch.get(lineItems.connected(line, name, at)) === true))
        if (branch.get(lineItems.unbled(line, at)) !== true) branch.put(lineItems.unchecked(line, at), false);
      break;
    case 'remove':
    case 'unbolt':
      disconnect(branch, line, endsOf(line), at);
      branch.put(lineItems.state(line, at), 'off');
      break;
    case 'fit':
    case 'bolt-up':
      branch.put(lineItems.state(line, at), 'fitted');
      break;
    case 'discard':
      branch.put(lineItems.state(line, at), 'discarded');
      break;
  }
}

function expectsLength({ operation }: Event): boolean {
  const written = operation.qualifiers.get('expect');
  const figures = typeof written === 'object' && written !== null ? Object.values(written) : [written];
  return figures.some((figure) => figure !== undefined && readQuantity(String(figure), 'length') !== null);
}

function disconnect(branch: Branch, line: Line, ends: readonly string[], at: Instance): void {
  for (const name of ends) {
    branch.put(lineItems.connected(line, name, at), false);
    branch.put(lineItems.owed(line, name, at), true);
  }
  open(branch, line, at);
}

/** Air is in a hydraulic line, and a hydraulic or fuel line may leak, until somebody saw to it. */
function open(branch: Branch, line: Line, at: Instance): void {
  if (line.lineType === 'hydraulic') branch.put(lineItems.unbled(line, at), true);
  if (line.lineType === 'hydraulic' || line.lineType === 'fuel')
    branch.put(lineItems.unchecked(line, at), true);
}

/** A kit line that is routed or has one end connected owes every other end. */
function takenInUse(branch: Branch, line: Line, at: Instance): void {
  if (branch.get(lineItems.state(line, at)) !== 'boxed') return;
  branch.put(lineItems.state(line, at), 'fitted');
  open(branch, line, at);
  for (const name of endsOf(line))
    if (branch.get(lineItems.connected(line, name, at)) !== true)
      branch.put(lineItems.owed(line, name, at), true);
}

/** What `release` of something lets go: the thing itself and its ends. */
export function heldNames(subject: Subject): readonly string[] {
  const name = nameOf(subject);
  if (subject.type === 'part') return [name, ...[...subject.part.ends.keys()].map((end) => `${name}.${end}`)];
  if (subject.type !== 'line' || subject.end !== null) return [name];
  return [name, ...subject.line.ends.filter((end) => end !== '').map((end) => `${name}.${end}`)];
}

/** Verbs that act on whatever bears a name: holds, springs, fluids, switches, records. */
export function moveNamed(sim: Simulation, branch: Branch, event: Event, at: Instance): void {
  const { subject, operation } = event;
  const name = nameOf(subject);
  const part = subject.type === 'part' ? subject.part : null;
  switch (event.verb) {
    case 'hold':
      branch.put(
        named.hold(name, at),
        addAids(branch.get(named.hold(name, at)), operation.aids.length > 0 ? operation.aids : [UNNAMED]),
      );
      branch.put(named.holdOwed(name, at), true);
      break;
    case 'release': {
      const gone = operation.aids.map((aid) => aid.name);
      for (const held of heldNames(subject)) {
        const left = removeAids(
          branch.get(named.hold(held, at)),
          (aid) => gone.length === 0 || gone.includes(aid),
        );
        branch.put(named.hold(held, at), left);
        if (left === '') branch.put(named.holdOwed(held, at), false);
      }
      break;
    }
    case 'compress':
      if (part !== null) {
        branch.put(partItems.compressed(part, at), true);
        branch.put(partItems.compressorOwed(part, at), true);
      }
      break;
    case 'relax':
      if (part !== null) relax(event, branch, part, at);
      break;
    case 'adjust':
      load(sim, branch, part, at);
      break;
    case 'inflate':
      if (part !== null) {
        branch.put(partItems.pressure(part, at), operation.to?.nominal ?? 'full');
        branch.put(partItems.pressureOwed(part, at), false);
      }
      break;
    case 'deflate':
      if (part !== null) {
        branch.put(partItems.pressure(part, at), 'empty');
        branch.put(partItems.pressureOwed(part, at), true);
      }
      break;
    case 'isolate':
      branch.put(named.safe(name), true);
      branch.put(named.safeOwed(name), true);
      break;
    case 'restore':
      branch.put(named.safe(name), false);
      branch.put(named.safeOwed(name), false);
      break;
    case 'switch': {
      const value = operation.words.get('to') ?? '';
      const normal = normalValue(sim, name);
      branch.put(named.switched(name, normal), value);
      branch.put(named.switchOwed(name), normal !== '' && value !== normal);
      break;
    }
    case 'drain':
      branch.put(named.drained(name, at), true);
      branch.put(named.drainOwed(name, at), true);
      break;
    case 'fill':
      branch.put(named.drained(name, at), false);
      branch.put(named.drainOwed(name, at), false);
      break;
    case 'record':
      branch.put(named.recorded(name, at), true);
      break;
    case 'check':
    case 'measure': {
      const found = operation.words.get('else');
      if (found !== undefined) branch.put(named.measured(found), true);
      break;
    }
  }
}

/** What a switch is normally at: as `given` says first, else as always. */
export function normalValue(sim: Simulation, name: string): string {
  const given = sim.model.given.find(({ target }) => target.type === 'built-in' && target.name === name);
  return given?.state ?? NORMAL_SWITCH[name] ?? '';
}

function relax(event: Event, branch: Branch, part: Part, at: Instance): void {
  const withAdjuster = event.operation.qualifiers.has('with') && event.operation.aids.length === 0;
  if (part.attributes.adjusted && (withAdjuster || branch.get(partItems.compressed(part, at)) !== true)) {
    branch.put(partItems.unloaded(part, at), true);
    return;
  }
  branch.put(partItems.compressed(part, at), false);
  branch.put(partItems.compressorOwed(part, at), false);
}

/** `adjust` of a torsion bar, or of the adjuster that joins it, loads it again. */
function load(sim: Simulation, branch: Branch, part: Part | null, at: Instance): void {
  if (part === null) return;
  const bars = sim.corners.everyPart.filter(
    (other) => other.attributes.adjusted && (other === part || part.joins.includes(other)),
  );
  for (const bar of bars)
    for (const instance of matching(bar.instances, at)) branch.put(partItems.unloaded(bar, instance), false);
}

/** The holes, faces and the part itself whose edges a verb on a subject means. */
export function edgesOf(subject: Subject): readonly (Hole | Face | Part)[] {
  if (subject.type === 'hole') return [subject.hole];
  if (subject.type === 'face') return [subject.face];
  if (subject.type === 'part')
    return [subject.part, ...subject.part.holes.values(), ...subject.part.faces.values()];
  return [];
}

/** Does `mark drill cut weld deburr coat` to metal. */
export function workMetal(branch: Branch, event: Event, at: Instance): void {
  const { subject, operation, verb } = event;
  if (verb === 'mark' && subject.type === 'hole') {
    if (branch.get(work.hole(subject.hole, at)) === 'none') branch.put(work.hole(subject.hole, at), 'marked');
  }
  if (verb === 'drill' && subject.type === 'hole') {
    const { hole } = subject;
    const pilot = operation.to !== null && hole.size !== null && operation.to.nominal < hole.size - 0.05;
    // A thin drill does nothing to a hole that is wide already.
    if (!pilot || branch.get(work.hole(hole, at)) !== 'size')
      branch.put(work.hole(hole, at), pilot ? 'pilot' : 'size');
    if (!pilot) setEdge(branch, hole, at, 'raw');
  }
  if (verb === 'cut' || verb === 'weld') {
    const edge = subject.type === 'part' ? subject.part : edgesOf(subject)[0];
    if (edge !== undefined) setEdge(branch, edge, at, 'raw');
  }
  if (verb === 'deburr')
    for (const edge of edgesOf(subject))
      if (branch.get(work.edge(edge, at)) === 'raw') branch.put(work.edge(edge, at), 'deburred');
  if (verb === 'coat')
    for (const edge of edgesOf(subject))
      if (branch.get(work.edge(edge, at)) !== '') setEdge(branch, edge, at, 'protected');
}

function setEdge(branch: Branch, edge: Hole | Face | Part, at: Instance, value: string): void {
  branch.put(work.edge(edge, at), value);
  branch.put(work.edgeOwed(edge, at), value !== 'protected');
}

/** Does `free` and `seat` to an end. */
export function moveEnd(branch: Branch, event: Event, at: Instance): void {
  if (event.subject.type !== 'end') return;
  const { end } = event.subject;
  branch.put(endItems.freed(end, at), event.verb === 'free');
  branch.put(endItems.owed(end, at), event.verb === 'free');
}
